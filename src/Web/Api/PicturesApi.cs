using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Pictures.Checking;
using HeirloomArchive.Search;
using Microsoft.AspNetCore.Mvc;
using Microsoft.Net.Http.Headers;

namespace HeirloomArchive.Web.Api;

/// <summary>Pictures come by upload to a garment and are served by their own id.</summary>
public static class PicturesApi
{
    internal const long LargestUpload = 1_000_000_000;

    public static void MapPictures(this IEndpointRouteBuilder app)
    {
        app.MapPost("/api/garments/{id:guid}/pictures", Upload)
            .WithTags("Pictures").WithSummary("Upload pictures: field file (one or more) and caption.")
            .WithMetadata(new RequestSizeLimitAttribute(LargestUpload))
            .Accepts<IFormFile>("multipart/form-data");
        var check = app.MapGroup("/api/pictures/check").WithTags("Pictures");
        check.MapGet("", Look).WithSummary("The last check of the originals, and how far one that runs is.");
        check.MapPost("", Begin).WithSummary("Check now that every original still has its digest. 202; where one runs already it goes on.")
            .Produces(StatusCodes.Status202Accepted);
        var picture = app.MapGroup("/api/pictures/{pid:guid}").WithTags("Pictures");
        picture.MapGet("/original", Original).WithSummary("The file as it was uploaded, byte for byte.");
        picture.MapGet("/screen", (Guid pid, HttpContext http, Archive archive, Derivatives derivatives, CancellationToken ct) =>
            Smaller(Derivative.Screen, pid, http, archive, derivatives, ct)).WithSummary("For the page: longest side at most 1600 pixels.");
        picture.MapGet("/thumbnail", (Guid pid, HttpContext http, Archive archive, Derivatives derivatives, CancellationToken ct) =>
            Smaller(Derivative.Thumbnail, pid, http, archive, derivatives, ct)).WithSummary("For lists: longest side at most 320 pixels.");
    }

    private static async Task<IResult> Upload(
        Guid id, HttpContext http, Uploads uploads, PictureStore store, PictureLimits limits, IndexFollower index, CancellationToken ct)
    {
        await uploads.Standing(id, ct);
        List<IncomingFile> files = [];
        try
        {
            var texts = await Multipart.Receive(http.Request, files, store, limits, ["caption"], ct);
            Multipart.NeedsFile(files);
            var caption = texts.GetValueOrDefault("caption") is { Length: > 0 } said ? said : null;
            var taken = await uploads.Take(id, files, caption, Versions.Who, ct);
            if (taken.Position is { } position)
            {
                await Versions.Written(http.Response, taken.Garment, position, index);
            }
            else
            {
                Versions.Tag(http.Response, taken.Garment.Version);
            }

            return Api.Json(new JsonArray([.. taken.Pictures.Select(Answer)]), StatusCodes.Status201Created);
        }
        finally
        {
            files.ForEach(f => f.Dispose());
        }
    }

    private static async Task<IResult> Look(OriginalsCheck check, CancellationToken ct) => Api.Json(await Told(check, ct));

    private static async Task<IResult> Begin(OriginalsCheck check, IHostApplicationLifetime life, CancellationToken ct)
    {
        await check.Begin(life.ApplicationStopping);
        return Api.Json(await Told(check, ct), StatusCodes.Status202Accepted);
    }

    private static async Task<JsonObject> Told(OriginalsCheck check, CancellationToken ct)
    {
        var (last, running) = await check.Look(ct);
        return new JsonObject
        {
            ["running"] = running is null ? null : new JsonObject { ["started"] = running.Started, ["checked"] = running.Checked, ["total"] = running.Total },
            ["last"] = last is null ? null : new JsonObject
            {
                ["started"] = last.Started, ["finished"] = last.Until, ["checked"] = last.Checked, ["bytes"] = last.Bytes,
                ["missing"] = Faulty(last.Missing), ["changed"] = Faulty(last.Changed), ["unknown"] = new JsonArray([.. last.Unknown.Select(u => JsonValue.Create(u))]),
            },
        };
    }

    private static JsonArray Faulty(IEnumerable<FaultyOriginal> originals) => new([.. originals.Select(o => new JsonObject
    {
        ["sha256"] = o.Sha256,
        ["pictures"] = new JsonArray([.. o.Pictures.Select(p => new JsonObject { ["id"] = p.Picture.ToString(), ["garment"] = p.Garment.ToString() })]),
    })]);

    internal static JsonObject Answer(TakenPicture picture)
    {
        var answer = new JsonObject
        {
            ["id"] = picture.Id.ToString(),
            ["sha256"] = picture.Sha256,
            ["width"] = picture.Width,
            ["height"] = picture.Height,
        };
        if (picture.Already)
        {
            answer["already"] = true;
        }

        return answer;
    }

    /// <summary>Sent by its path, as a static file is: whole, in parts, or not again to one who has it.</summary>
    private static async Task<IResult> Original(Guid pid, HttpContext http, Archive archive, PictureStore store, CancellationToken ct)
    {
        var sha256 = PictureRights.Original(pid, await archive.FindPicture(pid, ct)).Sha256;
        var (path, format) = store.FindOriginal(sha256) ?? throw Lost(pid);
        Keep(http.Response);
        return Results.File(path, Type(format), entityTag: new EntityTagHeaderValue($"\"{sha256}\""), enableRangeProcessing: true);
    }

    private static async Task<IResult> Smaller(
        Derivative derivative, Guid pid, HttpContext http, Archive archive, Derivatives derivatives, CancellationToken ct)
    {
        var sha256 = (await archive.FindPicture(pid, ct) ?? throw PictureRights.Missing(pid)).Sha256;
        var webP = http.Request.GetTypedHeaders().Accept.Any(a => a.MediaType == "image/webp" && a.Quality is null or > 0);
        http.Response.Headers.Vary = HeaderNames.Accept;
        return await Serve(http.Response, await derivatives.Open(derivative, sha256, webP, ct), pid, $"{sha256}-{derivative}-{PictureStore.Recipe}", ct);
    }

    private static async Task<IResult> Serve(HttpResponse response, FileStream? file, Guid pid, string tag, CancellationToken ct)
    {
        if (file is null)
        {
            throw Lost(pid);
        }

        // She may go away before its head is read.
        response.RegisterForDispose(file);
        var head = new byte[PictureFormats.HeadLength];
        var length = await file.ReadAtLeastAsync(head, head.Length, throwOnEndOfStream: false, ct);
        file.Position = 0;
        var type = Type(PictureFormats.Of(head.AsSpan(0, length)));
        Keep(response);
        return Results.Stream(
            file, type, entityTag: new EntityTagHeaderValue($"\"{tag}-{type}\""), enableRangeProcessing: true);
    }

    /// <summary>Bytes that never change under their address: kept by the one browser for good, but not by what stands between.</summary>
    private static void Keep(HttpResponse response)
    {
        response.Headers.CacheControl = "private, max-age=31536000, immutable";
        response.Headers.XContentTypeOptions = "nosniff";
    }

    private static string Type(PictureFormat? format) => format?.MediaType() ?? "application/octet-stream";

    private static NotFoundException Lost(Guid pid) => new($"The file of the picture {pid} is not in the folder of pictures.");
}
