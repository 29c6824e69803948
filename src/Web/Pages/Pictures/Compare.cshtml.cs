using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Web.Iiif;
using HeirloomArchive.Web.Pages.Reading;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>One more that can be laid beside.</summary>
public sealed record CompareChoice(string Show, string Name, Closeup Close);

/// <summary>Two to four pictures or places on them, side by side, at one scale where it is known of all.</summary>
public sealed class CompareModel(Archive archive, RegionKeeping keeping, IDocumentStore documents) : PageModel
{
    /// <summary>More than these no screen shows large enough.</summary>
    public const int Most = 4;

    public IReadOnlyList<Compared> Items { get; private set; } = [];

    /// <summary>What the piece that is looked for has to be laid beside.</summary>
    public IReadOnlyList<CompareChoice> Choices { get; private set; } = [];

    /// <summary>The number that was looked for, and the piece that has it.</summary>
    public string? Piece { get; private set; }

    public string? PieceName { get; private set; }

    /// <summary>Whether all have a scale, and so one and the same on this page.</summary>
    public bool OneScale => Items.Count > 0 && Items.All(i => i.Scale is not null);

    /// <summary>Of what is shown, the widest and the highest in units of the page.</summary>
    public (double Width, double Height) Frame => (Items.Max(i => i.Close.Crop.Width / i.Unit(OneScale)), Items.Max(i => i.Close.Crop.Height / i.Unit(OneScale)));

    /// <summary>How long a bar of scale is, in millimetres: about a quarter of the width.</summary>
    public double Bar => ((double[])[100, 50, 20, 10, 5, 2, 1]).FirstOrDefault(b => b <= Frame.Width / 3, 0.5);

    public async Task<IActionResult> OnGet(string[] show, string? piece, CancellationToken ct)
    {
        List<Compared> items = [];
        foreach (var one in show.Where(s => s.Length > 0).Distinct().Take(Most))
        {
            if (await Compared.Read(one, keeping, ct) is { } item)
            {
                items.Add(item);
            }
        }

        Items = items;
        Piece = piece?.Trim();
        if (await Find(ct) is { } garment)
        {
            PieceName = garment.Name;
            Choices = Offer(garment, await keeping.OfGarment(garment, ct: ct));
        }

        return Page();
    }

    /// <summary>The address of this page with one more or one less.</summary>
    public string With(string? more = null, string? less = null) => "/pictures/compare?" + string.Join('&',
        Items.Select(i => i.Show).Where(s => s != less).Concat(more is null ? [] : [more]).Select(s => $"show={Uri.EscapeDataString(s)}"));

    /// <summary>A number for an attribute.</summary>
    public static string Number(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);

    // The piece that is asked for by its number; else the piece of what lies here already.
    private async Task<Garment?> Find(CancellationToken ct)
    {
        if (string.IsNullOrEmpty(Piece))
        {
            return Items.Count == 0 ? null : Items[0].Frame.Garment;
        }

        await using var session = documents.QuerySession();
        var taken = Piece.Length > 100 ? null : await session.LoadAsync<NumberReservation>(NumberReservation.Normalise(Piece), ct);
        return taken is null ? null : await archive.Find(taken.Garment, ct);
    }

    private List<CompareChoice> Offer(Garment garment, IReadOnlyList<Region> regions)
    {
        List<CompareChoice> choices = [];
        foreach (var (entry, place) in (garment.Fields["pictures"] as JsonArray ?? []).OfType<JsonObject>().Select((p, i) => (p, i + 1)))
        {
            var frame = new RegionFrame(Guid.Parse(entry["id"]!.ToString()), garment, entry);
            choices.Add(new(frame.Picture.ToString(), RegionWord.Picture(entry, place), Closeup.Whole(frame)));
            choices.AddRange(regions.Where(r => r.Picture == frame.Picture).Select(r => new CompareChoice($"{frame.Picture}/{r.Id}", RegionWord.Line(r, frame), Closeup.Of(r, frame))));
        }

        return [.. choices.Where(c => Items.All(i => i.Show != c.Show))];
    }
}
