using System.Diagnostics;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

[Collection("Processes")]
public sealed class StoppingTests : IDisposable
{
    private static readonly TimeSpan TenSeconds = TimeSpan.FromSeconds(10);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("TERM")]
    [InlineData("INT")]
    [InlineData("HUP")]
    public async Task A_signal_to_the_host_ends_all_of_it_within_ten_seconds(string signal)
    {
        Assert.SkipWhen(RunningArchive.IsIgnored(signal), $"This run ignores SIG{signal} (nohup, or a shell's background), and so does all that it starts.");
        await using var archive = await RunningArchive.Start(folder.Path).Ready();
        var postgres = archive.PostgresId;
        var clock = Stopwatch.StartNew();
        RunningArchive.Signal(signal, archive.Id);
        Assert.Equal(0, await archive.Code(TenSeconds));
        AllEnded(clock, archive, postgres);
    }

    [Fact]
    public async Task A_signal_to_dotnet_run_alone_ends_all_of_it_within_ten_seconds()
    {
        await using var archive = await RunningArchive.StartFromSource(folder.Path).Ready();
        var (host, postgres) = (archive.HostId(), archive.PostgresId);
        Assert.NotEqual(host, archive.Id);
        var clock = Stopwatch.StartNew();
        RunningArchive.Signal("TERM", archive.Id);
        await archive.Code(TenSeconds);
        AllEnded(clock, archive, host, postgres);
    }

    [Fact]
    public async Task A_signal_to_the_host_under_dotnet_run_ends_dotnet_run_too()
    {
        await using var archive = await RunningArchive.StartFromSource(folder.Path).Ready();
        var (host, postgres) = (archive.HostId(), archive.PostgresId);
        var clock = Stopwatch.StartNew();
        RunningArchive.Signal("TERM", host);
        await archive.Code(TenSeconds);
        AllEnded(clock, archive, host, postgres);
    }

    [Fact]
    public async Task A_signal_during_the_start_leaves_nothing_behind_and_the_next_start_is_whole()
    {
        foreach (var wait in new[] { 100, 400, 800, 1_200 })
        {
            await using var interrupted = RunningArchive.Start(folder.Path);
            await Task.Delay(wait, TestContext.Current.CancellationToken);
            RunningArchive.Signal("TERM", interrupted.Id);
            await interrupted.Code(TenSeconds);
            Assert.False(File.Exists(interrupted.PostmasterFile), $"Stopped after {wait} ms, PostgreSQL is still there.");
        }
        await using var archive = await RunningArchive.Start(folder.Path).Ready();
    }

    [Fact]
    public async Task A_request_that_hangs_does_not_hold_the_end_up()
    {
        await using var archive = await RunningArchive.Start(folder.Path).Ready();
        using var hanging = new System.Net.Sockets.TcpClient();
        await hanging.ConnectAsync("127.0.0.1", archive.Address.Port, TestContext.Current.CancellationToken);
        await hanging.GetStream().WriteAsync("POST /api/garments HTTP/1.1\r\nHost: "u8.ToArray(), TestContext.Current.CancellationToken);
        var postgres = archive.PostgresId;
        var clock = Stopwatch.StartNew();
        RunningArchive.Signal("TERM", archive.Id);
        await archive.Code(TenSeconds);
        AllEnded(clock, archive, postgres);
    }

    private static void AllEnded(Stopwatch clock, RunningArchive archive, params int[] processes)
    {
        Assert.InRange(clock.Elapsed, TimeSpan.Zero, TenSeconds);
        Assert.All(processes, id => Assert.False(RunningArchive.Runs(id), $"Process {id} still runs. It said: {archive.Said}"));
        Assert.False(File.Exists(archive.PostmasterFile), $"PostgreSQL was not stopped cleanly. It said: {archive.Said}");
    }
}
