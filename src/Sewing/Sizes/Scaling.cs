using System.Globalization;
using HeirloomArchive.Sewing.Fitting;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary>The three ways to make a run again for another size.</summary>
public enum ScalingWay
{
    /// <summary>The same tuck and space, more or fewer of them.</summary>
    KeepTuck,

    /// <summary>As many tucks of the same width, further apart or closer.</summary>
    KeepCount,

    /// <summary>As many tucks, everything larger or smaller.</summary>
    ScaleAll,
}

/// <summary>A run of equal tucks with the same plain cloth at both ends, as it is on the antique.</summary>
/// <param name="Tucks">1 to 1 000.</param>
/// <param name="Width">Fold to stitching line, above zero.</param>
/// <param name="Space">The plain cloth seen between two, zero or more; of no meaning with one tuck.</param>
/// <param name="Ends">The plain cloth at each end, zero or more.</param>
public sealed record EvenRun(int Tucks, Length Width, Length Space, Length Ends)
{
    /// <summary>Tucks, spaces and ends together.</summary>
    public Length Finished => (Tucks * Width) + ((Tucks - 1) * Space) + (2 * Ends);
}

/// <summary>The run for the new size, every part a whole number of the finest marking.</summary>
/// <param name="Tucks">How many.</param>
/// <param name="Width">Of each.</param>
/// <param name="Space">Between two; zero with one tuck.</param>
/// <param name="Lead">The plain cloth before.</param>
/// <param name="Trail">The plain cloth after; at most one finest marking more than before.</param>
/// <param name="Off">How far it finishes from the size asked for; zero unless that is no whole number of the marking.</param>
public sealed record ScaledRun(int Tucks, Length Width, Length Space, Length Lead, Length Trail, Length Off)
{
    /// <summary>The width when sewn.</summary>
    public Length Finished => (Tucks * Width) + ((Tucks - 1) * Space) + Lead + Trail;

    /// <summary>The flat cloth: finished and twice the width of each tuck.</summary>
    public Length Cloth => Finished + (2 * Tucks * Width);

    /// <summary>The run, ready for <see cref="TuckPlan.Make"/>.</summary>
    public TuckRun Run => new() { Groups = [new(Tucks, Width, new(Tucks > 1 ? Space : null))], Lead = Lead, Trail = Trail };
}

/// <summary>An antique's run made again for another size, in three ways. Whole numbers of the finest marking throughout.</summary>
/// <remarks>
/// What each aims at: with the tuck kept, ends in the proportion of the sizes; with the count kept, all plain cloth, spaces and ends alike, wider or narrower
/// by one factor; with all scaled, everything by the proportion of the sizes. Of what the marking allows that is taken which lies least off its aim,
/// all tucks, all spaces and both ends added; of two as near the one with even ends, then the narrower tuck, the smaller space, the fewer tucks.
/// </remarks>
public static class Scaling
{
    /// <summary>The antique's run for a new finished width.</summary>
    /// <param name="way">Which of the three.</param>
    /// <param name="antique">Adds up to more than zero.</param>
    /// <param name="finished">The new width, above zero.</param>
    /// <param name="finest">Every part is a whole number of it; above zero.</param>
    /// <returns>Null when there is none: the tucks and spaces that are kept alone are wider.</returns>
    public static ScaledRun? Make(ScalingWay way, EvenRun antique, Length finished, Length finest)
    {
        ArgumentNullException.ThrowIfNull(antique);
        var (unit, old, to) = (finest.Nanometres, antique.Finished.Nanometres, finished.Nanometres);
        var whole = Span.Floor((2 * to) + unit - 1, 2 * unit);
        var (width, space, ends) = (antique.Width.Nanometres, antique.Space.Nanometres, 2 * antique.Ends.Nanometres);
        return way switch
        {
            ScalingWay.KeepTuck => Best(antique.Tucks > 1 ? Enumerable.Range(1, TuckRun.MostInGroup) : [1], [Nearest(width)], [Nearest(space)], Nearest(width) * unit, Nearest(space) * unit, Part(ends, to, old)),
            ScalingWay.KeepCount => KeepCount(),
            _ => Best([antique.Tucks], Around(Part(width, to, old)), Around(Part(space, to, old)), Part(width, to, old), Part(space, to, old), Part(ends, to, old)),
        };

        ScaledRun? KeepCount()
        {
            var (kept, gaps) = (Nearest(width), antique.Tucks - 1);
            var plain = Math.Max(0, to - (antique.Tucks * kept * unit));
            var had = (gaps * space) + ends;
            var wanted = had > 0 ? Part(space, plain, had) : gaps > 0 ? plain / gaps : 0;
            return Best([antique.Tucks], [kept], Around(wanted), kept * unit, wanted, Math.Max(0, plain - (gaps * wanted)));
        }

        ScaledRun? Best(IEnumerable<int> counts, IEnumerable<long> widths, IEnumerable<long> spaces, long aimWidth, long aimSpace, long aimEnds)
        {
            var found =
                from tucks in counts
                from w in widths
                where w >= 1
                from s in spaces
                let left = whole - (tucks * w) - ((tucks - 1) * s)
                where s >= 0 && left >= 0
                let off = (tucks * Math.Abs((w * unit) - aimWidth)) + ((tucks - 1) * Math.Abs((s * unit) - aimSpace)) + Math.Abs((left * unit) - aimEnds)
                orderby off, left & 1, w, s, tucks
                select new ScaledRun(tucks, w * finest, tucks == 1 ? Length.Zero : s * finest, left / 2 * finest, (left - (left / 2)) * finest, (whole * finest) - finished);
            return found.FirstOrDefault();
        }

        long Nearest(long length) => OnMarking(length, unit);

        // A space may be drawn in or let out by a few markings, so that the ends come out even.
        IEnumerable<long> Around(long aim)
        {
            var below = Span.Floor(aim, unit);
            return Enumerable.Range(-2, 6).Select(step => below + step);
        }

        static long Part(long length, long over, long under) => (long)Length.Rounded((System.Numerics.BigInteger)length * over, under);
    }

    /// <summary>A length that is kept, in whole markings; one at least, unless it is none.</summary>
    private static long OnMarking(long length, long unit) => Math.Max(length > 0 ? 1 : 0, (long)Length.Rounded(length, unit));

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "scaling",
        Shelf = Shelf.Sizes,
        Title = "The same tucks on another size",
        Lead = "An antique's run made again for a wider or narrower piece: keep the tuck, keep the count, or scale all, side by side.",
        Asks =
        [
            Ask.Whole("tucks", "Tucks on the antique", 1, TuckRun.MostInGroup, "9"),
            Ask.Above("width", "Their width", "1/8 in", "From the fold to the stitching."),
            Ask.Plain("space", "Space between", "1/4 in", "The plain cloth seen between two tucks; none where they meet."),
            Ask.Plain("ends", "Plain ends", "1 in", "The plain cloth before the first and after the last."),
            Ask.Above("measured", "Its width as measured", "5 1/8 in", "Only to see whether the measures add up.").Optional(),
            Ask.Above("finished", "The new width", "8 in", "Ends included."),
            Ask.Above("cloth", "Cloth there is", "12 in").Optional(),
            SizeAsks.Finest,
        ],
        Example = """{"tucks":9,"width":"1/8 in","space":"1/4 in","ends":"1 in","measured":"5 1/8 in","finished":"8 in","finest":"1/16 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var antique = new EvenRun(asked.Whole("tucks"), asked.Length("width"), asked.Whole("tucks") > 1 ? asked.Length("space") : Length.Zero, asked.Length("ends"));
        var (finished, finest) = (asked.Length("finished"), SizeAsks.FinestOf(asked));
        asked.Check(antique.Finished <= Length.Longest, "tucks", N(
            antique.Tucks,
            $"{antique.Tucks} tuck with its ends adds up to {asked.Show(antique.Finished)}: runs here go up to 1 km.",
            $"{antique.Tucks} tucks with their spaces and ends add up to {asked.Show(antique.Finished)}: runs here go up to 1 km."));
        asked.Check(2 * finished >= finest, "finished", T($"{asked.Show(finished)} is less than half of the finest marking: take a finer one."));
        asked.Throw();
        var ways = Enum.GetValues<ScalingWay>().Select(way => (Way: way, Run: Make(way, antique, finished, finest))).ToList();
        var answer = new Answer(asked.Unit)
            .Figure("antiqueFinished", "The antique's tucks, spaces and ends add up to", antique.Finished)
            .Figure("antiqueCloth", "Its flat cloth", antique.Finished + (2 * antique.Tucks * antique.Width))
            .Figure("times", "The new width is so many times the old", Times(finished, antique.Finished))
            .Table("ways", "Side by side",
                [new("way", "Way"), new("tucks", "Tucks"), new("width", "Width"), new("space", "Space"), new("lead", "Plain before"), new("trail", "Plain after"), new("finished", "Finished"), new("cloth", "Cloth"), new("exact", "Exact"), new("keeps", "Keeps"), new("changes", "Changes"), new("says", "In words")],
                ways.Select(w => Row(asked, antique, w.Way, w.Run, finished)))
            .Note("More of the same tuck keeps the look from close by; the same count spread wider keeps the look from afar and lets more plain cloth show; scaled, a fine tuck grows coarse on a large piece and may be too fine to sew on a small one.");
        if (asked.LengthOrNull("measured") is { } measured && measured != antique.Finished)
        {
            answer.Caution("does-not-add-up", T($"You measured {asked.Show(measured)}, but the tucks, spaces and ends add up to {asked.Show(antique.Finished)}: measure again, or look whether tucks differ. What is worked out here goes by the parts."));
        }

        foreach (var (way, run) in ways.Where(w => w.Run is { } r && asked.LengthOrNull("cloth") is { } cloth && r.Cloth > cloth))
        {
            answer.Caution("not-enough-cloth", T($"{Name(way)}: it takes {asked.Show(run!.Cloth)} of cloth, and there are {asked.Show(asked.Length("cloth"))}."));
        }

        var runs = ways.Select(w => w.Run is { } run ? (N(run.Tucks, $"{Name(w.Way)}: {run.Tucks} tuck of {asked.Show(run.Width)}", $"{Name(w.Way)}: {run.Tucks} tucks of {asked.Show(run.Width)}"), run.Finished, (TuckRun?)run.Run) : (T($"{Name(w.Way)}: not possible"), finished, null))
            .Prepend((N(antique.Tucks, $"the antique: {antique.Tucks} tuck of {asked.Show(antique.Width)}", $"the antique: {antique.Tucks} tucks of {asked.Show(antique.Width)}"), antique.Finished, new TuckRun { Groups = [new(antique.Tucks, antique.Width, new(antique.Tucks > 1 ? antique.Space : null))], Lead = antique.Ends, Trail = antique.Ends })).ToList();
        return answer.Drawn(RunDrawing.Words(runs.Select(r => r.Item3), T($"{string.Join("; ", runs.Select(r => r.Item1))}, finished, at one scale.")), RunDrawing.Strips(runs, asked.Unit));
    }

    private static IReadOnlyList<object?> Row(Asked asked, EvenRun antique, ScalingWay way, ScaledRun? run, Length finished)
    {
        if (run is null)
        {
            // Scaled, a tuck may be as narrow as one marking; else it is as wide as on the antique, drawn to the marking.
            var finest = SizeAsks.FinestOf(asked);
            var width = way == ScalingWay.ScaleAll ? finest : OnMarking(antique.Width.Nanometres, finest.Nanometres) * finest;
            return [Slug(way), null, null, null, null, null, null, null, false, null, null,
                way == ScalingWay.KeepTuck ? T($"Not possible: even one of its tucks is wider than {asked.Show(finished)}.")
                    : N(
                        antique.Tucks,
                        $"Not possible: {antique.Tucks} tuck of {asked.Show(width)} alone comes to {asked.Show(antique.Tucks * width)}, wider than {asked.Show(finished)}.",
                        $"Not possible: {antique.Tucks} tucks of {asked.Show(width)} alone come to {asked.Show(antique.Tucks * width)}, wider than {asked.Show(finished)}.")];
        }

        var (keeps, changes) = (new List<string>(), new List<string>());
        Note(antique.Tucks == run.Tucks, N(antique.Tucks, $"{antique.Tucks} tuck", $"{antique.Tucks} tucks"), N(antique.Tucks, $"{antique.Tucks} tuck becomes {run.Tucks}", $"{antique.Tucks} tucks become {run.Tucks}"));
        Note(antique.Width == run.Width, T($"width {asked.Show(run.Width)}"), T($"width {asked.Show(antique.Width)} becomes {asked.Show(run.Width)}"));
        if (antique.Tucks > 1 && run.Tucks > 1)
        {
            Note(antique.Space == run.Space, T($"space {asked.Show(run.Space)}"), T($"space {asked.Show(antique.Space)} becomes {asked.Show(run.Space)}"));
            Note((Int128)antique.Space.Nanometres * run.Width.Nanometres == (Int128)run.Space.Nanometres * antique.Width.Nanometres,
                T($"space {Said(run.Space, run.Width)} times the width"), T($"space {Said(antique.Space, antique.Width)} times the width becomes {Said(run.Space, run.Width)} times"));
        }

        var ends = run.Lead == run.Trail ? asked.Show(run.Lead) : T($"{asked.Show(run.Lead)} and {asked.Show(run.Trail)}");
        Note(run.Lead == antique.Ends && run.Trail == antique.Ends, T($"plain ends {ends}"), T($"plain ends {asked.Show(antique.Ends)} become {ends}"));
        var exact = run.Off == Length.Zero;
        var says = run.Off < Length.Zero ? T($"Nearest: it finishes {asked.Show(-run.Off)} narrower than {asked.Show(finished)}, which is no whole number of the marking.")
            : run.Off > Length.Zero ? T($"Nearest: it finishes {asked.Show(run.Off)} wider than {asked.Show(finished)}, which is no whole number of the marking.")
            : run.Lead == run.Trail ? T("Exact, with the same plain cloth at both ends.") : T("Exact in width; the plain cloth after the last tuck is one marking more than before the first.");
        return [Slug(way), run.Tucks, run.Width, run.Tucks > 1 ? run.Space : null, run.Lead, run.Trail, run.Finished, run.Cloth, exact, string.Join("; ", keeps), string.Join("; ", changes), says];

        void Note(bool same, string kept, string changed) => (same ? keeps : changes).Add(same ? kept : changed);
    }

    private static decimal Times(Length length, Length over) => decimal.Round(length.Millimetres / over.Millimetres, 3);

    private static string Said(Length length, Length over) => Times(length, over).ToString("0.###", CultureInfo.InvariantCulture);

    private static string Slug(ScalingWay way) => way switch { ScalingWay.KeepTuck => T("keep-tuck"), ScalingWay.KeepCount => T("keep-count"), _ => T("scale-all") };

    private static string Name(ScalingWay way) => way switch { ScalingWay.KeepTuck => T("keep the tuck"), ScalingWay.KeepCount => T("keep the count"), _ => T("scale all") };
}
