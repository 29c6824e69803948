using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Checking;
using HeirloomArchive.Support;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests;

/// <summary>Whether every original is still what it was.</summary>
public sealed class OriginalsCheckTests(PostgresServer postgres)
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Missing_changed_and_unknown_files_are_named_and_nothing_is_touched()
    {
        await using var host = await ArchiveHost.Start(postgres);
        var (good, missing, changed) = (await Upload(host, 1), await Upload(host, 2), await Upload(host, 3));
        File.Delete(Original(host, missing.Sha256));
        var bytes = await File.ReadAllBytesAsync(Original(host, changed.Sha256), Stop);
        bytes[^20] ^= 1;
        await File.WriteAllBytesAsync(Original(host, changed.Sha256), bytes, Stop);
        await File.WriteAllTextAsync(Original(host, good.Sha256) + "x", "what is this?", Stop);

        using var begun = await host.Client.PostAsync(new Uri("/api/pictures/check", UriKind.Relative), null, Stop);
        Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
        var last = await Finished(host);
        Assert.Equal(3, last["checked"]!.GetValue<int>());
        Assert.Equal(missing.Sha256, Assert.Single(last["missing"]!.AsArray())!["sha256"]!.ToString());
        var wrong = Assert.Single(last["changed"]!.AsArray())!;
        Assert.Equal((changed.Sha256, changed.Garment), (wrong["sha256"]!.ToString(), wrong["pictures"]![0]!["garment"]!.ToString()));
        Assert.Equal(Path.Combine("originals", good.Sha256[..2], good.Sha256 + "x"), Assert.Single(last["unknown"]!.AsArray())!.ToString());
        Assert.True(File.Exists(Original(host, good.Sha256) + "x"));
        var page = await host.Client.GetStringAsync(new Uri("/pictures/check", UriKind.Relative), Stop);
        Assert.Contains("A blouse to check", page, StringComparison.Ordinal);
        Assert.Contains(missing.Sha256, page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_file_uploaded_again_mends_one_that_was_lost_or_changed()
    {
        await using var host = await ArchiveHost.Start(postgres);
        var (missing, changed) = (await Upload(host, 11), await Upload(host, 12));
        File.Delete(Original(host, missing.Sha256));
        await File.WriteAllBytesAsync(Original(host, changed.Sha256), [1, 2, 3], Stop);
        using var begun = await host.Client.PostAsync(new Uri("/api/pictures/check", UriKind.Relative), null, Stop);
        var before = await Finished(host);
        Assert.Equal((1, 1), (before["missing"]!.AsArray().Count, before["changed"]!.AsArray().Count));

        // To its own piece, which has it already; and to another, which has not.
        Assert.True((bool)(await Send(host, missing.Garment, 11))["already"]!);
        Assert.Null((await Send(host, (await Enter(host)).ToString(), 12))["already"]);
        var after = before;
        await Wait.Until(async () =>
        {
            // While the first lets go of its lock another one is refused: it is asked again.
            using var again = await host.Client.PostAsync(new Uri("/api/pictures/check", UriKind.Relative), null, Stop);
            after = await Finished(host);
            return after["started"]!.ToString() != before["started"]!.ToString();
        }, "a second check is done");
        Assert.Equal((2, 0, 0), (after["checked"]!.GetValue<int>(), after["missing"]!.AsArray().Count, after["changed"]!.AsArray().Count));
        Assert.Equal(Png(11), await File.ReadAllBytesAsync(Original(host, missing.Sha256), Stop));
        Assert.Equal(Png(12), await File.ReadAllBytesAsync(Original(host, changed.Sha256), Stop));
    }

    [Fact]
    public async Task One_at_a_time_and_another_node_too_finds_it_running()
    {
        await using var host = await ArchiveHost.Start(postgres);
        await Upload(host, 4);
        using var held = new HeldClock();
        var running = await ActivatorUtilities.CreateInstance<OriginalsCheck>(host.Services, held).Begin(Stop);
        Assert.NotNull(running);
        var check = host.Services.GetRequiredService<OriginalsCheck>();
        Assert.Null(await check.Begin(Stop));
        Assert.NotNull((await check.Look(Stop)).Running);

        held.GoOn();
        Assert.True((await running).IsWell);
        var (last, now) = await check.Look(Stop);
        Assert.NotNull(last);
        Assert.Null(now);
        var next = await check.Begin(Stop);
        Assert.NotNull(next);
        await next;
    }

    [Fact]
    public async Task At_night_it_looks_by_itself()
    {
        await using var host = await ArchiveHost.Start(postgres);
        await Upload(host, 5);
        var keeping = ActivatorUtilities.CreateInstance<PictureKeeping>(host.Services);
        await keeping.Round(Stop);
        var first = (await Finished(host))["started"]!.ToString();
        await keeping.Round(Stop);
        Assert.Equal(first, (await Finished(host))["started"]!.ToString());
    }

    [Theory]
    [InlineData(null, "2026-05-10T14:00", true)]
    [InlineData("2026-05-10T03:00", "2026-05-10T14:00", false)]
    [InlineData("2026-05-10T02:59", "2026-05-10T03:00", true)]
    [InlineData("2026-05-10T02:59", "2026-05-10T02:59", false)]
    [InlineData("2026-05-09T03:05", "2026-05-10T02:59", false)]
    [InlineData("2026-05-01T03:05", "2026-05-10T02:59", true)]
    public void It_is_due_once_the_hour_has_passed_since_the_last(string? last, string now, bool due)
    {
        static DateTimeOffset At(string text) => new(DateTime.Parse(text, CultureInfo.InvariantCulture), TimeSpan.FromHours(2));
        Assert.Equal(due, PictureKeeping.IsDue(last is null ? null : At(last), At(now), 3));
    }

    private static async Task<JsonNode> Finished(ArchiveHost host)
    {
        JsonNode? last = null;
        await Wait.Until(async () =>
        {
            var told = JsonNode.Parse(await host.Client.GetStringAsync(new Uri("/api/pictures/check", UriKind.Relative), Stop))!;
            return told["running"] is null && (last = told["last"]) is not null;
        }, "the check is done");
        return last!;
    }

    private static string Original(ArchiveHost host, string sha256) => Path.Combine(host.Folder, "pictures", "originals", sha256[..2], sha256);

    private static async Task<(string Sha256, string Garment)> Upload(ArchiveHost host, byte shade)
    {
        var garment = (await Enter(host)).ToString();
        return ((await Send(host, garment, shade))["sha256"]!.ToString(), garment);
    }

    private static async Task<Guid> Enter(ArchiveHost host) =>
        (await host.Services.GetRequiredService<Archive>().Enter(new JsonObject { ["name"] = "A blouse to check" }, "owner", Stop)).Garment.Id;

    private static async Task<JsonNode> Send(ArchiveHost host, string garment, byte shade)
    {
        using var form = new MultipartFormDataContent { { new ByteArrayContent(Png(shade)), "file", "a.png" } };
        using var answer = await host.Client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), form, Stop);
        return JsonNode.Parse(await answer.Content.ReadAsStringAsync(Stop))![0]!;
    }

    // The clock of another node, whose check stands still after its first file.
    private sealed class HeldClock : TimeProvider, IDisposable
    {
        private readonly ManualResetEventSlim goOn = new();
        private int asked;

        public void GoOn() => goOn.Set();

        public override DateTimeOffset GetUtcNow()
        {
            if (Interlocked.Increment(ref asked) == 2)
            {
                goOn.Wait(Wait.Patience);
            }

            return base.GetUtcNow();
        }

        public void Dispose() => goOn.Dispose();
    }

    private static byte[] Png(byte shade) => PngParts.Stored(40, 30, 2, 8, false, (_, _, c) => c == 0 ? shade : (byte)200);
}
