using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Nun's tucks: deep tucks round a skirt, one or several, of about 2 in or more.</summary>
/// <remarks>Butterick, The New Dressmaker (1921), ch. 20 p. 97: usually 2 in or more. Woolman (no. 34) lets tucks in general go up to a couple of inches.</remarks>
public static class NunsTucks
{
    /// <summary>From this width a tuck is called a nun's tuck: 2 in.</summary>
    public static Length Least { get; } = Length.FromSixtyFourthsOfInch(128);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "nuns",
        Shelf = Shelf.Tucks,
        Title = "Nun's tucks",
        Lead = "One deep tuck or several round a skirt: how much longer it must be cut, and where each line falls from the hem.",
        Asks =
        [
            Ask.Whole("tucks", "Tucks", 1, 20, "2"),
            RunAsks.Width("2 in"),
            .. AskedTucks.Apart("1 in"),
            Ask.Plain("lead", "Plain below", "2 in", "Seen from the finished hem to the fold of the lowest tuck."),
            Ask.Plain("trail", "Plain above", "20 in", "Seen from the stitching of the highest to the waist."),
            RunAsks.LiesAsk(hanging: true), RunAsks.Centre,
            RunAsks.FinishedAtMost, RunAsks.ClothAtMost, RunAsks.Strip,
        ],
        Example = """{"tucks":2,"width":"2 in","space":"1 in","lead":"3 in","trail":"22 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (tucks, width) = (asked.Whole("tucks"), asked.Length("width"));
        var spacing = RunAsks.ApartOf(asked);
        var plan = RunAsks.Plan(asked, Lies.TowardsStart, [new(tucks, width, spacing)], [], RunAsks.Alike);
        RunLimits.Check(asked, plan, (plan.Lines[0].Half is null ? 1 : 2) * (tucks - 1));
        var answer = new Answer(asked.Unit).Tell(plan).Figure("longerBy", "Cut the skirt longer by", plan.TakeUp);
        if (width < Least)
        {
            answer.Caution("narrow-for-nuns", T($"Tucks of {asked.Show(width)} are not often called nun's tucks: from about {asked.Show(Least)}."));
        }

        return answer
            .Note("Nun's tucks are usually 2 inches or more wide.", "Butterick, The New Dressmaker (1921), ch. 20 p. 97")
            .Note("Another book lets tucks in general go up to a couple of inches only.", "Woolman, A Sewing Course for Teachers, no. 34")
            .Note("This is for a straight edge. Round a curved hem the fold and the stitching lines differ in length, and the under side must be eased.", "Butterick, The New Dressmaker (1921), ch. 20 p. 97")
            .DrawnRun(plan);
    }
}
