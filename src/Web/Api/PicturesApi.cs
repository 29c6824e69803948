using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;

namespace HeirloomArchive.Web.Api;

/// <summary>Pictures come by upload to a garment and are served by their own id.</summary>
public static class PicturesApi
{
    internal const long LargestUpload = 1_000_000_000;
    private const int LongestCaption = 16 * 1024;

    // What the reader of the form throws; a failure of the disk carries the system's number instead and is no fault of the sender's.
    private const int PlainIOException = unchecked((int)0x80131620);

    public static void MapPictures(this IEndpointRouteBuilder app)
    {
        app.MapPost("/api/garments/{id:guid}/pictures", Upload)
            .WithTags("Pictures").WithSummary("Upload pictures: field file (one or more) and caption.")
            .WithMetadata(new RequestSizeLimitAttribute(LargestUpload))
            .Accepts<IFormFile>("multipart/form-data");
        var picture = app.MapGroup("/api/pictures/{pid:guid}").WithTags("Pictures");
        picture.MapGet("/original", Original).WithSummary("The file as it was uploaded, byte for byte.");
        picture.MapGet("/screen", (Guid pid, HttpResponse response, IDocumentStore documents, Derivatives derivatives, CancellationToken ct) =>
            Smaller(Derivative.Screen, pid, response, documents, derivatives, ct)).WithSummary("For the page: longest side at most 1600 pixels.");
        picture.MapGet("/thumbnail", (Guid pid, HttpResponse response, IDocumentStore documents, Derivatives derivatives, CancellationToken ct) =>
            Smaller(Derivative.Thumbnail, pid, response, documents, derivatives, ct)).WithSummary("For lists: longest side at most 320 pixels.");
    }

    private static async Task<IResult> Upload(
        Guid id, HttpContext http, Uploads uploads, PictureStore store, PictureLimits limits, IndexFollower index, CancellationToken ct)
    {
        await uploads.Standing(id, ct);
        List<IncomingFile> files = [];
        try
        {
            var caption = await Receive(http.Request, files, store, limits, ct);
            var taken = await uploads.Take(id, files, caption, Versions.Owner, ct);
            if (taken.Position is { } position)
            {
                await Versions.Written(http.Response, taken.Garment, position, index);
            }
            else
            {
                Versions.Tag(http.Response, taken.Garment);
            }

            return Api.Json(new JsonArray([.. taken.Pictures.Select(Answer)]), StatusCodes.Status201Created);
        }
        finally
        {
            files.ForEach(f => f.Dispose());
        }
    }

    private static JsonObject Answer(TakenPicture picture)
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

    /// <summary>Streams the files to disk as they come, and answers the caption.</summary>
    private static async Task<string?> Receive(
        HttpRequest request, List<IncomingFile> files, PictureStore store, PictureLimits limits, CancellationToken ct)
    {
        var reader = new MultipartReader(Boundary(request), request.Body);
        string? caption = null;
        try
        {
            while (await reader.ReadNextSectionAsync(ct) is { } section)
            {
                var name = ContentDispositionHeaderValue.TryParse(section.ContentDisposition, out var disposition)
                    ? HeaderUtilities.RemoveQuotes(disposition.Name).ToString() : "";
                if (name == "file")
                {
                    if (files.Count == limits.Files)
                    {
                        throw new BadHttpRequestException($"At most {limits.Files} files are taken at once; send the rest after.", StatusCodes.Status413PayloadTooLarge);
                    }

                    files.Add(await store.Receive(section.Body, ct));
                }
                else if (name == "caption" && caption is null)
                {
                    caption = await ReadCaption(section.Body, ct);
                }
                else
                {
                    throw new FaultException(name, $"The field \"{(name.Length > 60 ? name[..60] + "…" : name)}\" is not known here or comes twice; send file (one or more) and one caption.", FaultKind.Unreadable);
                }
            }
        }
        catch (Exception e) when (IsCutOff(e))
        {
            throw new FaultException("", "The upload is not well-formed multipart/form-data, or was cut off on the way.", FaultKind.Unreadable);
        }

        return files.Count > 0 ? caption is "" ? null : caption
            : throw new FaultException("file", "The upload has no file; send one or more in the field file.", FaultKind.Unreadable);
    }

    /// <summary>What reading a form throws when it is not well-formed or ends too soon.</summary>
    internal static bool IsCutOff(Exception e) => e is InvalidDataException || (e.GetType() == typeof(IOException) && e.HResult == PlainIOException);

    internal static string Boundary(HttpRequest request) =>
        MediaTypeHeaderValue.TryParse(request.ContentType, out var type)
            && type.MediaType.Equals("multipart/form-data", StringComparison.OrdinalIgnoreCase)
            && HeaderUtilities.RemoveQuotes(type.Boundary).ToString() is { Length: > 0 and <= 200 } boundary
            ? boundary
            : throw new BadHttpRequestException(
                "Pictures are sent as multipart/form-data with a boundary, in the field file.", StatusCodes.Status415UnsupportedMediaType);

    private static async Task<string> ReadCaption(Stream body, CancellationToken ct)
    {
        var bytes = new byte[LongestCaption + 1];
        var length = await body.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false, ct);
        if (length > LongestCaption)
        {
            throw new FaultException("caption", $"The caption is longer than {LongestCaption} bytes; put the rest in the description.");
        }

        try
        {
            var caption = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes, 0, length).Trim();
            return caption.Contains('\0') ? throw new FaultException("caption", "The caption holds the control character U+0000; leave it out.") : caption;
        }
        catch (DecoderFallbackException)
        {
            throw new FaultException("caption", "The caption is not UTF-8 text.", FaultKind.Unreadable);
        }
    }

    private static async Task<IResult> Original(Guid pid, HttpResponse response, IDocumentStore documents, PictureStore store, CancellationToken ct)
    {
        var sha256 = await Digest(pid, documents, ct);
        return await Serve(response, store.OpenOriginal(sha256), pid, sha256, ct);
    }

    private static async Task<IResult> Smaller(
        Derivative derivative, Guid pid, HttpResponse response, IDocumentStore documents, Derivatives derivatives, CancellationToken ct)
    {
        var sha256 = await Digest(pid, documents, ct);
        return await Serve(response, await derivatives.Open(derivative, sha256, ct), pid, $"{sha256}-{derivative}-{PictureStore.Recipe}", ct);
    }

    private static async Task<string> Digest(Guid pid, IDocumentStore documents, CancellationToken ct)
    {
        await using var session = documents.QuerySession();
        return (await session.LoadAsync<PictureOwner>(pid, ct))?.Sha256 ?? throw new NotFoundException($"No picture has the id {pid}.");
    }

    /// <summary>Bytes that never change under their address: kept by the one browser for good, but not by what stands between.</summary>
    private static async Task<IResult> Serve(HttpResponse response, FileStream? file, Guid pid, string tag, CancellationToken ct)
    {
        if (file is null)
        {
            throw new NotFoundException($"The file of the picture {pid} is not in the folder of pictures.");
        }

        var head = new byte[PictureFormats.HeadLength];
        var length = await file.ReadAtLeastAsync(head, head.Length, throwOnEndOfStream: false, ct);
        file.Position = 0;
        response.Headers.CacheControl = "private, max-age=31536000, immutable";
        response.Headers.XContentTypeOptions = "nosniff";
        return Results.Stream(
            file, PictureFormats.Of(head.AsSpan(0, length))?.MediaType() ?? "application/octet-stream",
            entityTag: new EntityTagHeaderValue($"\"{tag}\""), enableRangeProcessing: true);
    }
}
