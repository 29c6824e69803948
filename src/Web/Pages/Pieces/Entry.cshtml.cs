using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Outlines;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>One entry of a garment's lists, new or changed: a technique, a finding, a repair, an examination, a picture's words.</summary>
public sealed class EntryModel(Archive archive, IndexFollower index, Drafts drafts, Past past, TimeProvider clock) : DraftedPage(archive, index, drafts)
{
    // What the upload found out about a picture is not hers to change.
    private static readonly string[] OfPictures = ["caption", "view", "tags"];

    private JsonObject state = [];
    private JsonObject? kept;
    private bool pointedAt;

    public Guid Id { get; private set; }

    public string Name => state["name"]?.ToString() ?? "";

    public string List { get; private set; } = "";

    public bool IsNew => kept is null;

    public string? EntryId => kept?["id"]?.ToString();

    /// <summary>Who took the entry out of the record while she was writing; null if it is there.</summary>
    public Step? TakenOut { get; private set; }

    /// <summary>A technique's fields hang on its kind, so that is asked first.</summary>
    public bool AsksKind => List == "techniques" && IsNew && Form.At("kind") is null;

    public string Heading => IsNew
        ? From is { } from ? List == "condition" ? T($"{Say.Entry("condition", from)}: looked at again") : T($"{Say.Entry("condition", from)}: mended")
        : T($"New {Asking.One(List, List == "techniques" ? Form.At("kind")?.ToString() : null)}")
        : Say.Entry(List, kept!);

    public bool IsTucks => List == "techniques" && Form.At("kind")?.ToString() == "tucks";

    /// <summary>A run of tucks as the record would keep it, computed fields included; null for anything else.</summary>
    public JsonObject? Understood { get; private set; }

    /// <summary>The drawing on which the part can be chosen; null for an entry that has no part.</summary>
    public OutlineView? Where => List is "techniques" or "condition" or "repairs"
        ? new(state["kind"], null, Form.At("part") is JsonValue part ? new(part.ToString(), Form.Text("side")) : null, ToPart) { Open = IsNew || pointedAt }
        : null;

    /// <summary>What a finding goes on from, or a repair mends, followed from its first day; null for anything else.</summary>
    public FollowedFinding? Earlier => EarlierId is { Length: > 0 } id
        ? ConditionHistory.Of(state).Findings.FirstOrDefault(f => f.Sightings.Any(s => s.Id == id)) : null;

    // Each kind of new work, each finding looked at again and each one mended is a form of its own.
    private string DraftForm => $"{Id}:{List}:" + (!IsNew ? kept!["id"]
        : Words.Find("techniques", Request.Query["kind"].ToString()) is { } kind ? $"new:{kind.Slug}"
        : From is { } from ? $"new:{from["id"]}" : "new");

    private string Refers => List == "condition" ? "continues" : List == "repairs" ? "answers" : "";

    private string? EarlierId => Refers.Length > 0 && Form.At(Refers) is JsonValue id ? id.ToString() : null;

    // The finding that the address names.
    private JsonObject? From => IsNew && Request.Query[Refers].ToString() is { Length: > 0 } id
        ? (state["condition"] as JsonArray)?.OfType<JsonObject>().FirstOrDefault(f => f["id"]?.ToString() == id) : null;

    private string DraftOf => IsNew ? T($"a new {Asking.One(List)} of “{Name}”") : $"“{Heading}”";

    /// <summary>The fields that this form asks for.</summary>
    public static RecordType Shape(string list) => list == "pictures"
        ? new RecordType([.. GarmentShape.Picture.Fields.Where(f => OfPictures.Contains(f.Name))])
        : GarmentShape.EntryOf(list);

    // From the address only: the form has fields of such names too.
    public async Task<IActionResult> OnGet([FromRoute] Guid id, [FromRoute] string list, [FromRoute] string entry, [FromQuery] string? part, [FromQuery] string? side, CancellationToken ct)
    {
        if (!await Load(id, list, entry, ct))
        {
            return NotFound();
        }

        await TakeUp(DraftForm, DraftOf, Shape(list), ct);
        if (part is not null && Words.Find("parts", part) is not null)
        {
            pointedAt = true;
            Form.Put("part", part);
            Form.Put("side", side is "left" or "right" ? side : "");
        }

        Understand(show: false);
        return Page();
    }

    public async Task<IActionResult> OnPost([FromRoute] Guid id, [FromRoute] string list, [FromRoute] string entry, CancellationToken ct)
    {
        if (!await Load(id, list, entry, ct) && !await LoadTakenOut(id, list, entry, ct))
        {
            return NotFound();
        }

        if (await Press(DraftForm, DraftOf, Shape(list), state, ct) is { } pressed)
        {
            Understand(show: Request.Form["show"].ToString().Length > 0);
            return pressed;
        }

        if (TakenOut is not null && Request.Form["again"].ToString().Length == 0)
        {
            await Keep(Posted, ct);
            Response.StatusCode = StatusCodes.Status412PreconditionFailed;
            return Page();
        }

        var at = entry;
        return await SaveDrafted(async () =>
        {
            var saved = IsNew || TakenOut is not null
                ? await Add(id, list, ct)
                : await Archive.PutEntry(id, Version, list, Guid.Parse(entry), Form.Values.DeepClone().AsObject(), Who, ct);
            at = saved.Entry["id"]!.ToString();
            return (id, saved.Position);
        }, ct, IsNew || TakenOut is not null ? null : Both(id, list, entry))
            ? ToPiece(id, at)
            : Page();
    }

    public async Task<IActionResult> OnPostRemove([FromRoute] Guid id, [FromRoute] string list, [FromRoute] string entry, CancellationToken ct)
    {
        if (!await Load(id, list, entry, ct) || kept is null)
        {
            return NotFound();
        }

        Rearranges(Shape(list), state);
        var version = Version;
        Form = Form.Of(kept, state);
        return await Save(async () => (id, (await Archive.RemoveEntry(id, version, list, Guid.Parse(entry), Who, ct)).Position))
            ? ToPiece(id)
            : Page();
    }

    // A new entry takes nobody's place: it comes after what is there by now.
    private async Task<SavedEntry> Add(Guid id, string list, CancellationToken ct)
    {
        var sent = Form.Values.DeepClone().AsObject();
        sent.Remove("id");
        while (true)
        {
            try
            {
                return await Archive.AddEntry(id, Version, list, sent, Who, ct);
            }
            catch (StaleException e) when (!ct.IsCancellationRequested)
            {
                Version = e.Version;
            }
        }
    }

    private Together Both(Guid id, string list, string entry) => new(past, id, Shape(list),
        fields => (fields[list] as JsonArray)?.OfType<JsonObject>().FirstOrDefault(e => e["id"]?.ToString() == entry));

    // Somebody took the entry out while she was writing: her words are shown as a change of what it was.
    private async Task<bool> LoadTakenOut(Guid id, string list, string entry, CancellationToken ct)
    {
        if (!long.TryParse(Request.Form["version"], out var opened) || await past.At(id, opened, ct) is not { } then)
        {
            return false;
        }

        var both = Both(id, list, entry);
        (kept, TakenOut) = (both.Part(then.Fields), await both.TakenOut(opened, ct));
        return kept is not null && TakenOut is not null && list != "pictures";
    }

    private void Understand(bool show)
    {
        List<Fault> faults = [];
        if (!IsTucks || (IsNew && !show) || GarmentShape.Technique.Read(Form.Values.DeepClone(), "", faults) is not { } read)
        {
            return;
        }

        Understood = GarmentShape.Technique.Present(read) as JsonObject;
        if (show)
        {
            Form.Faults = faults;
        }
    }

    private string ToPart(string part, string? side) => (IsNew && List == "techniques" ? $"?kind={Uri.EscapeDataString(Form.Text("kind"))}&" : "?")
        + $"part={part}" + (side is null ? "" : $"&side={side}") + "#where";

    protected override Task<Form> Begin(CancellationToken ct)
    {
        var form = Form.Of(kept, state);
        if (IsNew && Words.Find("techniques", Request.Query["kind"].ToString()) is { } kind)
        {
            form.Put("kind", kind.Slug);
        }

        // Looked at again, or mended: it is the same thing in the same place.
        if (From is { } from)
        {
            foreach (var field in ((string[])["part", "side", "face", "at", .. List == "condition" ? ["what"] : Array.Empty<string>()]).Where(f => from[f] is not null))
            {
                form.Values[field] = from[field]!.DeepClone();
            }

            form.Put(Refers, from["id"]!.ToString());
        }

        if (IsNew && List is "condition" or "examinations")
        {
            form.Put("date", clock.GetLocalNow().ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
        }

        return Task.FromResult(form);
    }

    private async Task<bool> Load(Guid id, string list, string entry, CancellationToken ct)
    {
        if (await Archive.Find(id, ct) is not { } garment)
        {
            return false;
        }

        (Id, List, state, Version) = (id, list, garment.State(), garment.Version);
        kept = (state[list] as JsonArray)?.OfType<JsonObject>().FirstOrDefault(e => e["id"]?.ToString() == entry);
        return kept is not null || (entry == "new" && list != "pictures");
    }
}
