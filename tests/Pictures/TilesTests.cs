using HeirloomArchive.Support;
using Microsoft.Extensions.Logging.Abstractions;
using SkiaSharp;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>Tiles and regions of a picture whose colours say where they lie: red across, green down.</summary>
[Collection(nameof(Workers))]
public sealed class TilesTests(TilesTests.Slopes slopes) : IClassFixture<TilesTests.Slopes>
{
    private const int Width = 1301, Height = 903;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private Tiles Tiles => slopes.Room.Tiles;

    [Fact]
    public async Task The_size_is_the_picture_upright_and_the_factors_end_with_a_single_tile()
    {
        var (upright, turned) = (await Tiles.Size(slopes.Upright, Cancel), await Tiles.Size(slopes.Turned, Cancel));
        Assert.Equal((Width, Height), (upright!.Width, upright.Height));
        Assert.Equal([1, 2, 4], upright.ScaleFactors);
        Assert.Equal((Height, Width), (turned!.Width, turned.Height));
        Assert.Null(await Tiles.Size(new string('0', 64), Cancel));
        Assert.Null(await Tiles.Open(new string('0', 64), new TileRequest(0, 0, 1, 1, 1, 1), Cancel));
    }

    /// <summary>How a viewer asks for them: IIIF Image API 3.0, 5.3 and the implementation notes on tiles.</summary>
    [Fact]
    public async Task Every_tile_of_every_factor_shows_its_own_place()
    {
        foreach (var factor in new[] { 1, 2, 4 })
        {
            for (var y = 0; y < Height; y += 512 * factor)
            {
                for (var x = 0; x < Width; x += 512 * factor)
                {
                    var (w, h) = (Math.Min(512 * factor, Width - x), Math.Min(512 * factor, Height - y));
                    var request = new TileRequest(x, y, w, h, (w + factor - 1) / factor, (h + factor - 1) / factor);
                    await Shows(slopes.Upright, request, (u, v) => (x + (u * w), y + (v * h)));
                }
            }
        }

        Assert.Empty(Directory.EnumerateFiles(Path.Combine(slopes.Room.Folder, "regions"), $"{slopes.Upright}*512*"));
    }

    [Theory]
    [InlineData(100, 200, 300, 150, 300, 150)] // As it is.
    [InlineData(500, 400, 600, 400, 217, 145)] // Across tiles, between sizes.
    [InlineData(0, 0, Width, Height, 700, 486)]
    [InlineData(0, 0, Width, Height, 40, 28)] // Smaller than the smallest size.
    [InlineData(1200, 800, 101, 103, 505, 515)] // Larger than it is, at the edge.
    [InlineData(600, 100, 400, 800, 400, 100)] // Out of proportion.
    public async Task A_region_shows_its_own_place(int x, int y, int w, int h, int outWidth, int outHeight)
    {
        foreach (var format in Enum.GetValues<PictureFormat>())
        {
            await Shows(slopes.Upright, new TileRequest(x, y, w, h, outWidth, outHeight) { Format = format }, (u, v) => (x + (u * w), y + (v * h)));
        }
    }

    /// <summary>Turns go clockwise, after the mirroring: IIIF Image API 3.0, 4.3.</summary>
    [Theory]
    [InlineData(90, false)]
    [InlineData(180, false)]
    [InlineData(270, false)]
    [InlineData(0, true)]
    [InlineData(90, true)]
    [InlineData(180, true)]
    [InlineData(270, true)]
    public async Task A_region_turned_and_mirrored(int degrees, bool mirrored)
    {
        var request = new TileRequest(100, 200, 400, 300, 200, 150) { Rotation = degrees, Mirrored = mirrored };
        await Shows(slopes.Upright, request, (u, v) =>
        {
            // Back from what is seen to the region: the turn first, then the mirror.
            var (a, b) = degrees switch { 90 => (v, 1 - u), 180 => (1 - u, 1 - v), 270 => (1 - v, u), _ => (u, v) };
            return (100 + ((mirrored ? 1 - a : a) * 400), 200 + (b * 300));
        });
    }

    [Fact]
    public async Task A_picture_stored_on_its_side_is_asked_for_upright()
    {
        // Orientation 6: seen x is the stored rows backwards, seen y the stored columns.
        foreach (var request in new[] { new TileRequest(0, 0, 512, 512, 512, 512), new TileRequest(0, 0, Height, Width, 226, 326), new TileRequest(300, 700, 333, 222, 100, 67) })
        {
            await Shows(slopes.Turned, request, (u, v) => (request.Y + (v * request.Height), Height - request.X - (u * request.Width)));
        }
    }

    [Fact]
    public async Task Grey_has_no_colour()
    {
        using var image = await Open(slopes.Upright, new TileRequest(700, 100, 400, 400, 200, 200) { Grey = true, Format = PictureFormat.Png });
        var colour = image.GetPixel(100, 100);
        Assert.Equal((colour.Red, colour.Green), (colour.Green, colour.Blue));
        Assert.InRange(colour.Green, 70, 120);
    }

    [Theory]
    [InlineData(-1, 0, 10, 10, 10, 10)]
    [InlineData(0, 0, Width + 1, 10, 10, 10)]
    [InlineData(int.MaxValue, 0, int.MaxValue, 10, 10, 10)]
    [InlineData(0, 0, 10, 10, 0, 10)]
    [InlineData(0, 0, 10, 10, 5000, 5000)]
    [InlineData(0, 0, 10, 10, 20_000, 1)]
    public async Task What_does_not_lie_in_the_picture_or_is_too_much_is_refused(int x, int y, int w, int h, int outWidth, int outHeight) =>
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => Tiles.Open(slopes.Upright, new TileRequest(x, y, w, h, outWidth, outHeight), Cancel));

    [Fact]
    public async Task Regions_are_kept_and_no_more_of_them_than_there_is_room_for()
    {
        using var room = new Room(Workers.Usual with { RegionCacheBytes = 40_000 });
        var sha256 = await room.Keep(Made.Jpeg(600, 600));
        var regions = new DirectoryInfo(Path.Combine(room.Folder, "regions"));
        for (var i = 0; i < 12; i++)
        {
            using var made = await room.Tiles.Open(sha256, new TileRequest(i, 0, 500, 500, 400, 400), Cancel);
            using var again = await room.Tiles.Open(sha256, new TileRequest(i, 0, 500, 500, 400, 400), Cancel);
            Assert.IsType<FileStream>(again);
            Assert.Equal(made!.Length, again.Length);
            Assert.InRange(regions.EnumerateFiles().Sum(f => f.Length), 1, 40_000);
        }
    }

    [Fact]
    public async Task Derivatives_of_another_recipe_are_made_again_in_the_background_and_it_says_how_far_it_is()
    {
        using var room = new Room();
        string[] originals = [await room.Keep(Made.Jpeg(700, 500)), await room.Keep(Made.Png(300, 900)), await room.Keep([1, 2, 3])];
        var old = Directory.CreateDirectory(Path.Combine(room.Folder, "made.1", "ab"));
        File.WriteAllText(Path.Combine(old.FullName, "abcd.screen.jpeg"), "of an older recipe");
        using var making = new MakingAgain(room.Store, room.Derivatives, NullLogger<MakingAgain>.Instance);
        Assert.Equal(new MakingProgress(0, 0, 0), making.Progress);
        await making.StartAsync(Cancel);
        await Wait.Until(() => making.Progress.Done == 3, "all three are seen to");
        Assert.Equal(new MakingProgress(3, 3, 1), making.Progress);
        Assert.All(originals[..2], o => Assert.True(room.Store.HasFirst(o) && room.Store.HasRest(o)));
        using var webP = await room.Derivatives.Open(Derivative.Screen, originals[0], webP: true, Cancel);
        Assert.EndsWith(".webp", webP!.Name, StringComparison.Ordinal);
        await making.StopAsync(Cancel);
        Assert.False(old.Exists && Directory.Exists(old.FullName));
    }

    [Fact]
    public async Task A_file_among_the_originals_that_is_none_and_an_original_taken_back_do_not_stop_the_making()
    {
        using var room = new Room();
        var (first, gone) = (await room.Keep(Made.Jpeg(70, 50)), await room.Keep(Made.Png(30, 20)));
        File.WriteAllText(Path.Combine(room.Folder, "originals", first[..2], "Thumbs.db"), "of another program");
        room.Store.DropOriginal(gone);
        room.Derivatives.AskForTheRest(gone);
        using var making = new MakingAgain(room.Store, room.Derivatives, NullLogger<MakingAgain>.Instance);
        await making.StartAsync(Cancel);
        await Wait.Until(() => making.Progress.Done == 2 || making.ExecuteTask!.IsCompleted, "both are seen to");
        Assert.Equal(new MakingProgress(2, 2, 0), making.Progress);
        await making.StopAsync(Cancel);
    }

    /// <summary>Colours at nine places of what comes out are those of the places of the picture they should show.</summary>
    private async Task Shows(string sha256, TileRequest request, Func<double, double, (double X, double Y)> place)
    {
        using var image = await Open(sha256, request);
        Assert.Equal(request.Rotation % 180 == 0 ? (request.OutWidth, request.OutHeight) : (request.OutHeight, request.OutWidth), (image.Width, image.Height));
        // What JPEG and WebP lose, and where little comes out a third of the step from one pixel to the next.
        var near = 5 + Math.Max(request.Width * 255 / Width / request.OutWidth / 3, request.Height * 255 / Height / request.OutHeight / 3);
        foreach (var (u, v) in new[] { 0.1, 0.5, 0.9 }.SelectMany(u => new[] { 0.1, 0.5, 0.9 }.Select(v => (u, v))))
        {
            var (x, y) = place(((int)(u * image.Width) + 0.5) / image.Width, ((int)(v * image.Height) + 0.5) / image.Height);
            var colour = image.GetPixel((int)(u * image.Width), (int)(v * image.Height));
            Assert.True(
                Math.Abs(colour.Red - (x * 255 / Width)) <= near && Math.Abs(colour.Green - (y * 255 / Height)) <= near && Math.Abs(colour.Blue - 100) <= near + 3,
                $"{request} at {u}, {v}: {colour} instead of {x * 255 / Width:0} {y * 255 / Height:0} 100");
        }
    }

    private async Task<SKBitmap> Open(string sha256, TileRequest request)
    {
        using var stream = await Tiles.Open(sha256, request, Cancel);
        using var bytes = new MemoryStream();
        await stream!.CopyToAsync(bytes, Cancel);
        Assert.Equal(request.Format, PictureFormats.Of(bytes.ToArray()));
        return Made.Decoded(bytes.ToArray());
    }

    /// <summary>The picture, upright and stored on its side.</summary>
    public sealed class Slopes : IAsyncLifetime
    {
        internal Room Room { get; } = new();

        public string Upright { get; private set; } = "";

        public string Turned { get; private set; } = "";

        public async ValueTask InitializeAsync()
        {
            using var bitmap = new SKBitmap(new SKImageInfo(Width, Height, SKColorType.Rgba8888, SKAlphaType.Opaque));
            for (var y = 0; y < Height; y++)
            {
                for (var x = 0; x < Width; x++)
                {
                    bitmap.SetPixel(x, y, new SKColor((byte)(x * 255 / Width), (byte)(y * 255 / Height), 100));
                }
            }

            var file = Made.Jpeg(bitmap);
            Upright = await Room.Keep(file);
            Turned = await Room.Keep(JpegParts.With(file, 0xE1, [.. "Exif\0\0"u8, .. Exif.Block(6, placed: false)]));
        }

        public ValueTask DisposeAsync()
        {
            Room.Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
