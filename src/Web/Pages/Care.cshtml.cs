using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages;

/// <summary>What needs care in the whole collection: one list at a time, a page at a time.</summary>
public sealed class CareModel(CareLists lists, TimeProvider clock) : PageModel
{
    /// <summary>Hours of light after which a piece is marked to rest: what is often allowed a year, at 50 lux, for the most sensitive things.</summary>
    /// <remarks>15 000 lux hours a year (CIE 157:2004, high responsivity), from memory; no level is harmless.</remarks>
    public const int LongEnough = 300;

    private const int Size = 24;

    /// <summary>A list that can be looked at.</summary>
    public sealed record Way(string List, string Label, long Count);

    private DateOnly Today => DateOnly.FromDateTime(clock.GetLocalNow().DateTime);

    public string List { get; private set; } = "";

    public CareCounts Counts { get; private set; } = null!;

    public IReadOnlyList<Way> Ways { get; private set; } = [];

    public IReadOnlyList<TileView> Pieces { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    public string Title => Ways.Single(w => w.List == List).Label;

    public async Task<IActionResult> OnGet([FromQuery] string? list, [FromQuery] int number = 1, CancellationToken ct = default)
    {
        Counts = await lists.Count(Today, ct);
        Ways =
        [
            .. Enumerable.Range(1, Sighting.MostUrgent).Reverse().Select(u => new Way(Sighting.AttentionOf(u), FindingWords.Urgency(u), Counts.ByUrgency[u])),
            new("away", T("Lent or borrowed"), Counts.Away), new("light", T("Shown to the light"), Counts.Shown),
        ];
        // Without a choice the first that has something in it.
        List = list ?? Ways.FirstOrDefault(w => w.Count > 0)?.List ?? Ways[0].List;
        if (number is < 1 or > 10_000 || Ways.All(w => w.List != List))
        {
            return NotFound();
        }

        var (total, pieces) = List switch
        {
            "away" => await lists.Away(number, Size, ct),
            "light" => await lists.Shown(number, Size, ct),
            _ => await lists.Asking(Ways.Count - 2 - Ways.ToList().FindIndex(w => w.List == List), number, Size, ct),
        };
        Pieces = [.. pieces.Select(g => Tile(g.State()))];
        Pager = new(number, Size, total, n => $"/care?list={List}&number={n}");
        return Page();
    }

    private TileView Tile(JsonObject state)
    {
        var tile = TileView.Of(state);
        return List switch
        {
            "away" => Away(tile, state, Whereabouts.Of(state)!),
            "light" => Light(tile, Showings.Of(state, Today)),
            _ => Findings(tile, ConditionHistory.Of(state)),
        };
    }

    private static TileView Findings(TileView tile, ConditionHistory history)
    {
        var first = history.Findings.Where(f => !f.IsOver && f.Urgency > 0 && f.Urgency == history.Findings[0].Urgency).ToList();
        return tile with
        {
            To = $"{tile.To}#{first[0].Latest.Id}",
            Lines = [.. first.Take(3).Select(f => $"{Say.Entry("condition", f.Latest.Entry)}: {FindingWords.Look(f.Latest)}"), .. first.Count > 3 ? [T($"and {first.Count - 3} more")] : Array.Empty<string>()],
        };
    }

    private TileView Away(TileView tile, JsonObject state, Whereabouts at) => tile with
    {
        To = $"{tile.To}#care",
        Lines = [CareWords.Say(at, state["whereabouts"]!["since"], Today)],
        Marks = [.. at.DaysLeft(Today) < 0 ? [T("Overdue")] : Array.Empty<string>(), .. tile.Marks],
    };

    private static TileView Light(TileView tile, Showings shown) => tile with
    {
        To = $"{tile.To}#care",
        Lines = [CareWords.Shown(shown), .. shown.OnShow is { } now ? [now["where"] is { } where ? T($"On show now: {where}") : T("On show now")] : Array.Empty<string>()],
        Marks = [.. shown.HoursOfLight >= LongEnough ? [T("Let it rest")] : Array.Empty<string>(), .. tile.Marks],
    };
}
