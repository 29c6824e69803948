using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>How old a piece can be: by what is recorded of it and by what she ticks beside that. Ticks stand in the address only.</summary>
public sealed class DatingModel(Archive archive, IndexFollower index) : FormPage(archive, index)
{
    public Guid Id { get; private set; }

    public JsonObject State { get; private set; } = [];

    public IReadOnlyList<string> Seen { get; private set; } = [];

    public DatingHelp Help { get; private set; } = DatingHelp.Of([], []);

    public string Name => State["name"]?.ToString() ?? "";

    public bool Aside => State["setAside"] is JsonObject;

    public string? Dated => State["dated"]?.ToString();

    public async Task<IActionResult> OnGet(Guid id, string[] seen, CancellationToken ct) => await Load(id, seen, ct) ? Page() : NotFound();

    /// <summary>Takes the narrowed span over as the piece's date, and if she likes the reasons into its description.</summary>
    public async Task<IActionResult> OnPostTake([FromRoute] Guid id, long version, string[] seen, string? which, bool note, CancellationToken ct)
    {
        if (!await Load(id, seen, ct))
        {
            return NotFound();
        }

        Version = version;
        if ((which == "likely" ? Help.Likely : Help.Narrowed) is not { } span)
        {
            Form.Faults = [new("", T("What is ticked no longer narrows the date. Look at the reasons again."))];
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return Page();
        }

        var change = new JsonObject { ["dated"] = span };
        if (note)
        {
            // In English, as all that is kept of our own words: the record is not one reader's alone.
            var reasons = Help.Reasons.Where(r => which == "likely" || r.Mark.NotBefore is not null)
                .Select(r => $"{r.Evidence.Seen}: {(r.Mark.NotBefore is null ? "hardly" : "not")} before {r.Mark.Year}. {r.Mark.Reason} ({r.Mark.Source}{(IsLookedUp(r.Mark.Source, r.Mark.Read) ? "" : "; from memory, to be looked up")})");
            change["description"] = string.Join('\n', new[] { State["description"]?.ToString(), $"Dated {DateInWords.SayInEnglish(span)}:" }.Where(t => t is not null).Concat(reasons));
        }

        return await Save(async () => (id, (await Archive.Change(id, version, change, Who, ct)).Position)) ? ToPiece(id) : Page();
    }

    /// <summary>A mark in words: "not before 1913".</summary>
    public static string Say(DatingMark mark) => mark.NotBefore is { } year ? T($"not before {year}") : T($"hardly before {mark.UnlikelyBefore}");

    /// <summary>A source, with the word on whether it was read.</summary>
    public static string Source(string source, bool read) =>
        IsLookedUp(source, read) ? source : T($"{source}; from memory, to be looked up");

    /// <summary>Where in the record a reason was seen.</summary>
    public static string Where(DatingReason reason) => string.Join("; ", reason.Seen.Select(e => e["kind"] is null ? T("the cloth") : Reading.Say.Entry("techniques", e)));

    // Or says itself that it was not.
    private static bool IsLookedUp(string source, bool read) => read || source.Contains("from memory", StringComparison.Ordinal);

    private async Task<bool> Load(Guid id, string[] seen, CancellationToken ct)
    {
        if (await Archive.Find(id, ct) is not { } garment)
        {
            return false;
        }

        (Id, State, Version, Seen) = (id, garment.State(), garment.Version, seen);
        Help = DatingHelp.Of(State, seen);
        return true;
    }
}
