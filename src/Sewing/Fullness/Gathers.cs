using System.ComponentModel;
using HeirloomArchive.Sewing.Laces;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>How a book passes the needle in gathering: threads of the cloth taken up and left.</summary>
/// <param name="Words">In words.</param>
/// <param name="Taken">Threads on the needle.</param>
/// <param name="Left">Threads passed over.</param>
/// <param name="Source">Where it is read.</param>
public sealed record GatheringStitch([Localizable(true)] string Words, int Taken, int Left, [Localizable(true)] string Source)
{
    /// <summary>All that were read; they disagree.</summary>
    public static IReadOnlyList<GatheringStitch> All { get; } =
    [
        new("Take 2, pass over 4 (twice what is taken)", 2, 4, "McGlauflin, Handicraft for Girls (c. 1910); Hapgood, School Needlework"),
        new("Take 3, pass over 3 (as many as are taken)", 3, 3, "Dillmont, Encyclopedia of Needlework (1886): 3 or 4 threads"),
        new("Take 3, miss 4", 3, 4, "The Workwoman's Guide (1838)"),
    ];

    /// <summary>Whole gathers in so many threads of cloth.</summary>
    public static int In(decimal threads, int taken, int left) => (int)Math.Min(int.MaxValue, decimal.Floor(threads / (taken + left)));
}

/// <summary>Gathers: their rows and their stitch; whipped gathers with their roll.</summary>
public static class Gathers
{
    /// <summary>Where each row of gathering runs, from the raw edge. Exact.</summary>
    public static IReadOnlyList<Length> Rows(int count, Length first, Length between) => [.. Enumerable.Range(0, count).Select(i => first + (i * between))];

    internal static Sum Sum { get; } = new()
    {
        Slug = "gathers",
        Shelf = Shelf.Fullness,
        Title = "Gathers and whipped gathers",
        Lead = "What a gathered edge takes, where the rows of gathering run, how many stitches they have, and the roll of whipped gathers.",
        Asks =
        [
            .. Gathered.Asks,
            Ask.Choice("edge", "The edge", "Whipped gathers are rolled and drawn up in the whipping.", ("plain", "Rows of gathering"), ("whipped", "Rolled and whipped")).Optional(),
            Ask.Whole("rows", "Rows of gathering", 1, 20, "2").Optional(),
            Ask.Above("first", "First row from the raw edge", "1/4 in").Optional(),
            Ask.Above("between", "From row to row", "1/4 in").Optional(),
            Ask.Whole("taken", "Threads taken up", 1, 40, "3", "Of your own gathering stitch.").Optional(),
            Ask.Whole("left", "Threads passed over", 1, 80, "4").Optional(),
            Ask.Whole("threads", "Threads counted", 1, 2000, "80", "Along the edge, with a glass; gives the stitches and the roll.").Optional(),
            Ask.Above("threadsOver", "Counted over", "1 in").Optional(),
        ],
        Example = """{"finished":"12 in","fullness":2,"threads":80,"threadsOver":"1 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var whipped = asked.Text("edge") == "whipped";
        asked.Check(asked.Has("threads") == asked.Has("threadsOver"), asked.Has("threads") ? "threadsOver" : "threads", "Threads counted and the length they were counted over belong together: give both, for example 80 over 1 in.");
        asked.Check(asked.Has("taken") == asked.Has("left"), asked.Has("taken") ? "left" : "taken", "Threads taken up and passed over belong together: give both, for example 3 and 4.");
        var gathered = Gathered.Read(asked, whipped ? 2m : 1.5m);
        var answer = new Answer(asked.Unit);
        gathered.Add(answer);
        if (whipped)
        {
            answer.Note("A whipped ruffle takes about twice the finished edge, or a little more.", "Woolman, A Sewing Course for Teachers, no. 48; Hapgood, School Needlework (12 in on 6 in)");
            if (asked.Has("threads"))
            {
                answer.Figure("roll", "Rolled into the edge", new RollAndWhip(asked.Whole("threads"), asked.Length("threadsOver"), RollAndWhip.UsualThreads).Roll, "about ten threads; add it to the depth");
            }

            answer.Note("The roll takes about ten threads of the cloth: count the threads to have it as a length.", "The Workwoman's Guide (1838)");
        }
        else
        {
            AddRows(asked, answer);
        }

        AddStitches(asked, answer, gathered.Flat);
        return answer.Drawn(T($"{asked.Show(gathered.Flat)} of cloth drawn up to {asked.Show(gathered.Finished)}, quarter marks on both."), gathered.Picture(asked, 1));
    }

    private static void AddRows(Asked asked, Answer answer)
    {
        var quarterInch = Length.FromSixtyFourthsOfInch(16);
        var rows = Rows(asked.Whole("rows", 2), asked.LengthOrNull("first") ?? quarterInch, asked.LengthOrNull("between") ?? quarterInch);
        answer.Table("gatheringRows", "Rows of gathering", [new("row", "Row"), new("fromEdge", "From the raw edge")], rows.Select((at, i) => (IReadOnlyList<object?>)[i + 1, at]))
            .Note("First row 1/4 in from the edge, the second 1/4 in lower.", "Hapgood, School Needlework")
            .Note("A second thread 1 to 2 cm below the first: the books disagree, so give your own where you like.", "Dillmont, Encyclopedia of Needlework (1886)");
    }

    private static void AddStitches(Asked asked, Answer answer, Length flat)
    {
        var threads = asked.Has("threads") ? flat.Nanometres * (decimal)asked.Whole("threads") / asked.Length("threadsOver").Nanometres : (decimal?)null;
        var own = asked.Has("taken") ? [new GatheringStitch(T($"Take {asked.Whole("taken")}, pass over {asked.Whole("left")}"), asked.Whole("taken"), asked.Whole("left"), "Your own")] : Array.Empty<GatheringStitch>();
        if (threads is { } known)
        {
            answer.Figure("threadsAlong", "Threads along the edge", (long)decimal.Floor(known));
        }

        answer.Table("stitches", "The gathering stitch; the books do not agree", [new("stitch", "Stitch"), new("gathers", "Gathers in a row"), new("source", "Source")],
            own.Concat(GatheringStitch.All).Select(s => (IReadOnlyList<object?>)[T(s.Words), threads is { } t ? GatheringStitch.In(t, s.Taken, s.Left) : null, T(s.Source)]));
    }
}
