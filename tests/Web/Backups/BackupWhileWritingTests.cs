using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Security.Cryptography;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Backups;

/// <summary>Eight writers keep a ledger of what was acknowledged to them; a backup taken meanwhile holds each write whole or not at all.</summary>
[Collection("Processes")]
public sealed class BackupWhileWritingTests : IDisposable
{
    private const int Writers = 8;
    private readonly TemporaryFolder folder = new();

    // A piece's id: when which version of it was asked for, and when it was acknowledged. By one writer each.
    private readonly ConcurrentDictionary<string, List<Written>> ledger = [];

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    private sealed record Written(long Version, long Asked, long Acknowledged);

    [Fact]
    public async Task Each_acknowledged_write_is_whole_in_the_backup_or_not_in_it_at_all()
    {
        var (from, to, file) = (Path.Combine(folder.Path, "from"), Path.Combine(folder.Path, "to"), Path.Combine(folder.Path, "kept.heirloom"));
        long begun, ended;
        await using (var archive = await RunningArchive.Start(from).Ready())
        {
            using var stop = new CancellationTokenSource();
            var writers = Enumerable.Range(0, Writers).Select(w => Task.Run(() => Write(archive.Client, w, stop.Token), Cancel)).ToArray();
            await Have(5 * Writers);
            begun = Now();
            await Kept.Do("backup", file, from);
            ended = Now();
            var seen = ledger.Count;
            await Have(seen + Writers);
            await stop.CancelAsync();
            await Task.WhenAll(writers);

            // A writer that failed says so, rather than that pieces are lacking.
            Task Have(int pieces) => Wait.Until(async () =>
            {
                foreach (var failed in writers.Where(w => w.IsFaulted)) await failed;
                return ledger.Count >= pieces;
            }, $"{pieces} pieces are entered");
        }

        await Kept.Do("restore", file, to);
        await using var restored = await RunningArchive.Start(to).Ready();
        await NothingIsTorn(restored, to);
        await AsTheLedgerSays(restored, begun, ended);

        // And on it goes.
        var next = await Kept.Enter(restored.Client, new { number = "W-next", name = "Batiste slip zephyrine" });
        await Kept.FindsAtLast(restored.Client, "zephyrine", next["id"]!.ToString());
    }

    private async Task AsTheLedgerSays(RunningArchive restored, long begun, long ended)
    {
        var found = (await Kept.Ask(restored, "SELECT id || ' ' || version FROM archive_events.mt_streams")).Select(r => r.Split(' ')).ToDictionary(r => r[0], r => long.Parse(r[1], CultureInfo.InvariantCulture));
        foreach (var (garment, writes) in ledger)
        {
            var kept = found.GetValueOrDefault(garment);
            var least = writes.Where(w => w.Acknowledged < begun).Select(w => w.Version).DefaultIfEmpty(0).Max();
            var most = writes.Where(w => w.Asked < ended).Select(w => w.Version).DefaultIfEmpty(0).Max();
            Assert.True(kept >= least && kept <= most, $"{garment} has version {kept}; acknowledged before the backup: {least}, asked for before its end: {most}");
            if (kept == 0) continue;
            using var answer = await restored.Client.GetAsync(new Uri("/api/garments/" + garment, UriKind.Relative), Cancel);
            var state = await Kept.Read(answer, HttpStatusCode.OK);
            Assert.Equal(kept, state["version"]!.GetValue<long>());
            foreach (var picture in state["pictures"]?.AsArray() ?? [])
                Assert.Equal(picture!["sha256"]!.ToString(), Convert.ToHexStringLower(SHA256.HashData(await restored.Client.GetByteArrayAsync($"/api/pictures/{picture["id"]}/original", Cancel))));
        }
        Assert.Contains(ledger, l => found.ContainsKey(l.Key) && l.Value[0].Acknowledged < begun);
        Assert.Contains(ledger, l => !found.ContainsKey(l.Key) && l.Value[0].Asked > ended);
        Assert.Empty(found.Keys.Except(ledger.Keys));
    }

    private static async Task NothingIsTorn(RunningArchive restored, string to)
    {
        Task<string[]> None(string sql) => Kept.Ask(restored, sql);
        Assert.Empty(await None("""
            SELECT s.id FROM archive_events.mt_streams s LEFT JOIN archive_events.mt_events e ON e.stream_id = s.id
            GROUP BY s.id, s.version HAVING count(e.id) <> s.version OR min(e.version) <> 1 OR max(e.version) <> s.version
            """));
        Assert.Empty(await None("SELECT stream_id FROM archive_events.mt_events WHERE stream_id NOT IN (SELECT id FROM archive_events.mt_streams)"));
        Assert.Empty(await None("SELECT id FROM archive_events.mt_streams WHERE id NOT IN (SELECT id FROM archive.mt_doc_garment)"));
        Assert.Empty(await None("SELECT id FROM archive.mt_doc_garment WHERE id NOT IN (SELECT id FROM archive_events.mt_streams)"));
        Assert.Empty(await None("SELECT id FROM archive.mt_doc_listedpiece WHERE id NOT IN (SELECT id FROM archive.mt_doc_garment)"));
        // Every picture that the record names is there, and none besides.
        var named = await Kept.Ask(restored, "SELECT DISTINCT data->>'sha256' FROM archive.mt_doc_pictureowner ORDER BY 1");
        Assert.NotEmpty(named);
        Assert.Equal(named.Order(StringComparer.Ordinal), Directory.EnumerateFiles(Path.Combine(to, "pictures", "originals"), "*", SearchOption.AllDirectories).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal));
    }

    private async Task Write(HttpClient client, int writer, CancellationToken stop)
    {
        // With a breath between two pieces: it is many at once that is tried, not how many there can be.
        for (var n = 0; !stop.IsCancellationRequested; n++, await Task.Delay(50, Cancel))
        {
            var number = $"W-{writer.ToString(CultureInfo.InvariantCulture)}-{n.ToString(CultureInfo.InvariantCulture)}";
            var asked = Now();
            var garment = (await Kept.Enter(client, new { number, name = "Lawn slip", kind = "slip", techniques = new[] { new { kind = "tucks", part = "yoke" } } }))["id"]!.ToString();
            List<Written> writes = [new(1, asked, Now())];
            ledger[garment] = writes;
            foreach (var version in new long[] { 2, 3 })
            {
                asked = Now();
                using var change = new HttpRequestMessage(HttpMethod.Post, $"/api/garments/{garment}/techniques") { Content = JsonContent.Create(new { kind = "lace", lace = "torchon", part = "hem" }) };
                change.Headers.TryAddWithoutValidation("If-Match", $"\"{version - 1}\"");
                using var answer = await client.SendAsync(change, Cancel);
                await Kept.Read(answer, HttpStatusCode.Created);
                lock (writes) writes.Add(new(version, asked, Now()));
            }
            if (n % 3 != 0) continue;
            asked = Now();
            await Kept.Upload(client, garment, Made.Png(8 + writer, 8 + n));
            lock (writes) writes.Add(new(4, asked, Now()));
        }
    }

    private static long Now() => System.Diagnostics.Stopwatch.GetTimestamp();
}
