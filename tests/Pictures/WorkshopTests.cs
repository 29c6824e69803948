using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using HeirloomArchive.Support;
using SkiaSharp;
using static HeirloomArchive.Pictures.Tests.Workers;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>Real worker processes.</summary>
[Collection(nameof(Workers))]
public sealed class WorkshopTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Derivatives_of_every_format_fit_their_sides_and_keep_the_proportions()
    {
        var done = await Make(Usual, Program, Made.Jpeg(2000, 1000), Made.Png(1000, 2000), Made.WebP(2000, 500));
        Assert.Equal([(2000, 1000), (1000, 2000), (2000, 500)], done.Select(d => (d.Made!.Width, d.Made.Height)));
        Assert.Equal([(1600, 800), (800, 1600), (1600, 400)], done.Select(d => Size(d.Made!.Files[0])));
        Assert.Equal([(320, 160), (160, 320), (320, 80)], done.Select(d => Size(d.Made!.Files[1])));
        Assert.All(done, d => Assert.Equal(PictureFormat.Jpeg, PictureFormats.Of(d.Made!.Files[0])));
    }

    [Fact]
    public async Task A_small_picture_is_not_made_larger()
    {
        var done = await Make(Usual, Program, Made.Jpeg(40, 30));
        Assert.Equal((40, 30), Size(done[0].Made!.Files[0]));
        Assert.Equal((40, 30), Size(done[0].Made!.Files[1]));
    }

    /// <summary>Where the corners of the stored picture come to lie: Exif 2.3 (CIPA DC-008), tag Orientation.</summary>
    [Fact]
    public async Task Every_orientation_comes_out_upright()
    {
        var done = await Make(Usual, Program, [.. Enumerable.Range(1, 8).Select(o => Made.Jpeg(640, 480, (ushort)o))]);
        string[] corners = ["ABCD", "BADC", "DCBA", "CDAB", "ACBD", "CADB", "DBCA", "BDAC"];
        Assert.Equal(corners, done.Select(d => Corners(d.Made!.Files[0])));
        Assert.Equal(corners, done.Select(d => Corners(d.Made!.Files[1])));
        Assert.Equal([.. Enumerable.Repeat((640, 480), 4), .. Enumerable.Repeat((480, 640), 4)], done.Select(d => (d.Made!.Width, d.Made.Height)));
        Assert.All(done, d => Assert.Equal((d.Made!.Width, d.Made.Height), Size(d.Made.Files[0])));
    }

    [Fact]
    public async Task The_orientation_of_a_png_and_of_a_webp_counts_too()
    {
        foreach (var made in await Make(Usual, Program, Made.Png(640, 480, orientation: 6), Made.WebP(640, 480, orientation: 6)))
        {
            Assert.Equal((480, 640), (made.Made!.Width, made.Made!.Height));
            Assert.Equal("CADB", Corners(made.Made!.Files[0]));
        }
    }

    [Fact]
    public async Task A_png_with_rows_missing_is_refused_though_its_chunks_are_right_and_the_next_is_made()
    {
        var done = await Make(Usual, Program, PngParts.Saying(64, 48), Made.Jpeg());
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

    /// <summary>Colour types and depths of ISO/IEC 15948, table 11.1, each with the value that comes out where a sample is three quarters.</summary>
    [Theory]
    [InlineData(0, 1, true)]
    [InlineData(0, 16, false)]
    [InlineData(3, 4, false)]
    [InlineData(2, 8, true)]
    [InlineData(2, 16, false)]
    [InlineData(4, 8, true)]
    [InlineData(6, 16, false)]
    public async Task Every_way_of_storing_a_png_is_taken(byte colour, byte depth, bool interlaced)
    {
        var palette = PngParts.Chunk("PLTE"u8, [.. Enumerable.Range(0, 16).SelectMany(i => Enumerable.Repeat((byte)(i * 17), 3))]);
        byte[] Stored(int width, int height) => PngParts.Stored(
            width, height, colour, depth, interlaced, (_, _, c) => (colour is 4 or 6) && c == (colour == 4 ? 1 : 3) ? (1 << depth) - 1 : (3 << depth) / 4, colour == 3 ? [palette] : []);
        var done = await Make(Usual, Program, Stored(61, 47), Stored(9, 7));
        Assert.Equal([(61, 47), (9, 7)], done.Select(d => (d.Made!.Width, d.Made.Height)));
        using var image = Made.Decoded(done[0].Made!.Files[0]);
        var expected = depth == 1 ? 255 : depth == 4 ? 204 : 191;
        Assert.InRange(image.GetPixel(30, 20).Red, expected - 2, expected + 2);
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
        var limits = Usual with { WorkerWait = TimeSpan.FromMilliseconds(300) };
        var started = Stopwatch.GetTimestamp();
        var done = await Make(limits, Shell("printf '*'; exec sleep 600"), Made.Jpeg());
        Assert.Contains("not read within 0.3 s", done[0].Fault!.Message, StringComparison.Ordinal);
        Assert.True(Stopwatch.GetElapsedTime(started) < TimeSpan.FromSeconds(300));
    }

    [Fact]
    public async Task A_worker_that_spins_is_killed_by_the_processors_time()
    {
        var done = await Make(Usual with { WorkerTime = TimeSpan.FromMilliseconds(300) }, Shell("printf '*'; while :; do :; done"), Made.Jpeg());
        Assert.Contains("more than 0.3 s of the processor's time", done[0].Fault!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_picture_that_takes_too_much_of_the_processors_time_is_refused()
    {
        var done = await Make(Usual with { WorkerTime = TimeSpan.FromMilliseconds(50) }, Program, Made.Png(6000, 6000));
        Assert.Contains("of the processor's time", done[0].Fault!.Message, StringComparison.Ordinal);
    }

    /// <summary>As on a machine that does much else: three times the limit passes, and none of it is the worker's.</summary>
    [Fact]
    public async Task A_worker_that_has_to_wait_is_not_refused_for_it()
    {
        var done = await Make(Usual with { WorkerTime = TimeSpan.FromMilliseconds(500) }, Shell("printf '*'; sleep 1.5; exit 3"), Made.Jpeg());
        Assert.Contains("ended without an answer", done[0].Fault!.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("exec sleep 600", "was not up after")]
    [InlineData("kill -9 $$", "exit 137")]
    public async Task A_worker_that_never_comes_up_is_no_fault_of_the_picture(string does, string says)
    {
        var error = await Assert.ThrowsAsync<WorkerDoesNotStartException>(() => Make(Usual with { WorkerWait = TimeSpan.FromSeconds(1) }, Shell(does), Made.Jpeg()));
        Assert.Contains(says, error.Message, StringComparison.Ordinal);
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

    /// <summary>No program may be told so much at once (MAX_ARG_STRLEN of Linux): the system starts none.</summary>
    [Fact]
    public async Task Where_the_system_starts_no_process_it_is_no_fault_of_the_picture_and_nobody_has_to_stand_by()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "The length of an argument is Linux's.");
        var program = new WorkerProgram([new string('x', 200_000)]);
        using var workshop = new Workshop(program, Usual);
        // More often than there are places: each is free again.
        for (var i = 0; i <= Environment.ProcessorCount; i++)
        {
            await Assert.ThrowsAsync<WorkerDoesNotStartException>(() => workshop.Make([Order(Made.Jpeg())], Cancel).WaitAsync(TimeSpan.FromSeconds(60), Cancel));
        }

        using var spares = new SpareWorkers(program, Usual);
        spares.Fill();
    }

    /// <summary>The system ends a worker after eight times the time of one picture: before that another takes its place.</summary>
    [Fact]
    public async Task A_worker_that_has_had_most_of_its_time_is_handed_no_more()
    {
        var limits = Usual with { WorkerTime = TimeSpan.FromSeconds(0.6) };
        var tile = new ArraySegment<byte>(Made.Jpeg(512, 512));
        var order = new RegionOrder(new RegionWork(512, 512, 0, 0, 512, 512, 1200, 1200, 0, false, false, PictureFormat.Png), [(0, 0, tile)]);
        using var worker = WorkerProcess.Start(Program, limits);
        var made = 0;
        for (; made < 150 && !worker.Spent; made++)
        {
            await worker.Make(order, Cancel);
        }

        Assert.True(made > 1);
        Assert.True(worker.Spent, $"{made} regions, and it may be handed another.");
    }

    [Fact]
    public async Task A_worker_killed_from_outside_takes_only_its_own_picture_along()
    {
        using var workshop = new Workshop(Program, Usual);
        var making = workshop.Make([Order(Made.Png(7000, 7000)), Order(Made.Jpeg()), Order(Made.Jpeg()), Order(Made.Jpeg())], Cancel);
        Process? busy;
        while ((busy = Children().FirstOrDefault(p => p.WorkingSet64 > 120 << 20)) is null && !making.IsCompleted)
        {
            await Task.Delay(5, Cancel);
        }

        Assert.NotNull(busy);
        busy.Kill();
        var done = await making;
        Assert.Contains("ended without an answer", done[0].Fault!.Message, StringComparison.Ordinal);
        Assert.All(done[1..], d => Assert.NotNull(d.Made));
    }

    [Fact]
    public async Task A_worker_that_has_seen_a_picture_is_gone_with_its_batch_and_fresh_ones_stand_by()
    {
        using var workshop = new Workshop(Program, Usual);
        var first = Made.Jpeg(3000, 3000);
        var making = workshop.Make([Order(first)], Cancel);
        var used = Children().Select(p => p.Id).ToHashSet();
        await making;
        Assert.Single(used);
        Assert.True(SpinWait.SpinUntil(() => !Children().Any(p => used.Contains(p.Id)), TimeSpan.FromSeconds(10)));
        Assert.NotEmpty(Children());
        await workshop.Make([Order(Made.Jpeg())], Cancel);
        workshop.Dispose();
        Assert.True(SpinWait.SpinUntil(() => !Children().Any(), TimeSpan.FromSeconds(10)));
    }

    /// <summary>Who looks through a piece gives up more than she waits for; the next region must not wait for another worker.</summary>
    [Fact]
    public async Task A_region_that_is_given_up_does_not_take_its_worker_along()
    {
        using var room = new Room();
        var sha256 = await room.Keep(Made.Jpeg(2000, 2000));
        await (await room.Tiles.Open(sha256, new TileRequest(1, 1, 300, 300, 200, 200), Cancel))!.DisposeAsync();
        var before = Children().Select(p => p.Id).ToHashSet();
        Assert.NotEmpty(before);
        foreach (var wait in new[] { 10, 30, 60 })
        {
            using var gone = new CancellationTokenSource(wait);
            await room.Tiles.Open(sha256, new TileRequest(1, wait, 1900, 1900, 1899, 1899), gone.Token)
                .ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        }

        await (await room.Tiles.Open(sha256, new TileRequest(2, 2, 300, 300, 200, 200), Cancel))!.DisposeAsync();
        Assert.Superset(before, Children().Select(p => p.Id).ToHashSet());
    }

    /// <summary>It tries itself, once it is up, a file, a socket, a signal and a limit (see Seccomp); the kernel says the same of every thread.</summary>
    [Fact]
    public async Task A_worker_that_is_up_can_open_no_file_and_no_socket_and_reach_no_other_process()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && RuntimeInformation.ProcessArchitecture is Architecture.X64 or Architecture.Arm64, "There is a filter for Linux on x64 and arm64 only.");
        using var worker = WorkerProcess.Start(Program, Usual);
        await worker.Make(Order(Made.Jpeg()), Cancel);
        Assert.True(worker.Confined);
        var child = Children().Single();
        Assert.All(Directory.EnumerateDirectories($"/proc/{child.Id}/task"), thread =>
        {
            var status = File.ReadAllLines(Path.Combine(thread, "status"));
            Assert.Contains("Seccomp:\t2", status);
            Assert.Contains("NoNewPrivs:\t1", status);
        });
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
    public void A_worker_sees_nothing_of_the_hosts_environment()
    {
        Environment.SetEnvironmentVariable("ConnectionStrings__Archive", "a secret");
        var start = Program.Start(Usual, TimeSpan.FromSeconds(1));
        Environment.SetEnvironmentVariable("ConnectionStrings__Archive", null);
        Assert.DoesNotContain(start.Environment, v => v.Value == "a secret");
        Assert.All(start.Environment.Keys, name => Assert.True(name.StartsWith("DOTNET_", StringComparison.Ordinal) || name == "SystemRoot", name));
    }

    private static WorkerProgram Shell(string does)
    {
        Assert.SkipUnless(File.Exists("/bin/sh"), "This system has no shell.");
        return new WorkerProgram(["/bin/sh", "-c", does]);
    }

    /// <summary>This process's own children that are workers.</summary>
    private static IEnumerable<Process> Children()
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
        using var image = Made.Decoded(file);
        return (image.Width, image.Height);
    }

    /// <summary>The colours top left, top right, bottom left, bottom right, as letters A to D of the stored picture.</summary>
    private static string Corners(byte[] file)
    {
        using var image = Made.Decoded(file);
        var (x, y) = (image.Width / 4, image.Height / 4);
        return string.Concat(new[] { image.GetPixel(x, y), image.GetPixel(3 * x, y), image.GetPixel(x, 3 * y), image.GetPixel(3 * x, 3 * y) }.Select(Letter));
    }

    private static char Letter(SKColor colour) =>
        new[] { ('A', Made.TopLeft), ('B', Made.TopRight), ('C', Made.BottomLeft), ('D', Made.BottomRight) }
            .MinBy(c => Math.Abs(c.Item2.Red - colour.Red) + Math.Abs(c.Item2.Green - colour.Green) + Math.Abs(c.Item2.Blue - colour.Blue)).Item1;
}
