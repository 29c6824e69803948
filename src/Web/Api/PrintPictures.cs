using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Web.Pages.Reading;
using Marten;

namespace HeirloomArchive.Web.Api;

/// <summary>The bytes of pictures that go on paper. A print does without one whose original is gone or can no longer be read.</summary>
public sealed class PrintPictures(IDocumentStore store, Derivatives derivatives, Tiles tiles)
{
    /// <summary>A marked place cut out, as JPEG; where none is marked, the whole picture small. Null where there is neither.</summary>
    /// <param name="close">The place, or null.</param>
    /// <param name="picture">The id of the whole picture, or null.</param>
    /// <param name="ct">Stops waiting.</param>
    public async Task<byte[]?> Of(CloseView? close, string? picture, CancellationToken ct)
    {
        try
        {
            await using var file = close is null ? await Small(picture, ct) : await Cut(close, ct);
            if (file is null)
            {
                return null;
            }

            using var bytes = new MemoryStream();
            await file.CopyToAsync(bytes, ct);
            return bytes.ToArray();
        }
        catch (RefusedException)
        {
            return null;
        }
    }

    private Task<Stream?> Cut(CloseView close, CancellationToken ct)
    {
        var ((x, y, width, height), (across, down)) = (close.Place.Crop, close.Size);
        return tiles.Open(close.Sha256, new TileRequest(x, y, width, height, across, down), ct);
    }

    private async Task<Stream?> Small(string? picture, CancellationToken ct)
    {
        if (!Guid.TryParse(picture, out var id))
        {
            return null;
        }

        await using var session = store.QuerySession();
        return await session.LoadAsync<PictureOwner>(id, ct) is { } owner ? await derivatives.Open(Derivative.Thumbnail, owner.Sha256, ct) : null;
    }
}
