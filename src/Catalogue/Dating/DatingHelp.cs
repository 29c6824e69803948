using System.Globalization;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Dating;

/// <summary>How a reason stands to the date that is recorded.</summary>
public enum Against
{
    /// <summary>They agree, or nothing is recorded.</summary>
    Nothing,

    /// <summary>The date is earlier than was usual: worth another look.</summary>
    Query,

    /// <summary>The date is earlier than the thing existed.</summary>
    Conflict,
}

/// <summary>One reason: a thing seen, and a year that it points to.</summary>
/// <param name="Evidence">What is seen.</param>
/// <param name="Mark">The year, why, and its source.</param>
/// <param name="Seen">The entries of the record that show it; empty when it was only ticked.</param>
/// <param name="Against">How it stands to the recorded date.</param>
public sealed record DatingReason(Evidence Evidence, DatingMark Mark, IReadOnlyList<JsonObject> Seen, Against Against);

/// <summary>
/// What the things seen on a piece say about its age. They only ever say "not before": hand work dates nothing, repairs are
/// later and do not count, and a piece may always be younger than its newest part. It proposes and never decides.
/// </summary>
/// <param name="Reasons">All reasons, contradictions first, then the latest year first.</param>
/// <param name="NotBefore">The latest year before which one of the things seen did not exist; null if there is none.</param>
/// <param name="UnlikelyBefore">The latest year of all reasons, what was unusual included; null if it says no more than <paramref name="NotBefore"/>.</param>
/// <param name="Narrowed">The recorded date narrowed by <paramref name="NotBefore"/>, EDTF; null when it contradicts or narrows nothing.</param>
/// <param name="Likely">The same by <paramref name="UnlikelyBefore"/>.</param>
/// <param name="HandWork">Whether work by hand is recorded, which dates nothing.</param>
/// <param name="LeftOut">How many repairs and later fastenings were not counted.</param>
public sealed record DatingHelp(
    IReadOnlyList<DatingReason> Reasons, int? NotBefore, int? UnlikelyBefore, string? Narrowed, string? Likely, bool HandWork, int LeftOut)
{
    /// <summary>How many years "about" is taken to reach either way when a date is compared: cataloguers mean five or ten.</summary>
    public const int AboutIs = 5;

    /// <summary>The reasons that the recorded date stands against.</summary>
    public IEnumerable<DatingReason> Contradictions => Reasons.Where(r => r.Against != Against.Nothing);

    /// <summary>Works it out from a garment's fields and what she ticks beside them; ids that are no evidence are passed over.</summary>
    public static DatingHelp Of(JsonObject garment, IEnumerable<string> ticked)
    {
        ArgumentNullException.ThrowIfNull(garment);
        var ticks = ticked.ToHashSet(StringComparer.Ordinal);
        var dated = garment["dated"] is JsonValue text && Edtf.TryParse(text.ToString(), out var read, out _) ? read : null;
        List<DatingReason> reasons =
        [
            .. Evidence.Groups.SelectMany(g => g.Evidence).Select(e => (Evidence: e, Seen: e.In(garment).ToList()))
                .Where(e => e.Seen.Count > 0 || ticks.Contains(e.Evidence.Id))
                .SelectMany(e => e.Evidence.Marks, (e, mark) => new DatingReason(e.Evidence, mark, e.Seen, Compare(dated, mark)))
                .OrderByDescending(r => r.Against).ThenByDescending(r => r.Mark.Year),
        ];
        var sure = reasons.Max(r => r.Mark.NotBefore);
        var likely = reasons.Max(r => (int?)r.Mark.Year);
        var techniques = Evidence.Entries(garment, "techniques").ToList();
        return new(
            reasons, sure, likely == sure ? null : likely, Narrow(dated, sure), likely == sure ? null : Narrow(dated, likely),
            techniques.Exists(t => t["sewn"]?.ToString() is "hand" or "both"),
            Evidence.Entries(garment, "repairs").Count() + techniques.Count(Evidence.IsLater));
    }

    private static Against Compare(Edtf? dated, DatingMark mark)
    {
        if (dated?.Years.To is not { } last || last >= mark.Year)
        {
            return Against.Nothing;
        }

        var about = dated.End?.Mark is EdtfMark.Approximate or EdtfMark.Both ? AboutIs : 0;
        return mark.NotBefore is null || last + about >= mark.Year ? Against.Query : Against.Conflict;
    }

    private static string? Narrow(Edtf? dated, int? year)
    {
        if (year is not { } from)
        {
            return null;
        }

        var start = from.ToString("0000", CultureInfo.InvariantCulture);
        if (dated is null)
        {
            return start + "/..";
        }

        if (dated.Years.From >= from || dated.Years.To < from)
        {
            return null;
        }

        var end = dated.IsInterval ? dated.Text.Split('/')[1] : dated.Text;
        return $"{start}/{(end is "" or ".." ? end : SpokenMoment.AsEnd(end, last: true))}";
    }
}
