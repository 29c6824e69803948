using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Pictures;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A piece: everything recorded of it, and the ways on from there.</summary>
[RequestSizeLimit(PicturesApi.LargestUpload)]
[RequestFormLimits(MultipartBodyLengthLimit = PicturesApi.LargestUpload)]
public sealed class PieceModel(Archive archive, IndexFollower index, Uploads uploads, PictureStore store) : FormPage(archive, index)
{
    private const int ShortHistory = 10;

    private ConditionView? condition;

    public Guid Id { get; private set; }

    public JsonObject State { get; private set; } = [];

    public IReadOnlyList<ChangeView> History { get; private set; } = [];

    public bool MoreHistory { get; private set; }

    public string Name => State["name"]?.ToString() ?? "";

    public string Under => string.Join(" · ", new[]
    {
        State["number"]?.ToString() ?? "", Say.Word("kinds", State["kind"]),
        State["dated"] is { } dated ? DateInWords.Say(dated.ToString()) : State["datedText"]?.ToString() ?? "",
    }.Where(t => t.Length > 0));

    public IReadOnlyList<string> Marks => TileView.MarksOf(State);

    /// <summary>Whether she who looks keeps the record: what is missing and what is private is for her.</summary>
    public bool Keeps => HttpContext.May("PATCH /api/garments/{id:guid}");

    /// <summary>Whether a visitor looks: of condition, care and history she is told nothing, not even that nothing is recorded.</summary>
    public bool VisitorLooks => Viewer.Now.Sight.OnlyShown;

    /// <summary>Whether she decides what visitors see.</summary>
    public bool ShowsVisitors => HttpContext.RequestServices.GetRequiredService<Hosting.ArchiveSettings>().Access.Accounts && HttpContext.May("GET /pieces/{id:guid}/visitors");

    public IReadOnlyList<JsonObject> Pictures => List("pictures");

    public string? FirstTucks => List("techniques").FirstOrDefault(t => t["kind"]?.ToString() == "tucks")?["id"]?.ToString();

    public IEnumerable<Caution> Cautions { get; } = Catalogue.Cautions.At("table").Concat(Catalogue.Cautions.At("hands")).DistinctBy(c => c.Code);

    /// <summary>What was found on it and what became of that.</summary>
    public ConditionView Condition => condition ??= new(State, Version);

    // What is private and what is a matter of care have places of their own.
    public FactsView Facts => FactsView.Of(
        MainFields.All.Where(f => !f.Private && f.Name is not ("number" or "name" or "description" or "handling" or "whereabouts" or "shown")), State);

    public IReadOnlyList<JsonObject> List(string name) => [.. (State[name] as JsonArray ?? []).OfType<JsonObject>()];

    public string Alt(JsonObject picture) =>
        picture["caption"]?.ToString() is { Length: > 0 } caption ? caption
        : picture["view"] is { } view ? $"{Name}: {Say.Word("views", view).ToLowerInvariant()}" : T($"{Name}, a picture without a caption");

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct) =>
        await Load(id, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPostPicture([FromRoute] Guid id, List<IFormFile> file, string? caption, string? view, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Form = new(new JsonObject { ["caption"] = caption, ["view"] = view });
        List<IncomingFile> incoming = [];
        try
        {
            foreach (var one in file)
            {
                await using var content = one.OpenReadStream();
                incoming.Add(await store.Receive(content, ct));
                incoming[^1].View = string.IsNullOrWhiteSpace(view) ? null : UploadMetadata.ViewOf(view.Trim());
            }

            if (incoming.Count == 0)
            {
                throw new Sewing.FaultException("file", T("Choose one picture or more first."));
            }

            return await Save(async () =>
            {
                var taken = await uploads.Take(id, incoming, string.IsNullOrWhiteSpace(caption) ? null : caption.Trim(), Who, ct);
                return (id, taken.Position ?? taken.Garment.Position);
            })
                ? ToPiece(id)
                : Page();
        }
        catch (RefusedException e)
        {
            Form.Faults = [.. e.Refusals.Select(r => new Sewing.Fault("file", r.Message))];
        }
        catch (Sewing.FaultException e)
        {
            Form.Faults = e.Faults;
        }
        finally
        {
            incoming.ForEach(f => f.Dispose());
        }

        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }

    public Task<IActionResult> OnPostSetAside([FromRoute] Guid id, long version, CancellationToken ct) =>
        Do(id, async () => await Archive.SetAside(id, version, Who, ct), ct);

    public Task<IActionResult> OnPostBringBack([FromRoute] Guid id, CancellationToken ct) =>
        Do(id, async () => await Archive.BringBack(id, Who, ct), ct);

    private async Task<IActionResult> Do(Guid id, Func<Task<Saved>> write, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        return await Save(async () =>
        {
            var saved = await write();
            return (id, saved.Position);
        })
            ? ToPiece(id)
            : Page();
    }

    private async Task<bool> Load(Guid id, CancellationToken ct)
    {
        if (await Archive.Find(id, ct) is not { } garment)
        {
            return false;
        }

        (Id, State, Version) = (id, garment.State(), garment.Version);
        var history = await Archive.History(id, 1, ShortHistory, ct);
        History = [.. history["items"]!.AsArray().OfType<JsonObject>().Select(i => ChangeView.Of(i, garment.Fields))];
        MoreHistory = Version > History.Count;
        return true;
    }
}
