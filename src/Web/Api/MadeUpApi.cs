using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;

namespace HeirloomArchive.Web.Api;

/// <summary>What came of a worksheet, with its picture if she sends one: JSON, or the same fields and <c>file</c> as a form.</summary>
public static class MadeUpApi
{
    private const int LongestField = 16 * 1024;

    public static void MapMadeUp(this IEndpointRouteBuilder app)
    {
        var made = app.MapGroup("/api/worksheets/{id:guid}/made-up").WithTags("Worksheets");
        made.MapGet("/", List).WithSummary("What came of it, newest first: planned, measured and the difference.");
        made.MapPost("/", Add).WithSummary("Record what came of it: JSON, or multipart/form-data with the same fields and file.")
            .WithMetadata(new RequestSizeLimitAttribute(PicturesApi.LargestUpload)).Accepts<JsonObject>("application/json", "multipart/form-data");
    }

    private static async Task<IResult> List(Guid id, IDocumentStore store, CancellationToken ct)
    {
        var worksheet = await WorksheetsApi.Find(id, store, ct);
        await using var session = store.QuerySession();
        var made = await session.Query<MadeUp>().Where(m => m.Worksheet == id).OrderByDescending(m => m.Id).ToListAsync(ct);
        return Api.Json(new JsonObject { ["total"] = made.Count, ["items"] = new JsonArray([.. made.Select(m => m.ToJson(worksheet))]) });
    }

    private static async Task<IResult> Add(
        Guid id, HttpContext http, IDocumentStore store, Uploads uploads, PictureStore pictures, TimeProvider clock, CancellationToken ct)
    {
        List<IncomingFile> files = [];
        try
        {
            var form = MediaTypeHeaderValue.TryParse(http.Request.ContentType, out var type) && type.MediaType.Equals("multipart/form-data", StringComparison.OrdinalIgnoreCase);
            var body = form ? await Receive(http.Request, files, pictures, ct) : await Body.ReadObject(http.Request, ct);
            var worksheet = await WorksheetsApi.Find(id, store, ct);
            var made = MadeUp.Read(body, worksheet, DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime));
            if (files.Count > 0)
            {
                await uploads.TakeFor(files, id, (session, picture) =>
                {
                    made.Picture = picture;
                    session.Insert(made);
                }, ct);
            }
            else
            {
                await Keep(made, store, ct);
            }

            http.Response.Headers.Location = $"/api/worksheets/{id}/made-up";
            return Api.Json(made.ToJson(worksheet), StatusCodes.Status201Created);
        }
        finally
        {
            files.ForEach(f => f.Dispose());
        }
    }

    private static async Task Keep(MadeUp made, IDocumentStore store, CancellationToken ct)
    {
        await using var session = store.LightweightSession();
        if (made.Picture is { } picture && await session.LoadAsync<PictureOwner>(picture, ct) is null)
        {
            throw new FaultException("picture", $"No picture has the id {picture}.");
        }

        session.Insert(made);
        await session.SaveChangesAsync(ct);
    }

    /// <summary>The fields as an object of texts; the one file is streamed to disk.</summary>
    private static async Task<JsonObject> Receive(HttpRequest request, List<IncomingFile> files, PictureStore pictures, CancellationToken ct)
    {
        var reader = new MultipartReader(PicturesApi.Boundary(request), request.Body);
        JsonObject fields = [];
        try
        {
            while (await reader.ReadNextSectionAsync(ct) is { } section)
            {
                var name = ContentDispositionHeaderValue.TryParse(section.ContentDisposition, out var disposition)
                    ? HeaderUtilities.RemoveQuotes(disposition.Name).ToString() : "";
                if (name == "file" ? files.Count > 0 : fields.ContainsKey(name))
                {
                    throw new FaultException(name, "This field comes twice; send it once.", FaultKind.Unreadable);
                }

                if (name == "file")
                {
                    files.Add(await pictures.Receive(section.Body, ct));
                }
                else
                {
                    fields[name] = await Text(name, section.Body, ct);
                }
            }
        }
        catch (Exception e) when (PicturesApi.IsCutOff(e))
        {
            throw new FaultException("", "The form is not well-formed multipart/form-data, or was cut off on the way.", FaultKind.Unreadable);
        }

        return fields;
    }

    private static async Task<string?> Text(string name, Stream body, CancellationToken ct)
    {
        var bytes = new byte[LongestField + 1];
        var length = await body.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false, ct);
        if (length > LongestField)
        {
            throw new FaultException(name, $"This field is longer than {LongestField} bytes; write less.");
        }

        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes, 0, length) is { Length: > 0 } text ? text : null;
        }
        catch (DecoderFallbackException)
        {
            throw new FaultException(name, "This field is not UTF-8 text.", FaultKind.Unreadable);
        }
    }
}
