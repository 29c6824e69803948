using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Plain tucks under all their names, with what the books advise; every other kind has a sum of its own.</summary>
internal static class TuckKindsSum
{
    private static (string Kind, string Special, string? Slug)[] Kinds =>
    [
        (T("pin"), T("Under 1/8 in; otherwise as plain."), "tuck-kinds"),
        (T("plain"), T("Equal tucks in a row."), "tuck-kinds"),
        (T("blind"), T("Each fold meets the stitching of the next: space 0, three layers of cloth."), "tuck-kinds"),
        (T("whipped"), T("The fold overcast; as plain."), "tuck-kinds"),
        (T("lace-edged"), T("Lace whipped to the fold; the space must show it."), "tuck-kinds"),
        (T("graduated"), T("Each narrower or wider than the one before."), "graduated"),
        (T("nuns"), T("About 2 in or more, one or several."), "nuns"),
        (T("growth"), T("To let out: each gives twice its width."), "growth"),
        (T("release"), T("Stitched part of the way; twice the width of each is set free."), "release"),
        (T("receiving"), T("A hem-tuck over the seam of a ruffle or lace."), "receiving"),
        (T("shell"), T("The fold drawn into shells; a strip tells what they take."), "shell"),
        (T("corded"), T("A cord in the fold; a strip decides what it adds."), "corded"),
        (T("crossed"), T("Two runs, down and across."), "crossed"),
        (T("scalloped"), T("Deeper, stitched in scallops and turned."), "scalloped"),
        (T("twin-needle"), T("No fold; by a strip only."), "twin-needle"),
        (T("tapered"), T("Darts and fans, with a width at both ends: recorded, not planned as parallel tucks."), null),
    ];

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "tuck-kinds",
        Shelf = Shelf.Tucks,
        Title = "What kind of tuck it is",
        Lead = "From a width and a space: what the trade calls such tucks, what the books call usual, how many fit, and the cloth they take.",
        Asks =
        [
            RunAsks.Width("1/8 in"),
            .. AskedTucks.Apart("1/8 in"),
            RunAsks.Tucks("5").Optional(),
            Ask.Choice("edge", "Its fold is", "", ("plain", "plain"), ("whipped", "whipped"), ("lace-edged", "edged with lace")).Optional(),
            Ask.Above("laceWidth", "Width of the lace", "1/4 in", "What hangs below the fold.").Optional(),
            RunAsks.LiesAsk(hanging: true), RunAsks.Lead, RunAsks.Trail,
            RunAsks.FinishedAtMost with { Hint = "Without a number of tucks it says how many fit." }, RunAsks.ClothAtMost, RunAsks.Strip,
        ],
        Example = """{"width":"1/8 in","space":"1/8 in","tucks":5,"lead":"1 in","trail":"1 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var width = asked.Length("width");
        var given = asked.Has("space") || asked.Has("stitchToStitch") || asked.Has("foldToFold");
        asked.Check(asked.Text("edge") == "lace-edged" || !asked.Has("laceWidth"), "laceWidth", T($"{asked.Show(asked.Length("laceWidth"))} of lace belongs to an edge that is lace-edged: say so, or leave it out."));
        var lies = RunAsks.LiesOf(asked, Lies.TowardsStart);
        asked.Check(lies is Lies.TowardsEnd or Lies.TowardsStart, "lies", T($"“{asked.Text("lies")}”: here all tucks lie one way, towards-end or towards-start. The plan of a whole run takes all four."));
        asked.Throw();
        var two = Plan(asked, lies, 2, given);
        var space = two.Spacings[0].Space;
        var most = Most(asked, two);
        asked.Check(most is null or > 0, asked.Has("finishedAtMost") ? "finishedAtMost" : "clothAtMost", T($"Not even one tuck of {asked.Show(width)} fits there."));
        asked.Throw();
        var tucks = asked.Has("tucks") ? asked.Whole("tucks") : (int)Math.Min(most ?? 3, RunAsks.MostTucks);
        var plan = Plan(asked, lies, tucks, given);
        RunLimits.Check(asked, plan, tucks - 1);
        var answer = new Answer(asked.Unit)
            .Figure("kind", "By its width", T(TuckNames.Of(width)), Called(width))
            .Figure("apart", "By its space", given ? Said(TuckNames.Apart(space)) : null, given ? "" : "no space given: half the tuck is drawn")
            .Figure("edge", "Its fold", T(asked.Has("edge") ? asked.Text("edge") : "plain"))
            .Figure("tucks", "Tucks", tucks)
            .Figure("mostTucks", "Most that fit", most)
            .Figure("takeUpEach", "Each takes up", two.TakeUp.DividedBy(2))
            .Figure("groupWidth", "The group is wide", TuckNames.GroupWidth(tucks, width, space))
            .Figure("suggestedGap", "To the next group", TuckNames.GroupWidth(tucks, width, space), "as far as the group is wide")
            .Tell(plan)
            .Table("usualSpaces", "What the books call usual; they disagree", [new("source", "Book"), new("says", "It says"), new("least", "Least"), new("most", "Most"), new("agrees", "Yours is so")],
                TuckNames.UsualSpaces(width).Select(u => (IReadOnlyList<object?>)[T(u.Source), T(u.Says), u.Least, u.Most, given ? u.Takes(space) : null]))
            .Table("kinds", "All kinds of tucks", [new("kind", "Kind"), new("special", "What is special"), new("workedOut", "Worked out under")],
                Kinds.Select(k => (IReadOnlyList<object?>)[k.Kind, k.Special, k.Slug]));
        Advice(asked, answer, width, space, tucks);
        return answer.DrawnRun(plan);
    }

    private static TuckPlan Plan(Asked asked, Lies lies, int tucks, bool given) => RunAsks.Plan(asked, lies,
        [new(tucks, asked.Length("width"), given ? RunAsks.ApartOf(asked) : new(asked.Length("width").DividedBy(2)))], [], RunAsks.Alike);

    private static long? Most(Asked asked, TuckPlan two)
    {
        var plain = asked.Length("lead") + asked.Length("trail");
        var (width, spacing) = (two.Lines[0].Width, two.Spacings[0]);
        // A strip may let tucks overlap so far that one more makes the run no wider: any number fits then.
        var finished = asked.LengthOrNull("finishedAtMost") is { } room && (room - plain < width || width + spacing.Space > Length.Zero) ? TuckNames.Most(room - plain, width, spacing.Space) : (long?)null;
        var cloth = asked.LengthOrNull("clothAtMost") is { } there ? TuckNames.Most(there - plain, spacing.FoldToFold - spacing.Space, spacing.Space) : (long?)null;
        return finished is null ? cloth : cloth is null ? finished : Math.Min(finished.Value, cloth.Value);
    }

    private static string Said(string apart) => apart switch { "spaced" => T("spaced"), "blind" => T("blind"), _ => T("overlapping") };

    private static string Called(Length width) => TuckNames.Of(width) switch
    {
        "pin" => T("usually under 1/8 in"),
        "nuns" => T("a nun's tuck, from about 2 in"),
        _ => "",
    };

    private static void Advice(Asked asked, Answer answer, Length width, Length space, int tucks)
    {
        if (width < TuckNames.UsualWidths.Least || width > TuckNames.UsualWidths.Most)
        {
            answer.Caution("unusual-width", T($"{asked.Show(width)} is unusual: tucks are mostly {asked.Show(TuckNames.UsualWidths.Least)} to {asked.Show(TuckNames.UsualWidths.Most)}. It can be sewn all the same."));
        }

        if (asked.LengthOrNull("laceWidth") is { } lace && lace > space)
        {
            answer.Caution("lace-covers", T($"Lace of {asked.Show(lace)} covers the next line of stitching: a space of at least that shows it."));
        }

        if (tucks % 2 == 0)
        {
            answer.Note(T($"Three, five or seven look better than an even number: instead of {tucks} take {tucks - 1} or {tucks + 1}."), "Patton, Home and School Sewing (c. 1901), ch. XXI");
        }

        answer.Note("Groups stand as far apart as a group is wide.", "Patton, Home and School Sewing (c. 1901), ch. XXI")
            .Note("Rows of tucks on a skirt should in general grow narrower from the bottom to the top, and the plain space should exceed the ornamented.", "Watson, Textiles and Clothing (1907)")
            .Note("Pin tucks are usually under 1/8 in.", "A modern college note on tucks")
            .Note("Tucks are made from 1/16 in to about 2 in deep.", "Woolman, A Sewing Course for Teachers, no. 34")
            .Note("Machine stitching belongs on the outer face of the tuck, hand stitching on the under side.", "New Zealand Herald, 9 April 1924, p. 16");
    }
}
