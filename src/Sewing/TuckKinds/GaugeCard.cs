using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>The notches of a gauge card for equal tucks, each measured from the end of the card.</summary>
/// <param name="Stitching">The width w: stitching from the fold.</param>
/// <param name="NextCrease">2w + s: the next crease from the stitching just sewn, when it is pressed.</param>
/// <param name="FinishedCheck">w + s: stitching to stitching when sewn.</param>
/// <param name="BeforePressing">2w + s + c: the next crease while the tuck is not pressed or the cloth still to shrink; null without a strip.</param>
/// <remarks>Patton, Home and School Sewing (c. 1901), Butterick (1911, 1921) and The Workwoman's Guide (1838) cut the first and the third.</remarks>
public sealed record GaugeCard(Length Stitching, Length NextCrease, Length FinishedCheck, Length? BeforePressing)
{
    /// <summary>The notches for tucks of one width and space; whole nanometres.</summary>
    /// <param name="width">Fold to stitching, above zero.</param>
    /// <param name="space">The plain cloth seen; w + s must be above zero.</param>
    /// <param name="correction">By a test strip, or null.</param>
    public static GaugeCard Of(Length width, Length space, Length? correction = null) =>
        new(width, (2 * width) + space, width + space, (2 * width) + space + correction);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "gauge-card",
        Shelf = Shelf.Tucks,
        Title = "A notched gauge card",
        Lead = "Where to cut the notches of a card that measures every tuck, and how to set an old tucking attachment for the same tucks.",
        Asks =
        [
            RunAsks.Width("3/8 in"),
            .. AskedTucks.Apart("1/4 in"),
            Ask.Above("fromHem", "From the sewing of the hem", "1 in", "To the first line of stitching: gives the first crease.").Optional(),
            RunAsks.Strip,
        ],
        Example = """{"width":"3/8 in","space":"1/4 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var width = asked.Length("width");
        // Planned as two tucks, so that what could not be sewn is refused here as there.
        var plan = RunAsks.Make(asked, new()
        {
            Groups = [new(2, width, RunAsks.ApartOf(asked))], Trail = width, TestStrip = RunAsks.StripOf(asked), Unit = asked.Unit,
        }, path => path == "trail" ? "testStrip" : RunAsks.Alike(path));
        var space = plan.Spacings[0].Space;
        var card = Of(width, space, plan.CorrectionPerTuck);
        asked.Check(card.FinishedCheck > Length.Zero, new[] { "space", "stitchToStitch", "foldToFold" }.First(asked.Has), T($"With {asked.Show(space)} between them the next stitching would not lie beyond the first, and a card has no notch for that: the space must be above {asked.Show(-width)}."));
        asked.Throw();
        var answer = new Answer(asked.Unit)
            .Table("notches", "Notches, from the end of the card", [new("notch", "Notch"), new("at", "At"), new("use", "What it is for")], Notches(card).Select(n => (IReadOnlyList<object?>)[n.Name, n.At, n.Use]))
            .Figure("stitching", "Stitching from the fold", card.Stitching)
            .Figure("nextCrease", "Next crease from the stitching just sewn", card.NextCrease)
            .Figure("finishedCheck", "Stitching to stitching, to check", card.FinishedCheck)
            .Figure("beforePressing", "Next crease, measured before pressing", card.BeforePressing);
        if (asked.LengthOrNull("fromHem") is { } fromHem)
        {
            answer.Figure("firstCrease", "First crease from the sewing of the hem", fromHem + width)
                .Note("The first notch is as far as from the sewing of the hem to the inner sewing of the tuck, and its depth.", "Woolman, A Sewing Course for Teachers, no. 34");
        }

        foreach (var caution in plan.Cautions)
        {
            answer.Caution(caution.Code, caution.Text);
        }

        Attachment(asked, answer, width, space);
        return answer
            .Note("A card is notched at the depth of the tuck, and at depth and space together.", "Patton, Home and School Sewing (c. 1901), ch. XXI; Butterick, The New Dressmaker (1921); The Workwoman's Guide (1838)")
            .Note("Marks at the tuck, twice the tuck, and then the space.", "New Zealand Herald, 9 April 1924, p. 16")
            .Note("Sew two tucks, check them with the finished check, keep the notch that comes right, and check against a table of lines every fifth tuck: small errors add up. Common practice.")
            .Drawn(T($"A card with notches from its left end: {string.Join(", ", Notches(card).Select(n => T($"{n.Name} at {asked.Show(n.At)}")))}."), Picture(asked, card));
    }

    private static List<(string Name, Length At, string Use)> Notches(GaugeCard card)
    {
        List<(string, Length, string)> notches =
        [
            ("1", card.Stitching, T("Lay the end of the card on the fold: stitch here.")),
            ("2", card.NextCrease, T("Lay the end on the stitching just sewn and pressed: crease here for the next tuck.")),
            ("3", card.FinishedCheck, T("Lay the end on one line of stitching: the next must lie here when both are sewn.")),
        ];
        if (card.BeforePressing is { } before)
        {
            notches.Add(("4", before, T("Instead of 2, while the tuck is not pressed or the cloth is still to shrink.")));
        }

        return notches;
    }

    private static void Attachment(Asked asked, Answer answer, Length width, Length space)
    {
        var marks = TuckerMarks.For(width, space);
        var whole = marks.Width == width && marks.Space == space;
        answer.Table("attachment", "An old tucking attachment, the width in eighths and the crease in quarters of an inch",
            [new("widthMark", "Width at"), new("spaceMark", "Space at"), new("width", "Gives tucks of"), new("space", "Gives spaces of"), new("whole", "Just as asked")],
            [[marks.WidthMark, marks.SpaceMark, marks.Width, marks.Space, whole]]);
        answer.Note(
            whole
                ? T($"On an attachment set the width at {marks.WidthMark} and the space at {marks.SpaceMark}: just these tucks. The scale is worked out from one printed instruction sheet: try yours on a scrap.")
                : T($"On an attachment set the width at {marks.WidthMark} and the space at {marks.SpaceMark}: the nearest, tucks of {asked.Show(marks.Width)} with spaces of {asked.Show(marks.Space)}. The scale is worked out from one printed instruction sheet: try yours on a scrap."),
            TuckerMarks.Source);
    }

    private static Panel Picture(Asked asked, GaugeCard card)
    {
        var sketch = new Sketch(46);
        var notches = Notches(card).OrderBy(n => n.At).ToList();
        var longest = notches[^1].At + card.Stitching;
        var scale = sketch.ScaleFor(longest);
        const double top = 10, bottom = 26;
        List<(double, double)> edge = [(Sketch.Margin, bottom), (Sketch.Margin, top)];
        foreach (var x in notches.Select(n => X(n.At)).Distinct())
        {
            edge.AddRange([(x - 1.2, top), (x, top + 3), (x + 1.2, top)]);
        }

        edge.AddRange([(Sketch.Margin + sketch.Room, top), (Sketch.Margin + sketch.Room, bottom)]);
        sketch.Area(edge, Ink.Cloth);
        var row = 0;
        foreach (var (name, at, _) in notches)
        {
            sketch.Line(X(at), top + 3, X(at), top + 6, Ink.Datum).Text(X(at), top - 2 - (row % 2 * 3.2), name)
                .Across(Sketch.Margin, X(at), bottom + 5 + (4.4 * row++), asked.Show(at));
        }

        return sketch.Panel();

        double X(Length at) => Sketch.Margin + (at.Mm() * scale);
    }
}
