using System.ComponentModel;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Threads;

/// <summary>A sharp for cotton of certain numbers.</summary>
/// <param name="Needle">The larger the number the finer the needle.</param>
/// <param name="From">The coarsest cotton.</param>
/// <param name="To">The finest; null: and finer.</param>
public sealed record SharpForCotton(int Needle, int From, int? To)
{
    /// <summary>True when the source gives it for a cotton.</summary>
    public bool Serves(int cotton) => From <= cotton && (To is not { } to || cotton <= to);
}

/// <summary>A kind of hand needle and the sizes it was and is sold in.</summary>
public sealed record HandNeedleKind([Localizable(true)] string Kind, [Localizable(true)] string Old, [Localizable(true)] string Now, [Localizable(true)] string Use);

/// <summary>Hand needles: sizes old and new, and which goes with which thread.</summary>
public static class HandNeedles
{
    /// <summary>Sharps for sewing cotton; the overlaps at 40 and 90 and the gaps are in the source.</summary>
    /// <remarks>Krolik, Hand Sewing Lessons.</remarks>
    public static IReadOnlyList<SharpForCotton> Sharps { get; } =
        [new(7, 30, 40), new(8, 40, 50), new(9, 60, 70), new(10, 80, 90), new(11, 90, 100), new(12, 100, null)];

    /// <summary>What was sold about 1910 and what is sold now.</summary>
    /// <remarks>Old: Text-Book on Domestic Art. Now: a published list of needle sizes.</remarks>
    public static IReadOnlyList<HandNeedleKind> Kinds { get; } =
    [
        new("Sharps", "1 to 12", "1 to 10", "ordinary sewing"), new("Betweens", "1 to 12", "3 to 10", "short: very fine, close stitches"),
        new("Milliners", "3 to 10", "3 to 10", "long: basting, pleating, whipping"), new("Embroidery, crewel", "1 to 10", "1 to 10", "long eye: white embroidery, feather-stitch"),
        new("Darning", "0 to 9", "1 to 5", "mending, basting"),
    ];

    /// <summary>
    /// The needles for a cotton: all that the source gives, or the two on either side where it leaves a gap; the coarsest alone below the table.
    /// </summary>
    public static IReadOnlyList<int> For(int cotton)
    {
        var given = Sharps.Where(s => s.Serves(cotton)).Select(s => s.Needle).ToList();
        return given.Count > 0 ? given
            : [.. Sharps.Where(s => s.To < cotton).Select(s => s.Needle).TakeLast(1), .. Sharps.Where(s => s.From > cotton).Select(s => s.Needle).Take(1)];
    }

    internal static Sum Sum { get; } = new()
    {
        Slug = "hand-needles",
        Shelf = Shelf.Thread,
        Title = "Hand needles, old and new",
        Lead = "Which hand needle goes with a sewing cotton, and what the old and the new sizes are.",
        Asks =
        [
            Ask.Whole("thread", "Number of the cotton", 10, 300, "80", "Of old sewing cotton: the larger the finer."),
            Ask.Choice("work", "Work", "", ("any", "Any sewing"), ("tucks", "Tucks by hand"), ("fine", "Buttonholes and fine handwork")).Optional(),
        ],
        Example = """{"thread":90,"work":"tucks"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (thread, work) = (asked.Whole("thread"), asked.Text("work"));
        var needles = For(thread);
        var given = Sharps.Any(s => s.Serves(thread));
        var answer = new Answer(asked.Unit)
            .Figure("needle", "Sharps no.", string.Join($" {T("or")} ", needles), given ? "as printed" : "the source leaves a gap here; the nearest are given")
            .Figure("finest", "The finest of them", needles.Max())
            .Table("sharps", "Sharps for cotton; at 40, 90 and 100 two serve", [new("needle", "Sharps no."), new("from", "Cotton from"), new("to", "to"), new("serves", "Serves yours")],
                Sharps.Select(s => (IReadOnlyList<object?>)[s.Needle, s.From, s.To?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? T("and finer"), needles.Contains(s.Needle)]))
            .Table("kinds", "Sizes about 1910 and now", [new("kind", "Kind"), new("old", "About 1910"), new("now", "Now"), new("use", "For")], Kinds.Select(k => (IReadOnlyList<object?>)[T(k.Kind), T(k.Old), T(k.Now), T(k.Use)]))
            .Table("diameters", "How thick a few of today's are", [new("needle", "Needle"), new("diameter", "Diameter")],
                [[T("Sharps 8"), Hundredths(61)], [T("Sharps 9"), Hundredths(61)], [T("Sharps 10"), Hundredths(46)], [T("Appliqué 9"), Hundredths(53)]])
            .Note("Thread and needle: 30 to 40 with no. 7, 40 to 50 no. 8, 60 to 70 no. 9, 80 to 90 no. 10, 90 to 100 no. 11, above no. 12. The overlaps are printed so.", "Krolik, Hand Sewing Lessons")
            .Note("In every kind the larger the number the finer the needle, then as now; but one number may differ in thickness from kind to kind and from maker to maker.", "Text-Book on Domestic Art (c. 1910); sizes of today from a published list of needle sizes")
            .Note("The diameters are as an online encyclopaedia prints them, 8 and 9 alike; measure your own if it matters.", "A published needle size chart")
            .Note("The eye should be wider than the thread, and the needle a little thicker than it.", "Dillmont, Encyclopedia of Needlework (1886)");
        if (work == "tucks")
        {
            answer.Note("Tucks by hand: thread 80 to 100 and needles 9 to 11. Another book bastes with 8 and runs with 9, with threads 50 and 90.", "Woolman, A Sewing Course for Teachers; Hapgood, School Needlework");
            if (thread is < 80 or > 100)
            {
                answer.Caution("tuck-thread", thread < 80
                    ? T($"For tucks by hand thread 80 to 100 is given; {thread} is coarser and may show.")
                    : T($"For tucks by hand thread 80 to 100 is given; {thread} is finer and may break in washing."));
            }
        }
        else if (work == "fine")
        {
            answer.Note("Fine handwork on white goods, buttonholes too: thread 150.", "Watson, Textiles and Clothing (1907)");
        }

        return answer.Caution("sharps", "Count needles before and after, and leave none in the work: steel rusts, and the stain stays.")
            .Drawn(T($"Each needle's cottons as a bar from coarse to fine, yours at {thread}."), Picture(thread));
    }

    private static Length Hundredths(int mm) => Length.FromNanometres(mm * 10_000L);

    private static Panel Picture(int thread)
    {
        var sketch = new Sketch(64);
        var most = Math.Max(130, thread + 10);
        for (var i = 0; i < Sharps.Count; i++)
        {
            var (sharp, y) = (Sharps[i], 10 + (i * 7.5));
            sketch.Text(Sketch.Margin, y + 3.6, T($"no. {sharp.Needle}"), Ink.Number, 2.8, Anchor.Start)
                .Box(X(sharp.From), y, X(sharp.To ?? most) - X(sharp.From), 5, Ink.Cloth)
                .Text(X(sharp.From) - 1, y + 3.6, $"{sharp.From}", Ink.Caption, 2.4, Anchor.End);
        }

        return sketch.Line(X(thread), 8, X(thread), 56, Ink.Stitching).Text(X(thread), 61, $"{thread}", Ink.StitchNumber).Panel();

        double X(int cotton) => 26 + ((sketch.Room - 24) * cotton / most);
    }
}
