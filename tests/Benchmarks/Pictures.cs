using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using HeirloomArchive.Pictures;
using HeirloomArchive.Pictures.Soundness;
using HeirloomArchive.Support;
using SkiaSharp;

namespace HeirloomArchive.Benchmarks;

/// <summary>
/// The way of a picture of 24 megapixels to its 1600 pixels beside libvips, and what each step of it adds; tiles; then the
/// running service taking uploads and giving originals.
/// </summary>
public static class Pictures
{
    private static readonly PictureLimits Limits = new();

    internal static WorkerProgram Program { get; } = WorkerProgram.Of(Assembly.Load("HeirloomArchive.Web"));

    /// <summary>Measures and tells.</summary>
    /// <param name="parts">Of <c>smaller, tiles, taken, given</c>; none for all.</param>
    public static async Task Run(params string[] parts)
    {
        bool Is(string part) => parts.Length == 0 || parts.Contains(part);
        var plain = Is("smaller") || Is("tiles") ? Photograph(6000, 4000, 90) : [];
        using var folder = new TemporaryFolder();
        await (Is("smaller") ? Smaller(plain, folder.Path) : Task.CompletedTask);
        await (Is("tiles") ? Tiled(plain, folder.Path) : Task.CompletedTask);
        await PicturesServed.Run(Photograph(4200, 3150, 93), Is("taken"), Is("given"));
    }

    /// <summary>Cloth of a kind: slow waves, a weave and noise, so that it packs as a photograph does.</summary>
    internal static byte[] Photograph(int width, int height, int quality, int seed = 1)
    {
        var random = new Random(seed);
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        var bytes = bitmap.GetPixelSpan();
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var light = (byte)(190 + (25 * Math.Sin(x * 0.01) * Math.Cos(y * 0.013)) + (10 * Math.Sin(x * 0.9)) + random.Next(24));
                var at = ((y * width) + x) * 4;
                (bytes[at], bytes[at + 1], bytes[at + 2], bytes[at + 3]) = (light, (byte)(light - 4), (byte)(light - 12), 255);
            }
        }

        using var pixels = bitmap.PeekPixels();
        return pixels.Encode(new SKJpegEncoderOptions(quality, SKJpegEncoderDownsample.Downsample420, SKJpegEncoderAlphaOption.Ignore))!.ToArray();
    }

    internal static void Tell(string what, double milliseconds, string rest = "") =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-56} {milliseconds,8:0.0} ms  {rest}"));

    private static async Task Smaller(byte[] plain, string folder)
    {
        Console.WriteLine($"24 megapixels as JPEG, {plain.Length / 1_000_000.0:0.0} MB");
        var coloured = JpegParts.WithProfile(plain, IccProfile.DisplayP3);
        var checking = Median(13, () => SoundPicture.Read(new MemoryStream(plain), Limits));
        var started = new List<double>();
        List<double> through = [], throughColoured = [];
        for (var worker = 0; worker < 4; worker++)
        {
            var clock = Stopwatch.GetTimestamp();
            using var process = WorkerProcess.Start(Program, Limits);
            await process.Make(Order(Made.Jpeg()), CancellationToken.None);
            started.Add(Stopwatch.GetElapsedTime(clock).TotalMilliseconds);
            foreach (var (file, times) in new[] { (plain, through), (coloured, throughColoured), (plain, through), (coloured, throughColoured), (plain, through), (coloured, throughColoured) })
            {
                clock = Stopwatch.GetTimestamp();
                await process.Make(Order(file), CancellationToken.None);
                times.Add(Stopwatch.GetElapsedTime(clock).TotalMilliseconds);
            }
        }

        var pinned = GC.AllocateUninitializedArray<byte>(plain.Length + WorkerMessages.Room, pinned: true);
        var within = Median(13, () =>
        {
            plain.CopyTo(pinned, 0);
            return Recipe.First(new ArraySegment<byte>(pinned, 0, plain.Length), PictureFormat.Jpeg, (_, _) => { }).Count();
        });
        var (ours, (libvips, alone)) = (Load.Median(through), await Libvips(plain, folder));
        Tell("to 1600 and 320 pixels, by a worker that is up", ours, $"{ours / libvips:0.00} x libvips");
        Tell("the same two by libvips, in its own process", libvips, $"to 1600 pixels alone {alone:0.0} ms");
        Tell("of it: the way to the worker and back", ours - within);
        Tell("besides: the check that it is whole", checking, $"{(ours + checking) / libvips:0.00} x libvips with it");
        Tell("besides: colours from Display P3", Load.Median(throughColoured) - ours, $"{(Load.Median(throughColoured) + checking) / libvips:0.00} x libvips with both");
        Tell("besides, when none stands by: starting a worker", Load.Median(started));
    }

    private static async Task<(double Both, double Alone)> Libvips(byte[] file, string folder)
    {
        var here = Path.GetDirectoryName(Source())!;
        await Do("npm", here, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--silent");
        var path = Path.Combine(folder, "24.jpg");
        await File.WriteAllBytesAsync(path, file);
        var said = (await Do("node", here, "sharp.mjs", path)).Split(' ');
        return (double.Parse(said[0], CultureInfo.InvariantCulture), double.Parse(said[1], CultureInfo.InvariantCulture));
    }

    private static async Task Tiled(byte[] plain, string folder)
    {
        using var store = new PictureStore(Path.Combine(folder, "pictures"), Limits);
        using var workshop = new Workshop(Program, Limits);
        var derivatives = new Derivatives(store, workshop, Limits);
        var tiles = new Tiles(derivatives, workshop, new RegionCache(Path.Combine(folder, "regions"), Limits.RegionCacheBytes));
        using var received = await store.Receive(new MemoryStream(plain), CancellationToken.None);
        await store.KeepOriginal(received);
        var clock = Stopwatch.GetTimestamp();
        await tiles.Size(received.Sha256, CancellationToken.None);
        Tell("all tiles and WebP of 24 megapixels, made once", Stopwatch.GetElapsedTime(clock).TotalMilliseconds);
        await Ask("a tile as it lies", i => new TileRequest(i % 11 * 512, i / 11 % 7 * 512, 512, 512, 512, 512));
        await Ask("a region not asked for before, 512 of 900 pixels", i => new TileRequest(37 * i, 23 * i, 900, 900, 512, 512));
        await Ask("the same again", i => new TileRequest(37 * i, 23 * i, 900, 900, 512, 512));

        async Task Ask(string what, Func<int, TileRequest> request)
        {
            var times = new List<double>();
            for (var i = 0; i < 60; i++)
            {
                var start = Stopwatch.GetTimestamp();
                await using var made = await tiles.Open(received.Sha256, request(i), CancellationToken.None);
                await made!.CopyToAsync(Stream.Null);
                times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }

            // The first brings the worker of this picture up.
            Tell(what, Load.Median(times[1..]), $"95 of 100: {Load.P95(times[1..]):0.0} ms, the first {times[0]:0.0} ms");
        }
    }

    private static FirstOrder Order(byte[] file) => new(() => new MemoryStream(file), SoundPicture.Read(new MemoryStream(file), Limits));

    private static double Median(int times, Func<object> work)
    {
        List<double> measured = [];
        for (var i = 0; i < times + 3; i++)
        {
            var start = Stopwatch.GetTimestamp();
            work();
            measured.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        return Load.Median(measured[3..]);
    }

    private static async Task<string> Do(string program, string folder, params string[] words)
    {
        using var process = Process.Start(new ProcessStartInfo(program, words) { WorkingDirectory = folder, RedirectStandardOutput = true })!;
        var said = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return process.ExitCode == 0 ? said.Trim() : throw new InvalidOperationException($"{program} {string.Join(' ', words)} ended with {process.ExitCode}.");
    }

    private static string Source([System.Runtime.CompilerServices.CallerFilePath] string path = "") => path;
}
