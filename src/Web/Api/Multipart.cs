using System.Text;
using HeirloomArchive.Pictures;
using HeirloomArchive.Sewing;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;

namespace HeirloomArchive.Web.Api;

/// <summary>Reads multipart/form-data: files to disk as they come, and short texts.</summary>
internal static class Multipart
{
    private const int LongestText = 16 * 1024;

    // What the reader of the form throws; a failure of the disk carries the system's number instead and is no fault of the sender's.
    private const int PlainIOException = unchecked((int)0x80131620);

    /// <summary>Whether a request says that it is of this kind.</summary>
    public static bool Is(HttpRequest request) =>
        MediaTypeHeaderValue.TryParse(request.ContentType, out var type) && type.MediaType.Equals("multipart/form-data", StringComparison.OrdinalIgnoreCase);

    /// <summary>Takes the files of the field <c>file</c>, and answers the texts that came, trimmed, by their names.</summary>
    /// <param name="request">The request, its body not read yet.</param>
    /// <param name="files">Receives the files; the caller disposes them, also when this throws.</param>
    /// <param name="store">Where they are put.</param>
    /// <param name="limits">How many there may be, and how large.</param>
    /// <param name="fields">The texts known here, each at most once.</param>
    /// <param name="ct">Ends it.</param>
    /// <exception cref="FaultException">It is cut off, not well-formed, or has a field that is not known.</exception>
    public static async Task<IReadOnlyDictionary<string, string>> Receive(
        HttpRequest request, List<IncomingFile> files, PictureStore store, PictureLimits limits, IReadOnlyList<string> fields, CancellationToken ct)
    {
        var reader = new MultipartReader(Boundary(request), request.Body);
        var texts = new Dictionary<string, string>();
        try
        {
            while (await reader.ReadNextSectionAsync(ct) is { } section)
            {
                var name = ContentDispositionHeaderValue.TryParse(section.ContentDisposition, out var disposition)
                    ? HeaderUtilities.RemoveQuotes(disposition.Name).ToString()
                    : throw new FaultException("", "A part of the form says in no readable way what it is; it must say Content-Disposition: form-data; name=\"file\"; filename=\"…\", without control characters.", FaultKind.Unreadable);
                if (name == "file")
                {
                    if (files.Count == limits.Files)
                    {
                        throw new BadHttpRequestException($"At most {limits.Files} files are taken at once; send the rest after.", StatusCodes.Status413PayloadTooLarge);
                    }

                    files.Add(await store.Receive(section.Body, ct));
                }
                else if (!fields.Contains(name) || !texts.TryAdd(name, await Text(name, section.Body, ct)))
                {
                    throw new FaultException(name, $"The field \"{name.Short(60)}\" is not known here or comes twice; send file and once each: {string.Join(", ", fields)}.", FaultKind.Unreadable);
                }
            }
        }
        catch (Exception e) when (e is InvalidDataException || (e.GetType() == typeof(IOException) && e.HResult == PlainIOException))
        {
            throw new FaultException("", "The upload is not well-formed multipart/form-data, or was cut off on the way.", FaultKind.Unreadable);
        }

        return texts;
    }

    /// <summary>Refuses an upload without a file.</summary>
    public static void NeedsFile(List<IncomingFile> files)
    {
        if (files.Count == 0)
        {
            throw new FaultException("file", "The upload has no file; send one or more in the field file.", FaultKind.Unreadable);
        }
    }

    private static string Boundary(HttpRequest request) =>
        Is(request) && HeaderUtilities.RemoveQuotes(MediaTypeHeaderValue.Parse(request.ContentType).Boundary).ToString() is { Length: > 0 and <= 200 } boundary
            ? boundary
            : throw new BadHttpRequestException(
                "Pictures are sent as multipart/form-data with a boundary, in the field file.", StatusCodes.Status415UnsupportedMediaType);

    private static async Task<string> Text(string name, Stream body, CancellationToken ct)
    {
        var bytes = new byte[LongestText + 1];
        var length = await body.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false, ct);
        if (length > LongestText)
        {
            throw new FaultException(name, $"The {name} is longer than {LongestText} bytes.");
        }

        try
        {
            var text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes, 0, length).Trim();
            return text.Contains('\0') ? throw new FaultException(name, $"The {name} holds the control character U+0000; leave it out.") : text;
        }
        catch (DecoderFallbackException)
        {
            throw new FaultException(name, $"The {name} is not UTF-8 text.", FaultKind.Unreadable);
        }
    }
}
