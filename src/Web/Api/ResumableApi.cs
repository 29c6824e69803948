using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Access;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;

namespace HeirloomArchive.Web.Api;

/// <summary>
/// Uploads that go on after a lost connection: the tus protocol 1.0.0 (https://tus.io/protocols/resumable-upload), core with
/// creation, termination, checksum and expiration. A whole upload becomes a picture of the garment named when it began; without
/// one it waits for a new piece. What it became is told by GET.
/// </summary>
public static class ResumableApi
{
    /// <summary>The version of the protocol.</summary>
    public const string Version = "1.0.0";

    private const string Extensions = "creation,termination,checksum,expiration";
    private const string PartType = "application/offset+octet-stream";

    private static readonly Dictionary<string, HashAlgorithmName> Algorithms = new() { ["sha1"] = HashAlgorithmName.SHA1, ["sha256"] = HashAlgorithmName.SHA256 };

    public static void MapResumable(this IEndpointRouteBuilder app)
    {
        var all = app.MapGroup("/api/uploads").WithTags("Pictures").AddEndpointFilter(Headers);
        all.MapMethods("", ["OPTIONS"], Describe).WithSummary("What of the tus protocol is understood.")
            .WithDescription($"Tus-Version {Version}; Tus-Extension {Extensions}; Tus-Max-Size in bytes; Tus-Checksum-Algorithm sha1, sha256.");
        all.MapPost("", Begin).WithSummary("Begin an upload that can go on after a lost connection (tus 1.0.0, creation).")
            .WithDescription("Headers: Tus-Resumable: 1.0.0; Upload-Length: bytes of the file; Upload-Metadata: pairs of a key and its value in base64, with commas between: garment (the id of the garment it is for; without it the upload waits for a new piece), caption, view (a word of views), filename. 201 with Location and Upload-Expires: seven days after the last part.")
            .Produces(StatusCodes.Status201Created);
        var one = all.MapGroup("/{upload:guid}");
        one.MapMethods("", ["HEAD"], Stands).WithSummary("How far it is: Upload-Offset, Upload-Length, Upload-Expires.");
        one.MapGet("", Tell).WithSummary("How far it is, as JSON, and once it is taken the picture it became.");
        one.MapPatch("", Continue).WithSummary("Send the next part (tus 1.0.0, core).")
            .WithDescription("Headers: Tus-Resumable: 1.0.0; Upload-Offset: where the part begins; perhaps Upload-Checksum: sha256 and the digest in base64. 204 with the new Upload-Offset once it is safe on disk; with the last part, once the picture is checked and added. A file that is refused then is deleted (413, 415, 422 with errors). An empty part at the end takes a whole upload whose last answer was lost.")
            .WithMetadata(new RequestSizeLimitAttribute(PicturesApi.LargestUpload)).Accepts<Stream>(PartType).Produces(StatusCodes.Status204NoContent);
        one.MapDelete("", Remove).WithSummary("Throw it away (tus 1.0.0, termination).").Produces(StatusCodes.Status204NoContent);
    }

    // OPTIONS and the JSON of GET are for anybody; the rest is the protocol's, and says so.
    private static async ValueTask<object?> Headers(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var http = context.HttpContext;
        Always(http.Response, ("Tus-Resumable", Version), ("Cache-Control", "no-store"));
        if (http.Request.Method == "PATCH" && http.Request.ContentType != PartType)
        {
            throw new BadHttpRequestException($"A part is sent as {PartType}, not as \"{http.Request.ContentType}\".", StatusCodes.Status415UnsupportedMediaType);
        }

        if (http.Request.Method is not ("OPTIONS" or "GET") && http.Request.Headers["Tus-Resumable"] != Version)
        {
            Always(http.Response, ("Tus-Version", Version));
            throw new BadHttpRequestException($"The header Tus-Resumable must say {Version}.", StatusCodes.Status412PreconditionFailed);
        }

        return await next(context);
    }

    private static IResult Describe(HttpResponse response, PictureLimits limits)
    {
        response.Headers["Tus-Version"] = Version;
        response.Headers["Tus-Extension"] = Extensions;
        response.Headers["Tus-Max-Size"] = Text(limits.FileBytes);
        response.Headers["Tus-Checksum-Algorithm"] = string.Join(',', Algorithms.Keys);
        return Results.NoContent();
    }

    private static async Task<IResult> Begin(HttpContext http, PartedUploads parts, Uploads uploads, CancellationToken ct)
    {
        var length = Whole(http.Request, "Upload-Length");
        if (length == 0)
        {
            throw new FaultException("Upload-Length", "The file is empty: it is no picture.");
        }

        var said = UploadMetadata.Read(http.Request.Headers["Upload-Metadata"].ToString());
        if (said.Garment is { } garment)
        {
            await uploads.Standing(garment, ct);
        }

        var begun = parts.Begin(new(Guid.CreateVersion7(), length, said.Name, said.Garment, said.Caption, said.View) { By = http.Caller().Id });
        http.Response.Headers.Location = $"/api/uploads/{begun.Id}";
        Tag(http.Response, begun);
        return Results.StatusCode(StatusCodes.Status201Created);
    }

    private static async Task<IResult> Stands(Guid upload, HttpContext http, PartedUploads parts, CancellationToken ct)
    {
        Tag(http.Response, await parts.Settle(upload, http.Caller().Id, ct) ?? throw Missing(upload));
        return Results.Ok();
    }

    private static IResult Tell(Guid upload, HttpContext http, PartedUploads parts)
    {
        var found = parts.Find(upload, http.Caller().Id) ?? throw Missing(upload);
        Tag(http.Response, found);
        var answer = new JsonObject
        {
            ["id"] = found.Id.ToString(), ["name"] = found.Name, ["length"] = found.Length, ["offset"] = found.Offset,
            ["expires"] = found.Expires, ["garment"] = found.Garment?.ToString(), ["caption"] = found.Caption, ["view"] = found.View?.DeepClone(),
            ["picture"] = found.Picture is { } picture ? PicturesApi.Answer(picture) : null,
        };
        return Api.Json(answer);
    }

    private static async Task<IResult> Continue(
        Guid upload, HttpContext http, PartedUploads parts, Uploads uploads, IndexFollower index, CancellationToken ct)
    {
        var offset = Whole(http.Request, "Upload-Offset");
        var checksum = Checksum(http.Request.Headers["Upload-Checksum"].ToString());
        // A telephone on a bad line is slow, and that is why the upload comes in parts.
        if (http.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } pace)
        {
            pace.MinDataRate = null;
        }

        try
        {
            Tag(http.Response, await parts.Append(upload, http.Caller().Id, offset, http.Request.Body, checksum, (whole, file) => TakeWhole(whole, file, http.Response, uploads, index), ct));
            return Results.NoContent();
        }
        catch (OffsetException e)
        {
            Always(http.Response, ("Upload-Offset", Text(e.Stands)));
            throw;
        }
        catch (OvertakenException)
        {
            // Its sender has come back on another connection; this one leads nowhere.
            http.Abort();
            return Results.Empty;
        }
        catch (RefusedException)
        {
            await parts.Remove(upload, http.Caller().Id, CancellationToken.None);
            throw;
        }
    }

    private static async Task<TakenPicture?> TakeWhole(PartedUpload upload, IncomingFile file, HttpResponse response, Uploads uploads, IndexFollower index)
    {
        if (upload.Garment is not { } garment)
        {
            await uploads.Check([file]);
            return null;
        }

        var taken = await uploads.Take(garment, [file], null, Versions.Who, CancellationToken.None);
        if (taken.Position is { } position)
        {
            await Versions.Written(response, taken.Garment, position, index);
        }

        return taken.Pictures[0];
    }

    private static async Task<IResult> Remove(Guid upload, HttpContext http, PartedUploads parts, CancellationToken ct) =>
        await parts.Remove(upload, http.Caller().Id, ct) ? Results.NoContent() : throw Missing(upload);

    private static void Tag(HttpResponse response, PartedUpload upload)
    {
        response.Headers["Upload-Offset"] = Text(upload.Offset);
        response.Headers["Upload-Length"] = Text(upload.Length);
        response.Headers["Upload-Expires"] = upload.Expires.ToString("R", CultureInfo.InvariantCulture);
    }

    // On a refusal too, whose answer is begun anew.
    private static void Always(HttpResponse response, params (string Name, string Value)[] headers) => response.OnStarting(() =>
    {
        foreach (var (name, value) in headers)
        {
            response.Headers[name] = value;
        }

        return Task.CompletedTask;
    });

    private static long Whole(HttpRequest request, string header)
    {
        var text = request.Headers[header].ToString();
        return long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw new FaultException(header, $"{header} is \"{text.Short(60)}\"; it must be a whole number of bytes.", FaultKind.Unreadable);
    }

    private static (HashAlgorithmName, byte[])? Checksum(string text)
    {
        if (text.Length == 0)
        {
            return null;
        }

        var digest = new byte[64];
        return text.Split(' ') is [var name, var base64] && Algorithms.TryGetValue(name, out var algorithm) && Convert.TryFromBase64String(base64, digest, out var length)
            ? (algorithm, digest[..length])
            : throw new FaultException("Upload-Checksum", $"Upload-Checksum is \"{text.Short(60)}\"; it must be sha1 or sha256, a space, and the digest in base64.", FaultKind.Unreadable);
    }

    private static NotFoundException Missing(Guid id) => new($"There is no upload {id}; it was deleted, or waited longer than it may.");

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
