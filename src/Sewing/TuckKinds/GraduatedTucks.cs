using System.Globalization;
using System.Numerics;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Graduated tucks: each narrower or wider than the one before, by an amount, by a ratio, or evenly to a last width.</summary>
/// <remarks>Even fall: similar triangles; widths and lines are plain geometry. Whole nanometres; each width is rounded once, to the finest marking.</remarks>
public static class GraduatedTucks
{
    /// <summary>Each width the step more than the one before, each drawn to the marking.</summary>
    /// <param name="tucks">1 or more.</param>
    /// <param name="first">Above zero.</param>
    /// <param name="step">Below zero where they narrow.</param>
    /// <param name="finest">Above zero: every width is a whole number of it, halves upwards.</param>
    /// <returns>Widths that may be zero or below where the step is too much.</returns>
    public static IReadOnlyList<Length> ByStep(int tucks, Length first, Length step, Length finest) =>
        [.. Enumerable.Range(0, tucks).Select(i => ToMarking((BigInteger)first.Nanometres + ((BigInteger)i * step.Nanometres), 1, finest))];

    /// <summary>Each width the one before times the ratio, each drawn to the marking from its exact value, so that errors do not add up.</summary>
    /// <param name="tucks">1 or more.</param>
    /// <param name="first">Above zero.</param>
    /// <param name="ratio">Above zero; below 1 they narrow.</param>
    /// <param name="finest">Above zero.</param>
    public static IReadOnlyList<Length> ByRatio(int tucks, Length first, decimal ratio, Length finest)
    {
        var (over, under) = Curves.Fraction(ratio);
        return [.. Enumerable.Range(0, tucks).Select(i => ToMarking(first.Nanometres * BigInteger.Pow(over, i), BigInteger.Pow(under, i), finest))];
    }

    /// <summary>Evenly from the first width to the last, each drawn to the marking.</summary>
    /// <param name="tucks">2 or more.</param>
    /// <param name="first">Above zero.</param>
    /// <param name="last">Above zero.</param>
    /// <param name="finest">Above zero.</param>
    public static IReadOnlyList<Length> Between(int tucks, Length first, Length last, Length finest) =>
        [.. Enumerable.Range(0, tucks).Select(i => ToMarking(((BigInteger)first.Nanometres * (tucks - 1 - i)) + ((BigInteger)last.Nanometres * i), tucks - 1, finest))];

    /// <summary>To a whole number of markings, halves upwards; what is above a kilometre stays there, to be refused.</summary>
    private static Length ToMarking(BigInteger over, BigInteger under, Length finest)
    {
        var (twice, by) = ((2 * over) + (under * finest.Nanometres), 2 * under * finest.Nanometres);
        var marks = BigInteger.DivRem(twice, by, out var rest) - (rest.Sign < 0 ? 1 : 0);
        return Length.FromNanometres((long)BigInteger.Min(marks * finest.Nanometres, Length.Longest.Nanometres + 1));
    }

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "graduated",
        Shelf = Shelf.Tucks,
        Title = "Graduated tucks",
        Lead = "Tucks that grow narrower or wider one after the other, each width on a marking you can read, and where every line falls.",
        Asks =
        [
            Ask.Whole("tucks", "Tucks", 2, TuckRun.MostGroups, "4", "Of a centre lie in each half."),
            Ask.Above("first", "Width of the first", "1 in", "The one nearest the start, or the middle; on a skirt nearest the hem."),
            Ask.AnyLength("step", "Each wider or narrower by", "-1/4 in", "Below 0: they narrow. Give one of this, the ratio, the last width.").Optional(),
            Ask.Number("ratio", "Each times", 0.1m, 10, "0.75", "0.75: each is three quarters of the one before.").Optional(),
            Ask.Above("last", "Width of the last", "1/4 in", "The widths between fall evenly.").Optional(),
            .. AskedTucks.Apart("1/4 in"),
            Ask.Above("finest", "Finest marking", "1/16 in", "Each width is drawn to it, 1/16 in or 1 mm when left out: 1/16, 1/32 or 1/64 in, 1, 0.5 or 0.25 mm.").Optional(),
            RunAsks.LiesAsk(hanging: true),
            RunAsks.Lead, RunAsks.Trail, RunAsks.Centre, RunAsks.FinishedAtMost, RunAsks.ClothAtMost, RunAsks.Strip,
        ],
        Example = """{"tucks":4,"first":"1 in","step":"-1/4 in","space":"1/4 in","lead":"2 in","trail":"3 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var widths = Widths(asked);
        var apart = RunAsks.ApartOf(asked);
        var plan = RunAsks.Plan(asked, Lies.TowardsStart, [.. widths.Select(w => new TuckGroup(1, w, default))],
            [.. widths.Skip(1).Select(_ => apart)], path => path.StartsWith('g') ? "first" : RunAsks.Alike(path));
        var halves = plan.Lines[0].Half is null ? 1 : 2;
        RunLimits.Check(asked, plan, halves * (widths.Count - 1));
        var answer = new Answer(asked.Unit).Tell(plan)
            .Figure("narrowest", "Narrowest", widths.Min()).Figure("widest", "Widest", widths.Max()).Spacings(plan);
        if (widths.Distinct().Count() < widths.Count)
        {
            answer.Caution("alike-on-marking", "Some neighbours come out alike on this marking: a finer one, or fewer tucks, would tell them apart.");
        }

        return answer
            .Note("The next crease lies twice the next tuck's width and the space from the stitching just sewn: the next width counts, not the present one. Plain geometry.")
            .Note("Rows of tucks on a skirt should in general grow narrower from the bottom to the top, and the plain space should exceed the ornamented.", "Watson, Textiles and Clothing (1907)")
            .DrawnRun(plan);
    }

    private static IReadOnlyList<Length> Widths(Asked asked)
    {
        var finest = asked.LengthOrNull("finest") ?? (asked.Unit == LengthUnit.Inches ? Length.FromSixtyFourthsOfInch(4) : Length.FromNanometres(1_000_000));
        asked.Check(Markings.Has(finest), "finest", T($"{asked.Show(finest)} is not a marking used here: {T(Markings.Words)}."));
        string[] ways = [.. new[] { "step", "ratio", "last" }.Where(asked.Has)];
        asked.Check(ways.Length > 0, "step", "How do the widths change? Give step, ratio or last.");
        asked.Check(ways.Length < 2, ways.LastOrDefault("step"), T($"{string.Join($" {T("and")} ", ways)} are given: one of them says how the widths change, leave the others out."));
        asked.Throw();
        var (tucks, first) = (asked.Whole("tucks"), asked.Length("first"));
        var widths = ways[0] switch
        {
            "step" => ByStep(tucks, first, asked.Length("step"), finest),
            "ratio" => ByRatio(tucks, first, asked.Number("ratio"), finest),
            _ => Between(tucks, first, asked.Length("last"), finest),
        };
        var good = widths.TakeWhile(w => w > Length.Zero && w <= Length.Longest).Count();
        if (good < tucks)
        {
            var which = T($"tuck {good + 1}");
            asked.Refuse(good == 0 ? "first" : ways[0], widths[good] > Length.Zero
                ? T($"{which} would be wider than 1 km.")
                : good == 0 ? T($"{asked.Show(first)} is less than half the finest marking of {asked.Show(finest)}: give a wider tuck or a finer marking.")
                : T($"Of {tucks} tucks {which} would have no width left: with {Given(asked, ways[0])} there can be at most {good}."));
            asked.Throw();
        }

        return widths;
    }

    private static string Given(Asked asked, string way) => way == "ratio"
        ? T($"a ratio of {asked.Number("ratio").ToString(CultureInfo.InvariantCulture)}") : T($"a {way} of {asked.Show(asked.Length(way))}");
}
