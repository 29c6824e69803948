using System.Globalization;
using System.Linq.Expressions;
using Marten;
using Marten.Linq.MatchesSql;

namespace HeirloomArchive.Catalogue;

/// <summary>How many pieces stand in each list of care.</summary>
/// <param name="ByUrgency">Pieces by what they ask for most, 1 watch to 3 before handling.</param>
/// <param name="Away">Lent or borrowed.</param>
/// <param name="Overdue">Those of them whose day is past.</param>
/// <param name="Shown">Those with hours of light.</param>
public sealed record CareCounts(IReadOnlyDictionary<int, long> ByUrgency, long Away, long Overdue, long Shown);

/// <summary>What needs care in the whole collection, a page at a time; what is set aside asks for nothing. By indices on <see cref="CareNote"/>, whose columns alone answer how many.</summary>
public sealed class CareLists(IDocumentStore store)
{
    private const int Batch = 500;

    /// <summary>The pieces that ask for no more and no less than an urgency (1 to 3), newest first.</summary>
    public Task<(long Total, IReadOnlyList<Garment> Items)> Asking(int urgency, int page, int size, CancellationToken ct = default) =>
        Page(g => g.Care.Urgency == urgency, q => q.OrderByDescending(g => g.Id), page, size, ct);

    /// <summary>What is lent or borrowed, the first due back first; those without a day last.</summary>
    public Task<(long Total, IReadOnlyList<Garment> Items)> Away(int page, int size, CancellationToken ct = default) =>
        Page(g => g.Care.Due != null, q => q.OrderBy(g => g.Care.Due).ThenBy(g => g.Id), page, size, ct);

    /// <summary>What has hours of light, the most first.</summary>
    public Task<(long Total, IReadOnlyList<Garment> Items)> Shown(int page, int size, CancellationToken ct = default) =>
        Page(g => g.Care.HoursOfLight > 0, q => q.OrderByDescending(g => g.Care.HoursOfLight).ThenBy(g => g.Id), page, size, ct);

    /// <summary>How many stand in each.</summary>
    /// <param name="today">Decides what is overdue.</param>
    /// <param name="ct">Stops it.</param>
    public async Task<CareCounts> Count(DateOnly today, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var day = today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        var byUrgency = new Dictionary<int, long>();
        for (var urgency = 1; urgency <= Sighting.MostUrgent; urgency++)
        {
            var asked = urgency;
            byUrgency[urgency] = await session.Query<Garment>().LongCountAsync(g => g.Care.Urgency == asked, ct);
        }

        return new(
            byUrgency,
            await session.Query<Garment>().LongCountAsync(g => g.Care.Due != null, ct),
            await session.Query<Garment>().LongCountAsync(g => g.MatchesSql("d.caredue < ?", day), ct),
            await session.Query<Garment>().LongCountAsync(g => g.Care.HoursOfLight > 0, ct));
    }

    /// <summary>Notes what is asked here of pieces that were last changed before it was kept.</summary>
    /// <returns>How many pieces that were; none at all later starts.</returns>
    public async Task<int> Fill(CancellationToken ct = default)
    {
        for (var filled = 0; ;)
        {
            await using var session = store.LightweightSession();
            var garments = await session.Query<Garment>().Where(g => g.MatchesSql("d.careurgency is null")).Take(Batch).ToListAsync(ct);
            if (garments.Count == 0)
            {
                return filled;
            }

            foreach (var garment in garments)
            {
                var note = CareNote.Of(garment);
                // One that was changed meanwhile has its note already, and keeps it.
                session.QueueSqlCommand(
                    $"update {CatalogueStore.Schema}.mt_doc_garment set careurgency = ?, caredue = ?, carehours_of_light = ?, data = jsonb_set(data, '{{care}}', ?::jsonb) where id = ? and careurgency is null",
                    note.Urgency, (object?)note.Due ?? DBNull.Value, (object?)note.HoursOfLight ?? DBNull.Value, store.Options.Serializer().ToJson(note), garment.Id);
            }

            await session.SaveChangesAsync(ct);
            filled += garments.Count;
        }
    }

    private async Task<(long, IReadOnlyList<Garment>)> Page(
        Expression<Func<Garment, bool>> which, Func<IQueryable<Garment>, IQueryable<Garment>> order, int page, int size, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        var total = await session.Query<Garment>().LongCountAsync(which, ct);
        return (total, await order(session.Query<Garment>().Where(which)).Skip((page - 1) * size).Take(size).ToListAsync(ct));
    }
}
