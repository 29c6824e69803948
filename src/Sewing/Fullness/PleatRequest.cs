using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>Pleats as they are asked for: from the section or from the cloth, by width or by count.</summary>
/// <param name="asked">What was sent.</param>
/// <param name="kind">How they are to lie.</param>
internal sealed class PleatRequest(Asked asked, PleatKind kind)
{
    /// <summary>The most pleats in a section.</summary>
    public const int MostPleats = 500;

    private readonly Length? finished = asked.LengthOrNull("finished");
    private readonly Length? flat = asked.LengthOrNull("flat");
    private readonly Length? width = asked.LengthOrNull("width");
    private readonly Length? depth = asked.LengthOrNull("depth");
    private readonly int sides = Pleats.Sides(kind);

    /// <summary>The pleats, one way where the count is whole, else rounded down and up.</summary>
    public IReadOnlyList<(string Word, Pleats Pleats)> Ways()
    {
        asked.Check(finished is not null != flat is not null, finished is null ? "finished" : "flat", "Give the finished section or the flat cloth, one of them: the other follows.");
        asked.Check(width is not null || asked.Has("count"), "width", "Give the width of a pleat or how many there are.");
        asked.Check(kind == PleatKind.Normal || depth is not null, "depth", T($"The depth is missing: only normal pleats have it from their width. Give for example {asked.Show(Length.FromSixtyFourthsOfInch(48))}."));
        asked.Throw();
        var counts = asked.Has("count") ? [("whole", asked.Whole("count"))] : Counts(width!.Value);
        var ways = new List<(string, Pleats)>();
        foreach (var (word, count) in counts)
        {
            var section = Section(count);
            if (section <= Length.Zero && counts.Count > 1)
            {
                continue;
            }

            asked.Check(section > Length.Zero, asked.Has("count") ? "count" : "depth",
                N(
                count,
                $"{count} pleat takes up {asked.Show(2 * sides * count * (depth ?? Length.Zero))}, and there are {asked.Show(flat ?? Length.Zero)} of cloth: the depth must stay below {asked.Show((flat ?? Length.Zero).DividedBy(2L * sides * count))}.",
                $"{count} pleats take up {asked.Show(2 * sides * count * (depth ?? Length.Zero))}, and there are {asked.Show(flat ?? Length.Zero)} of cloth: the depth must stay below {asked.Show((flat ?? Length.Zero).DividedBy(2L * sides * count))}."));
            asked.Throw();
            ways.Add((word, Of(count, section)));
        }

        asked.Throw();
        return ways;
    }

    private List<(string Word, int Count)> Counts(Length each)
    {
        var folds = finished is null ? 2 * sides : 0;
        var (whole, unit) = (finished ?? flat!.Value, each + (folds * (depth ?? each)));
        var least = depth is { } deep ? whole.DividedBy(MostPleats) - (folds * deep) : whole.DividedBy(MostPleats * (1 + folds));
        asked.Check(whole <= MostPleats * unit, "width", T($"{asked.Show(each)} makes more than {MostPleats} pleats: it must be at least {asked.Show(least)}."));
        asked.Throw();
        return [.. Rounding.BothWays(whole, unit).Select(r => (r.Word, (int)r.Count))];
    }

    // Normal pleats without a depth are a third of their cloth, whatever the count.
    private Length Section(int count) => finished ?? (depth is { } deep && !Follows ? flat!.Value - (2 * sides * count * deep) : flat!.Value.DividedBy(3));

    /// <summary>Whether the depth follows the corrected width.</summary>
    private bool Follows => kind == PleatKind.Normal;

    private Pleats Of(int count, Length section)
    {
        var share = section.DividedBy(count);
        asked.Check(share > Length.Zero, "count", T($"{count} pleats do not go into {asked.Show(section)}: take fewer, or a wider section."));
        asked.Throw();
        var deep = Follows ? share : depth!.Value;
        CheckKind(width ?? share, deep);
        if (width is { } wide && asked.Has("count"))
        {
            asked.Check(kind == PleatKind.Box ? wide <= share : Math.Abs((section - (count * wide)).Nanometres) <= count, "width",
                kind == PleatKind.Box
                    ? N(
                        count,
                        $"{count} pleat of {asked.Show(wide)} is {asked.Show(count * wide)} and the section is {asked.Show(section)}: the face may be at most {asked.Show(share)}, or leave the width out.",
                        $"{count} pleats of {asked.Show(wide)} are {asked.Show(count * wide)} and the section is {asked.Show(section)}: the face may be at most {asked.Show(share)}, or leave the width out.")
                    : N(
                        count,
                        $"{count} pleat of {asked.Show(wide)} is {asked.Show(count * wide)} and the section is {asked.Show(section)}: it must be {asked.Show(share)}, or leave the width out.",
                        $"{count} pleats of {asked.Show(wide)} are {asked.Show(count * wide)} and the section is {asked.Show(section)}: each must be {asked.Show(share)}, or leave the width out."));
            asked.Throw();
        }

        var face = kind != PleatKind.Box ? Length.Zero
            : width is { } given && asked.Has("count") ? given
            : width is null && 2 * deep < share ? 2 * deep : share;
        return new(kind, count, section, deep, face);
    }

    private void CheckKind(Length each, Length deep)
    {
        var lies = Pleats.Classify(depth ?? deep, each);
        if (kind is PleatKind.Box or PleatKind.Inverted || lies == kind || (depth is null && kind == PleatKind.Normal))
        {
            return;
        }

        var right = kind switch { PleatKind.Normal => T("equal to"), PleatKind.Shallow => T("below"), _ => T("above") };
        asked.Refuse("depth", T($"Pleats {asked.Show(depth ?? deep)} deep and {asked.Show(each)} wide are {Pleats.Word(lies)}, not {Pleats.Word(kind)}: the depth must be {right} {asked.Show(each)}."));
        asked.Throw();
    }
}
