using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Iiif;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>A picture looked at closely, with what is marked on it.</summary>
public sealed class ViewModel(RegionKeeping keeping) : PageModel
{
    public RegionFrame Frame { get; private set; } = null!;

    public IReadOnlyList<MarkView> Marks { get; private set; } = [];

    /// <summary>Marks that were taken away and can be put back.</summary>
    public IReadOnlyList<MarkView> Gone { get; private set; } = [];

    public PictureScale? Scale { get; private set; }

    /// <summary>The mark that is looked at; null for the whole picture.</summary>
    public MarkView? Chosen { get; private set; }

    public MarkForm Mark { get; private set; } = new();

    public Guid Id => Frame.Picture;

    public IReadOnlyList<JsonObject> Pictures => [.. (Frame.Garment.Fields["pictures"] as JsonArray ?? []).OfType<JsonObject>()];

    public string Name => RegionWord.Picture(Frame.Entry, Pictures.ToList().FindIndex(p => p["id"]!.ToString() == Id.ToString()) + 1);

    public bool Aside => Frame.Garment.IsAside;

    /// <summary>A thousandth of the longer side: what is drawn on the picture is measured in it.</summary>
    public decimal Unit => Math.Max(Frame.Width, Frame.Height) / 1000m;

    /// <summary>The entries that a mark can show, list by list.</summary>
    public IEnumerable<(string Heading, IReadOnlyList<(string Key, string Label)> Entries)> Entries =>
        from list in new (string List, ShownKind Kind, string Heading)[]
        {
            ("techniques", ShownKind.Technique, T("How it was made")), ("condition", ShownKind.Condition, T("Condition")), ("repairs", ShownKind.Repair, T("Repairs")),
        }
        let all = (Frame.Garment.State()[list.List] as JsonArray ?? []).OfType<JsonObject>().Select(e => (Entry: e, Label: Say.Entry(list.List, e))).ToList()
        let entries = all.Select(e => (ShownThing.KeyOf(list.Kind, e.Entry["id"]!.ToString()), all.Count(o => o.Label == e.Label) > 1 ? Told(e.Entry, e.Label, all.FindIndex(o => o == e) + 1) : e.Label)).ToList()
        where entries.Count > 0
        select (list.Heading, (IReadOnlyList<(string, string)>)entries);

    public async Task<IActionResult> OnGet(Guid pid, Guid? region, bool change, CancellationToken ct)
    {
        if (!await Load(pid, region, ct))
        {
            return NotFound();
        }

        if (change && Chosen is not null)
        {
            Mark = MarkForm.Of(Chosen.Region);
        }

        return Page();
    }

    public async Task<IActionResult> OnPostMark([FromRoute] Guid pid, [FromForm] MarkForm mark, CancellationToken ct)
    {
        if (!await Load(pid, mark.Region, ct))
        {
            return NotFound();
        }

        Mark = mark;
        try
        {
            var annotation = mark.Annotation(Frame);
            var saved = mark.Region is { } id
                ? await keeping.Put(pid, id, mark.Version, annotation, Versions.Who, ct)
                : await keeping.Add(pid, annotation, Versions.Who, ct);
            return Redirect($"/pictures/{pid}?region={saved.Id}#r-{saved.Id}");
        }
        catch (FaultException e)
        {
            mark.Faults = [.. e.Faults.Select(f => f with { Path = Field(f.Path) })];
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
        catch (StaleException e)
        {
            mark.Faults = [new("", T("The mark has been changed since you opened it. What you see below is yours: save again to keep it all the same."))];
            mark.Version = e.Version;
            Response.StatusCode = StatusCodes.Status412PreconditionFailed;
        }
        catch (SetAsideException)
        {
            mark.Faults = [new("", T("The piece is set aside. Bring it back before you mark its pictures."))];
            Response.StatusCode = StatusCodes.Status409Conflict;
        }

        return Page();
    }

    public Task<IActionResult> OnPostRemove([FromRoute] Guid pid, Guid region, long version, CancellationToken ct) =>
        Do(pid, () => keeping.Remove(pid, region, version, ct), ct);

    public Task<IActionResult> OnPostBack([FromRoute] Guid pid, Guid region, long version, CancellationToken ct) => Do(pid, async () =>
    {
        var said = AnnotationWriter.Write(await keeping.Find(pid, region, ct), IiifAnswers.Site(Request));
        return await keeping.Put(pid, region, version, said, Versions.Who, ct);
    }, ct);

    private async Task<IActionResult> Do(Guid pid, Func<Task<Region>> change, CancellationToken ct)
    {
        if (!await Load(pid, null, ct))
        {
            return NotFound();
        }

        try
        {
            await change();
            return Redirect($"/pictures/{pid}#marks");
        }
        catch (NotFoundException)
        {
            return NotFound();
        }
        catch (Exception e) when (e is StaleException or SetAsideException or FaultException)
        {
            Mark.Faults = [new("", e is StaleException ? T("The mark has been changed since. It is shown as it stands now; do what you wanted once more.") : e.Message)];
            Response.StatusCode = e switch
            {
                FaultException => StatusCodes.Status422UnprocessableEntity,
                StaleException => StatusCodes.Status412PreconditionFailed,
                _ => StatusCodes.Status409Conflict,
            };
            return Page();
        }
    }

    // Two of one name are told apart by their tucks, else by their place in the record.
    private static string Told(JsonObject entry, string label, int place) => Say.Groups(entry) is { Length: > 0 } groups ? $"{label}: {groups}" : $"{label} ({place})";

    // The form has other names for the places of an annotation.
    private static string Field(string path) => path switch
    {
        "x" or "word" or "length" => path,
        _ when path.StartsWith("target", StringComparison.Ordinal) => "x",
        _ when path.StartsWith("body", StringComparison.Ordinal) => "text",
        _ => "",
    };

    private async Task<bool> Load(Guid pid, Guid? region, CancellationToken ct)
    {
        try
        {
            Frame = await keeping.Frame(pid, ct);
        }
        catch (NotFoundException)
        {
            return false;
        }

        var regions = await keeping.OfPicture(pid, ct: ct);
        Scale = PictureScale.Of(regions);
        Marks = MarkView.All(regions, Frame, Scale);
        Gone = MarkView.All(await keeping.OfPicture(pid, gone: true, ct), Frame, null);
        Chosen = Marks.FirstOrDefault(m => m.Region.Id == region);
        return true;
    }
}
