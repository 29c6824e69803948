using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A new piece comes in, at two depths: the first things with its pictures, or all of it part by part.</summary>
[RequestSizeLimit(PicturesApi.LargestUpload)]
[RequestFormLimits(MultipartBodyLengthLimit = PicturesApi.LargestUpload, ValueCountLimit = MostFields)]
public sealed class NewModel(Archive archive, IndexFollower index, Drafts drafts, Uploads uploads, PartedUploads parts, PictureStore store, TimeProvider clock) : DraftedPage(archive, index, drafts)
{
    /// <summary>The most fields of one form: each entry has some forty.</summary>
    internal const int MostFields = 20_000;

    private static string DraftOf => T("a new piece");

    /// <summary>What is asked at first sight: each keeps the piece away from the others.</summary>
    public static readonly string[] Alarms = ["insects-live", "mould", "smell-of-mothballs", "pin-or-needle-found"];

    /// <summary>The overall states, each in a word more.</summary>
    public static IReadOnlyList<(string State, string Means)> States =>
        [("sound", T("holds together")), ("fair", T("worn, but holds")), ("weak", T("gives way if pulled")), ("fragile", T("breaks when touched"))];

    /// <summary>The pictures asked for one by one: the field, the view it is, what is asked, and help.</summary>
    public static IReadOnlyList<(string Name, string View, string Label, string? Help)> Views =>
    [
        ("front", "front", T("The front"), null),
        ("back", "back", T("The back"), null),
        ("detail", "detail-right-side", T("One detail, close to"), T("With a rule or scale beside it, not on it.")),
        ("wrong-side", "detail-wrong-side", T("The wrong side"), T("Only where it opens by itself; never turn a piece inside out.")),
    ];

    public IEnumerable<Caution> Cautions { get; } = Catalogue.Cautions.At("arrival").Concat(Catalogue.Cautions.At("table")).Concat(Catalogue.Cautions.At("hands")).DistinctBy(c => c.Code);

    public bool IsFull { get; private set; }

    /// <summary>The next number after her own pattern, when the one in the form is taken.</summary>
    public string? NextNumber { get; private set; }

    /// <summary>Pictures came with a save that was refused; a page sent back can't hold them.</summary>
    public bool PicturesLost { get; private set; }

    /// <summary>Pictures that came in parts before the piece is saved, and go with it.</summary>
    public IReadOnlyList<PartedUpload> Uploaded { get; private set; } = [];

    private string DraftForm => IsFull ? "new-piece:full" : "new-piece";

    /// <summary>Whether a finding stands in the form.</summary>
    public bool Found(string what) => (Form.At("condition") as JsonArray ?? []).Any(f => f?["what"]?.ToString() == what);

    public async Task OnGet(string? depth, CancellationToken ct)
    {
        IsFull = depth == "full";
        await TakeUp(DraftForm, DraftOf, GarmentShape.Garment, ct);
        Uploaded = Waiting(Draft.Kept?.Fields.Select(f => f.Key) ?? []);
    }

    public async Task<IActionResult> OnPost(string? depth, CancellationToken ct)
    {
        IsFull = depth == "full";
        Uploaded = Waiting(Request.Form.Keys);
        if (Request.Form["draft"] == "full")
        {
            await Drafts.Keep(Who, "new-piece:full", Posted, ct);
            await Drafts.Forget(Who, DraftForm, ct);
            return Redirect("/pieces/new?depth=full");
        }

        if (await Press(DraftForm, DraftOf, GarmentShape.Garment, null, ct) is { } pressed)
        {
            if (pressed is PageResult && Uploaded.Count > 0)
            {
                await KeepUploaded(ct);
            }

            return pressed;
        }

        List<IncomingFile> files = [];
        try
        {
            foreach (var file in Request.Form.Files)
            {
                await using var content = file.OpenReadStream();
                files.Add(await store.Receive(content, ct));
                files[^1].View = Views.FirstOrDefault(v => v.Name == file.Name).View;
            }

            var chosen = files.Count;
            var order = Views.Select(v => v.View).ToList();
            foreach (var upload in Uploaded.OrderBy(u => order.IndexOf(u.View?.ToString() ?? "") is var place and >= 0 ? place : order.Count).ThenBy(u => u.Id))
            {
                if (await parts.Waiting(upload.Id, HttpContext.Caller().Id) is { } waiting)
                {
                    files.Add(waiting);
                }
            }

            if (files.Count - chosen < Request.Form.Keys.Count(k => UploadOf(k) is not null))
            {
                throw new RefusedException([new($"file[{files.Count}]", RefusalKind.Unsound, T("it waited longer than it may for the piece, and is gone. Choose it again."))]);
            }

            return await SaveAll(files, chosen, ct);
        }
        catch (RefusedException e)
        {
            // Refused before the piece was entered: she chooses again, and nothing is there twice.
            Form.Faults = [.. e.Refusals.Select(r => new Fault("file", $"{Named(r.Path)}: {r.Message}"))];
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            await Keep(Posted, ct);
            PicturesLost = Request.Form.Files.Count > 0;
            return Page();
        }
        finally
        {
            files.ForEach(f => f.Dispose());
        }
    }

    // A new arrival stays apart until it was looked over for insects, mould and damp.
    protected override async Task<Form> Begin(CancellationToken ct) =>
        new(new() { ["number"] = await Archive.NextNumber(ct), ["handling"] = "keep-apart" });

    private async Task<IActionResult> SaveAll(List<IncomingFile> files, int chosen, CancellationToken ct)
    {
        var pictures = files.Count == 0 ? null : await uploads.Prepare(files, Who, ct);
        var id = Guid.Empty;
        if (await SaveDrafted(async () =>
        {
            var saved = await Archive.Enter(Sent(), Who, ct);
            id = saved.Garment.Id;
            return (id, pictures is null ? saved.Position : (await pictures(id)).Position ?? saved.Position);
        }, ct))
        {
            foreach (var upload in Uploaded)
            {
                await parts.Remove(upload.Id, HttpContext.Caller().Id, CancellationToken.None);
            }

            return ToPiece(id);
        }

        PicturesLost = chosen > 0;
        NextNumber = Form.Wrong("number") is null ? null : await Archive.NextNumber(ct);
        return Page();
    }

    /// <summary>What stands in the form, to be recorded: an alarm of the first look is found today and seen to first.</summary>
    private JsonObject Sent()
    {
        var sent = Form.Values.DeepClone().AsObject();
        foreach (var finding in IsFull ? [] : (sent["condition"] as JsonArray ?? []).OfType<JsonObject>())
        {
            finding["date"] = clock.GetLocalNow().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            finding["attention"] = "before-handling";
        }

        return sent;
    }

    private List<PartedUpload> Waiting(IEnumerable<string> fields) =>
        [.. fields.Select(UploadOf).OfType<Guid>().Select(id => parts.Find(id, HttpContext.Caller().Id)).OfType<PartedUpload>().Where(u => u is { IsWhole: true, Picture: null, Garment: null })];

    // A press keeps what the form's shape knows; what waits beside it goes along.
    private async Task KeepUploaded(CancellationToken ct)
    {
        var fields = Draft.Kept?.Fields.DeepClone().AsObject() ?? [];
        foreach (var upload in Uploaded)
        {
            fields[$"upload-{upload.Id}"] = "on";
        }

        await Keep(fields, ct);
    }

    private static Guid? UploadOf(string field) => field.StartsWith("upload-", StringComparison.Ordinal) && Guid.TryParse(field["upload-".Length..], out var id) ? id : null;

    // A refusal says which by its place: file[1].
    private string Named(string path) =>
        Paths.Split(path) is [_, int place] && place < Request.Form.Files.Count ? Request.Form.Files[place].FileName : T("A picture");
}
