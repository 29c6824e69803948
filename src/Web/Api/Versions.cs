using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;

namespace HeirloomArchive.Web.Api;

/// <summary>The headers of a change: <c>If-Match</c> in, <c>ETag</c> and <c>X-Position</c> out.</summary>
public static class Versions
{
    /// <summary>Who makes the change, as the history will show her.</summary>
    public static string Who => Viewer.Now.Name;

    /// <summary>The version the client saw.</summary>
    /// <exception cref="BadHttpRequestException">428 without the header, 400 if it is not one entity tag.</exception>
    public static long Seen(HttpRequest request)
    {
        var header = request.Headers.IfMatch.ToString();
        if (header.Length == 0)
        {
            throw new BadHttpRequestException(
                "A change needs the header If-Match with the ETag that the record had when it was read, such as \"3\".",
                StatusCodes.Status428PreconditionRequired);
        }

        if (header.Length < 2 || header[0] != '"' || header[^1] != '"')
        {
            throw new BadHttpRequestException(
                $"If-Match is {header.Short()}; send the one ETag as it was answered, in quotation marks: \"3\".");
        }

        // A tag that is no number was never ours: it is as stale as can be.
        return long.TryParse(header[1..^1], NumberStyles.None, CultureInfo.InvariantCulture, out var version) ? version : 0;
    }

    /// <summary>Tells the client where the record stands now.</summary>
    public static void Tag(HttpResponse response, long version) => response.Headers.ETag = $"\"{version.ToString(CultureInfo.InvariantCulture)}\"";

    /// <summary>After a save: the headers, and this node's own index at once.</summary>
    public static async Task Written(HttpResponse response, Garment garment, long position, IndexFollower index)
    {
        Tag(response, garment.Version);
        response.Headers["X-Position"] = position.ToString(CultureInfo.InvariantCulture);
        await index.Refresh(garment.Id, position);
    }
}
