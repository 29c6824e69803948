using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>Drafts: the raw fields of a form while she still types, one a person and form.</summary>
public static class DraftsApi
{
    public static void MapDrafts(this IEndpointRouteBuilder app)
    {
        var draft = app.MapGroup("/api/drafts/{form}").WithTags("Drafts");
        draft.MapGet("", Read).WithSummary("The draft of a form, as it was kept.");
        draft.MapPut("", Keep).WithSummary("Keep the raw fields of a form, whatever stands in them.").Accepts<JsonObject>("application/json");
        draft.MapDelete("", Forget).WithSummary("Throw the draft away.");
    }

    private static async Task<IResult> Read(string form, HttpResponse response, Drafts drafts, CancellationToken ct)
    {
        var kept = await drafts.Find(Versions.Who, Named(form), ct) ?? throw new NotFoundException($"There is no draft of the form {form}.");
        response.Headers.LastModified = kept.Saved.ToString("R", System.Globalization.CultureInfo.InvariantCulture);
        response.Headers.CacheControl = "no-store";
        return Api.Json(kept.Fields);
    }

    private static async Task<IResult> Keep(string form, HttpRequest request, Drafts drafts, CancellationToken ct)
    {
        var fields = await Body.ReadObject(request, ct, Drafts.LargestBytes);
        var kept = await drafts.Keep(Versions.Who, Named(form), fields, ct);
        return Api.Json(new JsonObject { ["saved"] = kept.Saved });
    }

    private static async Task<IResult> Forget(string form, Drafts drafts, CancellationToken ct)
    {
        await drafts.Forget(Versions.Who, Named(form), ct);
        return Results.NoContent();
    }

    private static string Named(string form) => Drafts.IsForm(form)
        ? form
        : throw new FaultException("form", $"\"{form.Short(60)}\" names no form; a name is 1 to 100 of a-z, 0-9, - and :.", FaultKind.Unreadable);
}
