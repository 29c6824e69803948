using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using HeirloomArchive.Pictures.Soundness;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.PixelFormats;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>Real worker processes, one class so that they run one after another.</summary>
public sealed class WorkshopTests
{
    private static readonly PictureLimits Usual = new();

    private static readonly WorkerProgram Program = WorkerProgram.Of(Assembly.Load("HeirloomArchive.Web"));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Derivatives_of_every_format_fit_their_sides_and_keep_the_proportions()
    {
        var done = await Make(Usual, Program, Made.Jpeg(2000, 1000), Made.Png(1000, 2000), Made.WebP(2000, 500));
        Assert.Equal([(2000, 1000), (1000, 2000), (2000, 500)], done.Select(d => (d.Made!.Width, d.Made.Height)));
        Assert.Equal([(1600, 800), (800, 1600), (1600, 400)], done.Select(d => Size(d.Made!.Screen!)));
        Assert.Equal([(320, 160), (160, 320), (320, 80)], done.Select(d => Size(d.Made!.Thumbnail!)));
        Assert.All(done, d => Assert.Equal(PictureFormat.Jpeg, PictureFormats.Of(d.Made!.Screen)));
    }

    [Fact]
    public async Task A_small_picture_is_not_made_larger()
    {
        var done = await Make(Usual, Program, Made.Jpeg(40, 30));
        Assert.Equal((40, 30), Size(done[0].Made!.Screen!));
        Assert.Equal((40, 30), Size(done[0].Made!.Thumbnail!));
    }

    /// <summary>Where the corners of the stored picture come to lie: Exif 2.3 (CIPA DC-008), tag Orientation.</summary>
    [Fact]
    public async Task Every_orientation_comes_out_upright()
    {
        var done = await Make(Usual, Program, [.. Enumerable.Range(1, 8).Select(o => Made.Jpeg(640, 480, (ushort)o))]);
        string[] corners = ["ABCD", "BADC", "DCBA", "CDAB", "ACBD", "CADB", "DBCA", "BDAC"];
        Assert.Equal(corners, done.Select(d => Corners(d.Made!.Screen!)));
        Assert.Equal(corners, done.Select(d => Corners(d.Made!.Thumbnail!)));
        Assert.Equal([.. Enumerable.Repeat((640, 480), 4), .. Enumerable.Repeat((480, 640), 4)], done.Select(d => (d.Made!.Width, d.Made.Height)));
        Assert.All(done, d => Assert.Equal((d.Made!.Width, d.Made.Height), Size(d.Made.Screen!)));
    }

    [Fact]
    public async Task The_orientation_of_a_png_counts_too()
    {
        var done = await Make(Usual, Program, Made.Png(640, 480, orientation: 6));
        Assert.Equal((480, 640), (done[0].Made!.Width, done[0].Made!.Height));
        Assert.Equal("CADB", Corners(done[0].Made!.Screen!));
    }

    [Fact]
    public async Task No_derivative_tells_of_camera_or_place()
    {
        var original = Made.Jpeg(640, 480, orientation: 1, placed: true);
        using (var read = Image.Load(original))
        {
            Assert.NotNull(read.Metadata.ExifProfile);
            Assert.NotNull(read.Metadata.XmpProfile);
        }

        var done = await Make(Usual, Program, original, Made.Png(640, 480, alpha: 10, orientation: 1));
        Assert.All(done.SelectMany(d => new[] { d.Made!.Screen!, d.Made.Thumbnail! }), bytes =>
        {
            using var image = Image.Load(bytes);
            Assert.Null(image.Metadata.ExifProfile);
            Assert.Null(image.Metadata.XmpProfile);
            Assert.Equal(-1, bytes.AsSpan().IndexOf("camera"u8));
            Assert.Equal(-1, bytes.AsSpan().IndexOf("Exif"u8));
        });
    }

    [Fact]
    public async Task What_is_seen_through_stays_so()
    {
        var done = await Make(Usual, Program, Made.Png(640, 480, alpha: 0));
        Assert.Equal(PictureFormat.WebP, PictureFormats.Of(done[0].Made!.Screen));
        using var image = Image.Load<Rgba32>(done[0].Made!.Screen);
        Assert.Equal(0, image[100, 100].A);
        Assert.Equal(255, image[600, 400].A);
    }

    [Fact]
    public async Task A_png_with_rows_missing_is_refused_though_its_chunks_are_right_and_the_next_is_made()
    {
        var done = await Make(Usual, Program, Made.PngSaying(64, 48), Made.Jpeg());
        Assert.Contains("part of the picture in it is missing", done[0].Fault!.Message, StringComparison.Ordinal);
        Assert.NotNull(done[1].Made);
    }

    [Fact]
    public async Task A_whole_file_with_rubbish_in_it_is_refused_and_the_next_is_made()
    {
        var rubbish = Made.WebP(lossless: true);
        rubbish.AsSpan(30..^2).Fill(0xAA);
        var done = await Make(Usual, Program, rubbish, Made.Jpeg());
        Assert.Contains("can't be decoded", done[0].Fault!.Message, StringComparison.Ordinal);
        Assert.NotNull(done[1].Made);
    }

    [Theory]
    [InlineData(PngColorType.Grayscale, PngBitDepth.Bit1, PngInterlaceMode.Adam7)]
    [InlineData(PngColorType.Grayscale, PngBitDepth.Bit16, PngInterlaceMode.None)]
    [InlineData(PngColorType.Palette, PngBitDepth.Bit4, PngInterlaceMode.None)]
    [InlineData(PngColorType.Rgb, PngBitDepth.Bit8, PngInterlaceMode.Adam7)]
    [InlineData(PngColorType.GrayscaleWithAlpha, PngBitDepth.Bit8, PngInterlaceMode.Adam7)]
    [InlineData(PngColorType.RgbWithAlpha, PngBitDepth.Bit16, PngInterlaceMode.None)]
    public async Task Every_way_of_storing_a_png_is_taken(PngColorType colour, PngBitDepth depth, PngInterlaceMode rows)
    {
        var encoder = new PngEncoder { ColorType = colour, BitDepth = depth, InterlaceMethod = rows };
        var done = await Make(Usual, Program, Made.Png(61, 47, encoder), Made.Png(9, 7, encoder));
        Assert.Equal([(61, 47), (9, 7)], done.Select(d => (d.Made!.Width, d.Made.Height)));
    }

    [Fact]
    public async Task A_picture_that_takes_too_much_memory_is_refused_and_the_next_is_made()
    {
        var done = await Make(Usual with { WorkerBytes = 100 << 20 }, Program, Made.Png(6000, 6000), Made.Jpeg());
        Assert.Contains("more than 100 MiB", done[0].Fault!.Message, StringComparison.Ordinal);
        Assert.NotNull(done[1].Made);
    }

    [Fact]
    public async Task A_worker_that_hangs_is_killed_in_time()
    {
        var limits = Usual with { WorkerTime = TimeSpan.FromMilliseconds(300) };
        var started = Stopwatch.GetTimestamp();
        var done = await Make(limits, Shell("exec sleep 60"), Made.Jpeg());
        Assert.Contains("takes longer than 0.3 s", done[0].Fault!.Message, StringComparison.Ordinal);
        Assert.True(Stopwatch.GetElapsedTime(started) < TimeSpan.FromSeconds(30));
    }

    [Theory]
    [InlineData("exit 3")]
    [InlineData("head -c 1000 /dev/zero")] // An answer: made, 0 × 0 pixels, no derivative.
    [InlineData("head -c 1000 /dev/urandom")]
    public async Task A_worker_that_lies_or_dies_is_not_believed(string does)
    {
        var done = await Make(Usual, Shell("printf '*'; " + does), Made.Jpeg());
        Assert.Contains("can't be read", done[0].Fault!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_worker_that_does_not_start_is_no_fault_of_the_picture()
    {
        var error = await Assert.ThrowsAsync<WorkerDoesNotStartException>(() => Make(Usual, Shell("echo no runtime here >&2; exit 1"), Made.Jpeg()));
        Assert.Contains("no runtime here", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_worker_killed_from_outside_takes_only_its_own_picture_along()
    {
        using var workshop = new Workshop(Program, Usual);
        var making = workshop.Make([Order(Made.Png(7000, 7000)), Order(Made.Jpeg()), Order(Made.Jpeg()), Order(Made.Jpeg())], Cancel);
        Process? busy;
        while ((busy = Workers().FirstOrDefault(p => p.WorkingSet64 > 120 << 20)) is null && !making.IsCompleted)
        {
            await Task.Delay(5, Cancel);
        }

        busy!.Kill();
        var done = await making;
        Assert.Contains("ended without an answer", done[0].Fault!.Message, StringComparison.Ordinal);
        Assert.All(done[1..], d => Assert.NotNull(d.Made));
    }

    [Fact]
    public async Task No_worker_outlives_its_batch()
    {
        await Make(Usual, Program, Made.Jpeg());
        Assert.Empty(Workers());
    }

    [Fact]
    public async Task A_worker_can_write_no_file()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && File.Exists("/usr/bin/prlimit"), "This system has no prlimit.");
        var folder = Directory.CreateTempSubdirectory("worker-writes-");
        if (!OperatingSystem.IsWindows())
        {
            folder.UnixFileMode = (UnixFileMode)0b111_111_111;
        }

        await Make(Usual, Shell($"printf '*'; echo something > {folder.FullName}/file"), Made.Jpeg());
        Assert.DoesNotContain(folder.EnumerateFiles(), f => f.Length > 0);
        folder.Delete(recursive: true);
    }

    [Fact]
    public async Task A_worker_sees_nothing_of_the_hosts_environment()
    {
        Environment.SetEnvironmentVariable("ConnectionStrings__Archive", "a secret");
        var start = Program.Start(Usual, TimeSpan.FromSeconds(1), Path.GetTempPath());
        Environment.SetEnvironmentVariable("ConnectionStrings__Archive", null);
        Assert.DoesNotContain(start.Environment, v => v.Value == "a secret");
        Assert.All(start.Environment.Keys, name => Assert.True(name.StartsWith("DOTNET_", StringComparison.Ordinal) || name == "SystemRoot", name));
        await Task.CompletedTask;
    }

    private static async Task<WorkDone[]> Make(PictureLimits limits, WorkerProgram program, params byte[][] files)
    {
        using var workshop = new Workshop(program, limits);
        return await workshop.Make([.. files.Select(Order)], Cancel);
    }

    private static WorkOrder Order(byte[] file) =>
        new(() => new MemoryStream(file), SoundPicture.Read(new MemoryStream(file), Usual));

    private static WorkerProgram Shell(string does)
    {
        Assert.SkipUnless(File.Exists("/bin/sh"), "This system has no shell.");
        return new WorkerProgram(["/bin/sh", "-c", does]);
    }

    /// <summary>This process's own children that are workers.</summary>
    private static IEnumerable<Process> Workers()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Children are looked for in /proc.");
        foreach (var process in Process.GetProcesses())
        {
            if (Read($"/proc/{process.Id}/cmdline").Contains(PictureWorker.Verb, StringComparison.Ordinal)
                && Read($"/proc/{process.Id}/stat").Split(") ").Last().Split(' ').ElementAtOrDefault(1) == Environment.ProcessId.ToString(CultureInfo.InvariantCulture))
            {
                yield return process;
            }
        }

        static string Read(string path)
        {
            try
            {
                return File.ReadAllText(path);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                return "";
            }
        }
    }

    private static (int Width, int Height) Size(byte[] file)
    {
        using var image = Image.Load(file);
        return (image.Width, image.Height);
    }

    /// <summary>The colours top left, top right, bottom left, bottom right, as letters A to D of the stored picture.</summary>
    private static string Corners(byte[] file)
    {
        using var image = Image.Load<Rgba32>(file);
        var (x, y) = (image.Width / 4, image.Height / 4);
        return string.Concat(new[] { image[x, y], image[3 * x, y], image[x, 3 * y], image[3 * x, 3 * y] }.Select(Letter));
    }

    private static char Letter(Rgba32 colour) =>
        new[] { ('A', Made.TopLeft), ('B', Made.TopRight), ('C', Made.BottomLeft), ('D', Made.BottomRight) }
            .MinBy(c => Math.Abs(c.Item2.R - colour.R) + Math.Abs(c.Item2.G - colour.G) + Math.Abs(c.Item2.B - colour.B)).Item1;
}
