using System.Text;
using Marten;
using Npgsql;

namespace HeirloomArchive.Catalogue;

/// <summary>A number that is taken: the document's id is the number normalised, so that two pieces can't have it.</summary>
public sealed class NumberReservation
{
    /// <summary>The most characters of a normalised number: one sign may stand for eighteen letters, and an index takes only so much.</summary>
    internal const int Longest = 300;

    /// <summary>The number: Unicode NFKC, upper case, no white space.</summary>
    public string Id { get; set; } = "";

    /// <summary>Who has it.</summary>
    public Guid Garment { get; set; }

    /// <summary>What stands round its last digits, as <see cref="Numbers.Pattern"/> writes it; empty where it has none, null in one taken before patterns were kept.</summary>
    public string? Pattern { get; set; }

    /// <summary>What the digits count, so that the greater comes later in the order of texts; null without digits.</summary>
    public string? Place { get; set; }

    /// <summary>A number as it is compared: <c>g-0 14</c> and <c>Ｇ-014</c> are both <c>G-014</c>.</summary>
    public static string Normalise(string number) =>
        string.Concat(number.Normalize(NormalizationForm.FormKC).ToUpperInvariant().Where(c => !char.IsWhiteSpace(c)));

    /// <summary>Takes the new number and frees the old one, in the session that saves the event.</summary>
    internal static void Move(IDocumentSession session, Guid garment, string? old, string? now)
    {
        var (freed, taken) = (old is null ? null : Normalise(old), now is null ? null : Normalise(now));
        if (freed == taken)
        {
            return;
        }

        if (freed is not null)
        {
            session.Delete<NumberReservation>(freed);
        }

        if (taken is not null)
        {
            session.Insert(Of(taken, garment));
        }
    }

    /// <summary>The reservation of a normalised number.</summary>
    internal static NumberReservation Of(string taken, Guid garment)
    {
        var (pattern, place) = Numbers.Pattern(taken);
        return new() { Id = taken, Garment = garment, Pattern = pattern, Place = place };
    }

    /// <summary>The greatest number of the commonest pattern, those of pieces set aside included; null where none has digits.</summary>
    internal static async Task<NumberReservation?> Greatest(IDocumentSession session, CancellationToken ct)
    {
        await using var fill = new NpgsqlCommand(FillOld);
        await session.ExecuteAsync(fill, ct);
        var commonest = await session.AdvancedSql.QueryAsync<string>(
            $"select pattern from {CatalogueStore.Schema}.mt_doc_numberreservation where pattern <> '' group by pattern order by count(*) desc, pattern collate \"C\" limit 1", ct);
        return commonest is not [{ } pattern, ..]
            ? null
            : await session.Query<NumberReservation>().Where(n => n.Pattern == pattern).OrderByDescending(n => n.Place).ThenBy(n => n.Id).FirstOrDefaultAsync(ct);
    }

    // Those taken before patterns were kept: the same cut as Numbers.Pattern makes.
    private static readonly string FillOld = $"""
        with cut as (
          select id, regexp_replace(id, '^(.*?)[0-9]+([^0-9]*)$', E'\\1\t\\2') as pattern, ltrim(substring(id from '([0-9]+)[^0-9]*$'), '0') as digits
          from {CatalogueStore.Schema}.mt_doc_numberreservation where pattern is null)
        update {CatalogueStore.Schema}.mt_doc_numberreservation n
        set pattern = f.pattern, place = f.place, data = n.data || jsonb_build_object('pattern', f.pattern, 'place', f.place)
        from (select id, case when digits is null then '' else pattern end as pattern, lpad(length(digits)::text, 3, '0') || digits as place from cut) f
        where f.id = n.id
        """;
}
