using System.Security.Cryptography;
using HeirloomArchive.Catalogue;
using Marten;
using Npgsql;

namespace HeirloomArchive.Pictures.Checking;

/// <summary>
/// Reads every original and compares its bytes with its digest. One check at a time over all nodes, by a lock of the database
/// that goes with the node; what it finds is reported, and nothing is changed.
/// </summary>
public sealed class OriginalsCheck(IDocumentStore documents, NpgsqlDataSource database, PictureStore store, TimeProvider clock)
{
    // Any number nobody else locks by.
    private const long Turn = 0x6865_6972_6c6f_6f6d;
    private const int MostUnknown = 1000;
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Silence = TimeSpan.FromSeconds(30);

    /// <summary>What the room keeps beside the record.</summary>
    public static void Configure(StoreOptions o) => o.Schema.For<OriginalsReport>();

    /// <summary>The last report, and the one that runs; each null if there is none.</summary>
    public async Task<(OriginalsReport? Last, OriginalsReport? Running)> Look(CancellationToken cancel)
    {
        await using var session = documents.QuerySession();
        // In this order: a check leaves its report before it goes, so one that ends in between is seen as ended, not as never begun.
        var now = await session.LoadAsync<OriginalsReport>(OriginalsReport.Now, cancel);
        var last = await session.LoadAsync<OriginalsReport>(OriginalsReport.Last, cancel);
        // One that has not been heard of for long went with its node.
        return (last, now is not null && now.Until > clock.GetUtcNow() - Silence ? now : null);
    }

    /// <summary>Begins a check that goes on by itself.</summary>
    /// <param name="stop">Ends it; then there is no report.</param>
    /// <returns>The check under way; null when one runs already, here or on another node.</returns>
    public async Task<Task<OriginalsReport>?> Begin(CancellationToken stop)
    {
        var connection = await database.OpenConnectionAsync(stop);
        try
        {
            await using var ask = new NpgsqlCommand("SELECT pg_try_advisory_lock($1)", connection) { Parameters = { new() { Value = Turn } } };
            if (!(bool)(await ask.ExecuteScalarAsync(stop))!)
            {
                await connection.DisposeAsync();
                return null;
            }

            var now = clock.GetUtcNow();
            var report = new OriginalsReport { Started = now, Until = now };
            await Keep(report, stop);
            return Run(report, connection, stop);
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    private async Task<OriginalsReport> Run(OriginalsReport report, NpgsqlConnection turn, CancellationToken stop)
    {
        await using (turn)
        {
            try
            {
                await Read(report, stop);
                report.Id = OriginalsReport.Last;
                report.Until = clock.GetUtcNow();
                await Keep(report, stop);
                return report;
            }
            finally
            {
                await using var session = documents.LightweightSession();
                session.Delete<OriginalsReport>(OriginalsReport.Now);
                await session.SaveChangesAsync(CancellationToken.None);
                await using var free = new NpgsqlCommand("SELECT pg_advisory_unlock($1)", turn) { Parameters = { new() { Value = Turn } } };
                await free.ExecuteNonQueryAsync(CancellationToken.None);
            }
        }
    }

    private async Task Read(OriginalsReport report, CancellationToken stop)
    {
        var named = await Named(stop);
        report.Total = named.Count;
        var buffer = new byte[256 * 1024];
        foreach (var one in named)
        {
            if (await Digest(one.Key, buffer, report, stop) is not { } found)
            {
                report.Missing.Add(new(one.Key, [.. one]));
            }
            else if (found != one.Key)
            {
                report.Changed.Add(new(one.Key, [.. one]));
            }

            report.Checked++;
            if (clock.GetUtcNow() - report.Until >= Beat)
            {
                report.Until = clock.GetUtcNow();
                await Keep(report, stop);
            }
        }

        // Looked at before the record is asked again: what came in meanwhile is named by then.
        var files = store.OriginalFiles().ToList();
        var known = (await Named(stop)).Select(n => n.Key).ToHashSet();
        report.Unknown = [.. files.Where(f => !known.Contains(Path.GetFileName(f)) || Path.GetFileName(Path.GetDirectoryName(f)) != Path.GetFileName(f)[..2]).Order(StringComparer.Ordinal).Take(MostUnknown)];
    }

    private async Task<string?> Digest(string sha256, byte[] buffer, OriginalsReport report, CancellationToken stop)
    {
        try
        {
            await using var file = store.OpenOriginal(sha256);
            if (file is null)
            {
                return null;
            }

            using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            for (int read; (read = await file.ReadAsync(buffer, stop)) > 0;)
            {
                digest.AppendData(buffer, 0, read);
                report.Bytes += read;
            }

            return Convert.ToHexStringLower(digest.GetHashAndReset());
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A sector that can't be read any more is a change too.
            return "";
        }
    }

    private async Task<List<IGrouping<string, PictureOf>>> Named(CancellationToken stop)
    {
        await using var session = documents.QuerySession();
        var owners = await session.Query<PictureOwner>().ToListAsync(stop);
        return [.. owners.GroupBy(o => o.Sha256, o => new PictureOf(o.Id, o.Garment))];
    }

    private async Task Keep(OriginalsReport report, CancellationToken stop)
    {
        await using var session = documents.LightweightSession();
        session.Store(report);
        await session.SaveChangesAsync(stop);
    }
}
