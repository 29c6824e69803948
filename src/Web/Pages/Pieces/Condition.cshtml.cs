using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A piece's condition over time: what two examinations differ in, every examination, everything that is followed.</summary>
public sealed class ConditionModel(Archive archive, IndexFollower index) : FormPage(archive, index)
{
    private static readonly RecordType Ended = (RecordType)GarmentShape.Finding.Fields.Single(f => f.Name == "ended").Type;

    private JsonObject state = [];

    public string Name => state["name"]?.ToString() ?? "";

    public ConditionView View { get; private set; } = null!;

    /// <summary>The two examinations that are compared; null where there are not two.</summary>
    public (Examined First, Examined Second)? Pair { get; private set; }

    public IReadOnlyList<IGrouping<Became, Compared>> Differences => Pair is { } pair
        ? [.. Comparison.Of(View.History, pair.First, pair.Second).GroupBy(c => c.Became)] : [];

    /// <summary>What is being ended, where that was refused: it is asked for again; null otherwise.</summary>
    public FollowedFinding? Ending { get; private set; }

    /// <summary>The fields of an end.</summary>
    public static IReadOnlyList<Field> EndFields => Ended.Fields;

    /// <summary>What was found between examinations, or without a date.</summary>
    public IReadOnlyList<Sighting> Between => [.. View.History.Sightings.Where(s => s.Examined is null)];

    public async Task<IActionResult> OnGet([FromRoute] Guid id, [FromQuery] string? first, [FromQuery] string? second, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Choose(first, second);
        if (Form.Faults.Count > 0)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
        }

        return Page();
    }

    /// <summary>Ends what is followed: the finding, and those before it that it alone continues, so that nothing of it asks for care any more.</summary>
    public async Task<IActionResult> OnPostEnd([FromRoute] Guid id, long version, string? finding, CancellationToken ct)
    {
        if (!await Load(id, ct) || View.History.Findings.FirstOrDefault(f => f.Latest.Id == finding) is not { } followed)
        {
            return NotFound();
        }

        var names = Form.NameOf;
        Rearranges(Ended, state);
        Form = new(Form.Values) { Garment = state, NameOf = names };
        Version = version;
        if (Form.Values.Count > 0)
        {
            var change = new JsonObject { ["condition"] = With(followed, Form.Values) };
            if (await Save(async () => (id, (await Archive.Change(id, version, change, Who, ct)).Position)))
            {
                return ToPiece(id, followed.Latest.Id);
            }

            // The fault lies in the list; to her it is the one field that she filled in.
            Form.Faults = [.. Form.Faults.Select(f => f with { Path = f.Path[(f.Path.LastIndexOf('.') + 1)..] }).DistinctBy(f => f.Path)];
        }
        else
        {
            Form.Faults = [new("date", T("Say since when it is over, a day such as 2026-10-18, or which repair ended it."))];
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }

        Ending = followed;
        Choose(null, null);
        return Page();
    }

    private JsonArray With(FollowedFinding followed, JsonObject ended)
    {
        var shared = View.History.Findings.Where(f => f != followed && !f.IsOver).SelectMany(f => f.Sightings).Select(s => s.Id).ToHashSet();
        var its = followed.Sightings.Where(s => !s.IsEnded && !shared.Contains(s.Id)).Select(s => s.Id).ToHashSet();
        var list = state["condition"]!.DeepClone().AsArray();
        foreach (var entry in list.OfType<JsonObject>().Where(e => its.Contains(e["id"]!.ToString())))
        {
            entry["ended"] = ended.DeepClone();
        }

        return list;
    }

    // Those asked for; without a choice the last two.
    private void Choose(string? first, string? second)
    {
        var all = View.History.Examinations;
        var (one, other) = (Find("first", first), Find("second", second));
        if (all.Count < 2 || Form.Faults.Any(f => f.Path is "first" or "second"))
        {
            return;
        }

        other ??= all.Last(e => e != one);
        one ??= all.Last(e => e != other);
        Pair = one.Place <= other.Place ? (one, other) : (other, one);
    }

    private Examined? Find(string name, string? id)
    {
        if (string.IsNullOrEmpty(id))
        {
            return null;
        }

        var found = View.History.Examination(id);
        if (found is null)
        {
            Form.Faults = [.. Form.Faults, new(name, T($"“{id.Short()}” is none of the times this piece was looked over; choose one from the list."))];
        }

        return found;
    }

    private async Task<bool> Load(Guid id, CancellationToken ct)
    {
        if (await Archive.Find(id, ct) is not { } garment)
        {
            return false;
        }

        (state, Version) = (garment.State(), garment.Version);
        View = new(state, Version);
        Form = new([]) { NameOf = path => path switch { "first" => T("The first"), "second" => T("The second"), "date" => T("Over since"), "repair" => T("By the repair"), _ => Say.Path(path) } };
        return true;
    }
}
