namespace HeirloomArchive.Catalogue;

/// <summary>What became of something from one examination to a later one.</summary>
public enum Became
{
    /// <summary>It was not there, or was over, at the first.</summary>
    New,

    /// <summary>Worse at the second.</summary>
    Worse,

    /// <summary>Better at the second.</summary>
    Better,

    /// <summary>The same, as far as was told; or the whole piece was looked over and nothing new was found.</summary>
    Same,

    /// <summary>Over and done with by the second.</summary>
    Ended,

    /// <summary>Known at the first; the second says nothing of it.</summary>
    NotLookedAt,
}

/// <summary>One thing that is compared.</summary>
/// <param name="Finding">What is followed.</param>
/// <param name="Became">What became of it.</param>
/// <param name="Before">How it was last seen by the first examination; null if it was not.</param>
/// <param name="After">How it was last seen by the second.</param>
public sealed record Compared(FollowedFinding Finding, Became Became, Sighting? Before, Sighting After);

/// <summary>What two examinations of a piece differ in.</summary>
public static class Comparison
{
    /// <summary>Compares two examinations; the one that stands earlier in the history is the first. What was over at the first and did not come back is left out.</summary>
    public static IReadOnlyList<Compared> Of(ConditionHistory history, Examined one, Examined other)
    {
        ArgumentNullException.ThrowIfNull(history);
        var (first, second) = one.Place <= other.Place ? (one, other) : (other, one);
        var nothingNew = !history.At(second).Any();
        return [.. history.Findings.Select(f => Compare(f, first, second, nothingNew)).OfType<Compared>().OrderBy(c => c.Became)];
    }

    private static Compared? Compare(FollowedFinding finding, Examined first, Examined second, bool nothingNew)
    {
        var (before, after) = (By(finding, first), By(finding, second));
        if (after is null || (before == after && IsOver(after, first)))
        {
            return null;
        }

        var became = IsOver(after, second) ? Became.Ended
            : before is null || IsOver(before, first) ? Became.New
            : after.Examined == second && after != before ? Changed(after.Against(before))
            : nothingNew || second == first ? Became.Same
            : Became.NotLookedAt;
        return new(finding, became, before, after);
    }

    private static Became Changed(int by) => by > 0 ? Became.Worse : by < 0 ? Became.Better : Became.Same;

    // How it was last seen by an examination: of two of one place, the one that continues the other.
    private static Sighting? By(FollowedFinding finding, Examined examination) =>
        finding.Sightings.Where(s => s.Place <= examination.Place).Aggregate((Sighting?)null, (last, s) => last is null || s.Place >= last.Place ? s : last);

    private static bool IsOver(Sighting seen, Examined by) =>
        seen.IsEnded && (seen.EndedOn is not { } day || by.Date is not { } looked || day <= looked);
}
