using System.Globalization;

namespace HeirloomArchive.Pictures;

/// <summary>
/// Any region of a picture at any size, for deep zoom. A region that is a tile of the pyramid is read as it lies; any other
/// is composed of the tiles of the nearest larger size by a worker, and kept a while.
/// </summary>
public sealed class Tiles(Derivatives derivatives, Workshop workshop, RegionCache cache)
{
    /// <summary>Pixels along a tile.</summary>
    public const int Side = TileLevels.Side;

    /// <summary>Pixels that may come out in all: 4096 × 4096, some 16 megapixels.</summary>
    public const int LargestOut = 4096 * 4096;

    /// <summary>Pixels that may come out along a side; WebP can say no more.</summary>
    public const int LongestOut = 16_383;

    /// <summary>A picture's size the right way up; null when there is no such original. Makes the tiles when they are not there.</summary>
    /// <exception cref="RefusedException">The original can no longer be decoded.</exception>
    public async Task<PictureSize?> Size(string sha256, CancellationToken cancel)
    {
        using var tiles = await derivatives.Tiles(sha256, cancel);
        return tiles is null ? null : new PictureSize(tiles.Width, tiles.Height, [.. tiles.Levels.Select(l => l.Factor)]);
    }

    /// <summary>The region as a file of the format asked for, to be read and sought in; null when there is no such original.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The region does not lie within the picture, or too much is to come out.</exception>
    /// <exception cref="RefusedException">The original can no longer be decoded.</exception>
    public async Task<Stream?> Open(string sha256, TileRequest request, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var tiles = await derivatives.Tiles(sha256, cancel);
        if (tiles is null)
        {
            return null;
        }

        Check(request, tiles);
        if (AsItLies(request, tiles) is { } tile)
        {
            workshop.Expect();
            return new MemoryStream(await tiles.Read(tile, cancel), writable: false);
        }

        var name = Name(sha256, request);
        if (cache.Open(name) is { } kept)
        {
            return kept;
        }

        var done = await workshop.Compose(sha256, await Order(request, tiles, cancel), cancel);
        var made = (done.Made ?? throw new RefusedException([done.Fault!.At(0)])).Files[0];
        cache.Keep(name, made);
        return new MemoryStream(made, writable: false);
    }

    private static void Check(TileRequest r, TileFile tiles)
    {
        if (r.X < 0 || r.Y < 0 || r.Width < 1 || r.Height < 1 || (long)r.X + r.Width > tiles.Width || (long)r.Y + r.Height > tiles.Height)
        {
            throw new ArgumentOutOfRangeException(nameof(r), $"The region {r.X},{r.Y},{r.Width},{r.Height} does not lie within the picture of {tiles.Width} × {tiles.Height} pixels.");
        }

        if (r.OutWidth < 1 || r.OutHeight < 1 || r.OutWidth > LongestOut || r.OutHeight > LongestOut || (long)r.OutWidth * r.OutHeight > LargestOut)
        {
            throw new ArgumentOutOfRangeException(nameof(r), $"{r.OutWidth} × {r.OutHeight} pixels can't come out: at most {LargestOut / 1_000_000} megapixels and {LongestOut} a side.");
        }

        if (r.Rotation is not (0 or 90 or 180 or 270))
        {
            throw new ArgumentOutOfRangeException(nameof(r), $"A turn of {r.Rotation} degrees is not made: 0, 90, 180 or 270.");
        }
    }

    /// <summary>The number of the tile that is just this region, or null.</summary>
    private static int? AsItLies(TileRequest r, TileFile tiles)
    {
        if (r is not { Rotation: 0, Mirrored: false, Grey: false, Format: PictureFormat.Jpeg })
        {
            return null;
        }

        foreach (var level in tiles.Levels)
        {
            var step = Side * level.Factor;
            var (column, row) = (r.X / step, r.Y / step);
            if (r.X % step == 0 && r.Y % step == 0 && level.Size(column, row) == (r.OutWidth, r.OutHeight)
                && r.Width == Math.Min(step, tiles.Width - r.X) && r.Height == Math.Min(step, tiles.Height - r.Y))
            {
                return level.Number(column, row);
            }
        }

        return null;
    }

    /// <summary>The tiles that the region touches, at the smallest size that is not smaller than what is to come out.</summary>
    private static async Task<RegionOrder> Order(TileRequest r, TileFile tiles, CancellationToken cancel)
    {
        var level = tiles.Levels.Last(l => l.Factor == 1 || ((long)r.OutWidth * l.Factor <= r.Width && (long)r.OutHeight * l.Factor <= r.Height));
        var (x, y, width, height) = ((double)r.X / level.Factor, (double)r.Y / level.Factor, (double)r.Width / level.Factor, (double)r.Height / level.Factor);
        // So many pixels around it as the smoothing looks at.
        var (beside, above) = ((int)Math.Ceiling(Resampling.Reach(width / r.OutWidth)), (int)Math.Ceiling(Resampling.Reach(height / r.OutHeight)));
        var (left, top) = (Math.Max((int)x - beside, 0), Math.Max((int)y - above, 0));
        var (right, bottom) = (Math.Min((int)Math.Ceiling(x + width) + beside, level.Width), Math.Min((int)Math.Ceiling(y + height) + above, level.Height));
        List<(int, int, ArraySegment<byte>)> pieces = [];
        for (var row = top / Side; row * Side < bottom; row++)
        {
            for (var column = left / Side; column * Side < right; column++)
            {
                pieces.Add(((column * Side) - left, (row * Side) - top, await tiles.Read(level.Number(column, row), cancel)));
            }
        }

        var work = new RegionWork(
            right - left, bottom - top, (float)(x - left), (float)(y - top), (float)width, (float)height,
            r.OutWidth, r.OutHeight, r.Rotation, r.Mirrored, r.Grey, r.Format);
        return new RegionOrder(work, pieces);
    }

    private static string Name(string sha256, TileRequest r) => string.Create(
        CultureInfo.InvariantCulture,
        $"{sha256}.{PictureStore.Recipe}.{r.X}.{r.Y}.{r.Width}.{r.Height}.{r.OutWidth}.{r.OutHeight}.{r.Rotation}{(r.Mirrored ? "m" : "")}{(r.Grey ? "g" : "")}.{r.Format}");
}
