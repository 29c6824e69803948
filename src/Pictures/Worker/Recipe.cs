namespace HeirloomArchive.Pictures;

/// <summary>How each smaller picture is made. Whoever changes what comes out counts up <see cref="PictureStore.Recipe"/>.</summary>
internal static class Recipe
{
    private const int ScreenSide = 1600, ThumbnailSide = 320, JpegQuality = 90, WebPQuality = 82; // JPEG at 90 rounds a flat colour by less than half a step a channel; at 82 by twice that.

    /// <summary>Screen and thumbnail as JPEG.</summary>
    /// <param name="file">An original.</param>
    /// <param name="format">What it is.</param>
    /// <param name="begin">Told width and height the right way up, before the first file.</param>
    public static IEnumerable<byte[]> First(ArraySegment<byte> file, PictureFormat format, Action<int, int> begin)
    {
        var (stored, orientation, width, height) = Decoding.Decode(file, format, ScreenSide);
        using var screen = Fit(stored, orientation, width, height, ScreenSide);
        using var thumbnail = Fit(screen.Whole(), Orientation.TopLeft, screen.Width, screen.Height, ThumbnailSide);
        begin(width, height);
        yield return screen.Encoded(PictureFormat.Jpeg, JpegQuality);
        yield return thumbnail.Encoded(PictureFormat.Jpeg, JpegQuality);
    }

    /// <summary>Every tile of the pyramid in its order, then screen and thumbnail as WebP.</summary>
    /// <inheritdoc cref="First" path="/param"/>
    public static IEnumerable<byte[]> Rest(ArraySegment<byte> file, PictureFormat format, Action<int, int> begin)
    {
        var (level, orientation, width, height) = Decoding.Decode(file, format);
        Pixels? screen = null;
        try
        {
            begin(width, height);
            foreach (var shape in TileLevels.Of(width, height))
            {
                if (shape.Factor > 1)
                {
                    var half = level.Halved(orientation);
                    level.Dispose();
                    level = half;
                }

                if (screen is null && Math.Max(shape.Width, shape.Height) < 2 * ScreenSide)
                {
                    screen = Fit(level.Whole(), orientation, width, height, ScreenSide);
                }

                for (var tile = 0; tile < shape.Tiles; tile++)
                {
                    yield return Tile(level, orientation, shape, tile % shape.Columns, tile / shape.Columns);
                }
            }

            yield return screen!.Encoded(PictureFormat.WebP, WebPQuality);
            using var thumbnail = Fit(screen.Whole(), Orientation.TopLeft, screen.Width, screen.Height, ThumbnailSide);
            yield return thumbnail.Encoded(PictureFormat.WebP, WebPQuality);
        }
        finally
        {
            level.Dispose();
            screen?.Dispose();
        }
    }

    /// <summary>A region composed of tiles.</summary>
    /// <param name="message">A <see cref="RegionWork"/> as it was sent.</param>
    /// <param name="begin">Told width and height of what comes out.</param>
    public static IEnumerable<byte[]> Region(ArraySegment<byte> message, Action<int, int> begin)
    {
        var work = RegionWork.Read(message, out var tiles);
        using var ground = new Pixels(work.GroundWidth, work.GroundHeight, opaque: true);
        Cores.Each(tiles.Count, i =>
        {
            using var tile = Decoding.Decode(tiles[i].File, PictureFormat.Jpeg, within: true).Pixels;
            ground.Place(tile, tiles[i].Left, tiles[i].Top);
        });

        using var scaled = ground.Scaled(work.X, work.Y, work.Width, work.Height, work.OutWidth, work.OutHeight);
        if (work.Grey)
        {
            scaled.Grey();
        }

        using var turned = Upright(scaled, Orientations.OfTurn(work.Rotation, work.Mirrored));
        begin(turned.Width, turned.Height);
        yield return turned.Encoded(work.Format, work.Format == PictureFormat.WebP ? WebPQuality : JpegQuality);
    }

    /// <summary>A request of each kind with a small picture of each format, and some that can't be answered.</summary>
    public static IEnumerable<(WorkKind Kind, PictureFormat Format, byte[] Bytes)> Samples()
    {
        foreach (var format in Enum.GetValues<PictureFormat>())
        {
            // Wide enough for a pyramid and a thumbnail halved and scaled, low so that it takes no time.
            using var small = new Pixels(1100, 40, opaque: format == PictureFormat.Jpeg);
            var file = small.Encoded(format, JpegQuality);
            yield return (WorkKind.First, format, file);
            yield return (WorkKind.First, format, file[..(file.Length * 2 / 3)]);
            yield return (WorkKind.Rest, format, file);
            yield return (WorkKind.First, format, [0, 1, 2, 3]);
        }

        using var tile = new Pixels(512, 512, opaque: true);
        foreach (var format in Enum.GetValues<PictureFormat>())
        {
            // Of several tiles, and more than a few rows: so that it goes the way of several threads too.
            var (work, file) = (new RegionWork(700, 512, 10.5f, 10, 600, 480, 320, 240, 90, false, true, format), tile.Encoded(PictureFormat.Jpeg, JpegQuality));
            yield return (WorkKind.Region, PictureFormat.Jpeg, work.Message([(0, 0, file), (512, 0, file)]));
        }
    }

    private static byte[] Tile(Pixels level, Orientation orientation, TileLevel shape, int column, int row)
    {
        var (width, height) = shape.Size(column, row);
        using var tile = level.Part(orientation, column * TileLevels.Side, row * TileLevels.Side, width, height);
        return tile.Encoded(PictureFormat.Jpeg, JpegQuality);
    }

    /// <summary>A picture upright with its longest side at most so many pixels.</summary>
    /// <param name="stored">Disposed of here.</param>
    /// <param name="orientation">Where its rows and columns belong.</param>
    /// <param name="width">The whole picture's, the right way up; it may be stored smaller already.</param>
    /// <param name="height">The same.</param>
    /// <param name="side">Never made larger.</param>
    private static Pixels Fit(Pixels stored, Orientation orientation, int width, int height, int side)
    {
        var longest = Math.Max(width, height);
        int Scaled(int length) => longest <= side ? length : Math.Max(1, (int)Math.Round((double)length * side / longest));
        var (across, down) = orientation.OnItsSide() ? (Scaled(height), Scaled(width)) : (Scaled(width), Scaled(height));
        try
        {
            while (stored.Width >= 2 * across && stored.Height >= 2 * down && stored.Width + stored.Height > 2)
            {
                var half = stored.Halved(orientation);
                stored.Dispose();
                stored = half;
            }

            if ((stored.Width, stored.Height) != (across, down))
            {
                var scaled = stored.Scaled(0, 0, stored.Width, stored.Height, across, down);
                stored.Dispose();
                stored = scaled;
            }

            // Made smaller first, then turned: turning the whole would need its memory twice.
            return Upright(stored, orientation);
        }
        finally
        {
            stored.Dispose();
        }
    }

    private static Pixels Upright(Pixels stored, Orientation orientation) => orientation.OnItsSide()
        ? stored.Part(orientation, 0, 0, stored.Height, stored.Width)
        : stored.Part(orientation, 0, 0, stored.Width, stored.Height);
}
