using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A place, tags or a kind for pieces ticked in the table of all, or for all that match.</summary>
public sealed class ManyModel(ManyAtOnce many, PieceList list) : PageModel
{
    private const int Named = 12, Most = 500;

    /// <summary>What is asked for.</summary>
    public static RecordType Shape { get; } = new(
    [
        .. GarmentShape.Garment.Fields.Where(f => f.Name is "kind" or "place"),
        new("tagsToAdd", FieldOf("tags")), new("tagsToTakeAway", FieldOf("tags")),
    ]);

    private List<Guid> ticked = [];

    public Form Form { get; private set; } = new([]) { About = "many" };

    public bool ClearPlace { get; private set; }

    /// <summary>Which pieces, when all that match are meant.</summary>
    public ListQuestion? Asked { get; private set; }

    public int Total { get; private set; }

    public IReadOnlyList<ListedPiece> Some { get; private set; } = [];

    public IReadOnlyList<ManyChange> Before { get; private set; } = [];

    public string Back => ListAsked.Address([("as", "table"), .. Asked?.Parts ?? []]);

    public async Task OnGet(CancellationToken ct) => await Load(ct);

    public async Task<IActionResult> OnPost(CancellationToken ct)
    {
        await Load(ct);
        Form = new(FormReader.Read(Request.Form, Shape)) { About = "many" };
        ClearPlace = Request.Form["clearPlace"] == "true";
        try
        {
            return Redirect($"/pieces/many/{(await many.Ask(Sent(), Versions.Who, ct)).Id}");
        }
        catch (FaultException e)
        {
            Form.Faults = [.. e.Faults.Select(f => f with { Path = Field(f.Path), Message = f.Path == "change" ? T("Say what to change: a kind, a place or a tag.") : f.Message })];
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return Page();
        }
    }

    private async Task Load(CancellationToken ct)
    {
        Before = await many.Latest(10, ct);
        if (Request.Query["these"] == "all")
        {
            Asked = ListAsked.QuestionOf(Request);
            (var total, Some) = await list.Page(Asked, "entered", true, 1, Named, ct);
            Total = (int)total;
            return;
        }

        ticked = [.. Request.Query["piece"].Take(Most).Select(p => Guid.TryParse(p, out var id) ? id : Guid.Empty).Where(id => id != Guid.Empty).Distinct()];
        (Total, Some) = (ticked.Count, await list.Find([.. ticked.Take(Named)], ct));
    }

    private JsonObject Sent()
    {
        var change = new JsonObject();
        if (Form.Values["kind"] is { } kind)
        {
            change["kind"] = kind.DeepClone();
        }

        if (ClearPlace)
        {
            change["place"] = null;
        }
        else if (Form.Values["place"] is JsonObject place)
        {
            change["place"] = place.DeepClone();
        }

        var sent = new JsonObject
        {
            ["change"] = change,
            ["tags"] = new JsonObject { ["add"] = Form.Values["tagsToAdd"]?.DeepClone(), ["remove"] = Form.Values["tagsToTakeAway"]?.DeepClone() },
        };
        if (Asked is null)
        {
            sent["pieces"] = new JsonArray([.. ticked.Select(id => JsonValue.Create(id.ToString()))]);
        }
        else
        {
            sent["all"] = new JsonObject(Asked.Parts.Select(p => KeyValuePair.Create<string, JsonNode?>(p.Name, p.Value)));
        }

        return sent;
    }

    private static string Field(string path) => path switch
    {
        "change" => "kind",
        _ when path.StartsWith("change.", StringComparison.Ordinal) => path["change.".Length..],
        _ when path.StartsWith("tags.add", StringComparison.Ordinal) => "tagsToAdd",
        _ when path.StartsWith("tags.remove", StringComparison.Ordinal) => "tagsToTakeAway",
        _ => "",
    };

    private static FieldType FieldOf(string name) => GarmentShape.Garment.Fields.Single(f => f.Name == name).Type;
}
