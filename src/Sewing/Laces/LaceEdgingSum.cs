using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>What <see cref="LaceEdging"/> asks and answers.</summary>
internal static class LaceEdgingSum
{
    public static Sum Sum { get; } = new()
    {
        Slug = "lace-edging",
        Shelf = Shelf.Lace,
        Title = "Lace edging, straight or gathered",
        Lead = "How much lace an edge takes, straight or gathered, with its corners, and where to mark lace and edge so that the fullness is even.",
        Asks =
        [
            Ask.Lengths("sides", "Edge, from corner to corner", 1, 40, "12 in", "One length for a straight or a round edge; one for each side where there are corners."),
            Ask.Above("width", "Width of the lace", "1 in"),
            Ask.Number("ratio", "Lace for each length of edge", 1, 5, "1.5", "1 puts it on straight. Left out: 1 1/2, as in the books.").Optional(),
            Ask.Flag("round", "The end meets the start", "A handkerchief, a cuff, a hem all round."),
            Ask.Above("stitch", "Lace taken by one gather", "1/8 in", "From one gather to the next along the lace; then the gathers are counted.").Optional(),
            LaceCare.Ends,
        ],
        Example = """{"sides":["12 in","12 in","12 in","12 in"],"width":"1 in","ratio":1.5,"round":true,"stitch":"1/8 in","ends":"1/2 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var edging = new LaceEdging(asked.Lengths("sides"), asked.Length("width"), asked.Number("ratio", LaceEdging.UsualRatio), asked.Flag("round"), asked.Length("ends"));
        var answer = new Answer(asked.Unit)
            .Figure("lace", "Lace to cut", edging.Lace, LaceCare.Holds(asked, edging.Ends, T($"{asked.Show(edging.AtCorners)} for corners")))
            .Figure("edge", "Edge in all", edging.Edge)
            .Figure("ratio", "Lace for each length of edge", edging.Ratio, asked.Has("ratio") ? "" : "not given: the usual half as much again")
            .Figure("fullness", "Taken up by fullness", edging.Edge.Times(edging.Ratio - 1))
            .Figure("corners", "Corners", edging.Corners)
            .Figure("atCorners", "Lace for the corners", edging.AtCorners, "twice its width at each");
        if (asked.LengthOrNull("stitch") is { } stitch)
        {
            var centimetre = Length.FromMillimetres(10);
            answer.Figure("gathersPerCm", "Gathers in 1 cm of edge", decimal.Round(edging.Ratio * centimetre.Nanometres / stitch.Nanometres, 2))
                .Figure("gathersPerInch", "Gathers in 1 in of edge", decimal.Round(edging.Ratio * Length.Inch / stitch.Nanometres, 2))
                .Figure("gathers", "Gathers in all", (edging.Lace - (2 * edging.Ends)).PartsOf(stitch));
        }

        return answer
            .Table("marks", "Mark both and bring the marks together", [new("place", "Where"), new("edge", "On the edge"), new("lace", "On the lace")],
                edging.Marks.Select(m => (IReadOnlyList<object?>)[T(m.Place), m.Edge, m.Lace]))
            .Note("At an outside corner lace needs twice its width more, half of it on each side; a little more is better than less.", "McGlauflin, Handicraft for Girls (c. 1910); Hapgood, School Needlework (1890s)")
            .Note("Gathered lace keeps the fullness of the edge and has the corner's lace beside it. Half as much again is the worked case, and common for heirloom edging.", "McGlauflin, Handicraft for Girls (c. 1910)")
            .Note("Hold the lace loose towards you; divide lace and edge in halves, quarters, eighths before you sew.", "McGlauflin, Handicraft for Girls (c. 1910)")
            .Note("Lace is gathered by the heading thread, if it has one: try it first, an old one breaks.")
            .LayOutFirst()
            .Drawn(T($"{asked.Show(edging.Lace)} of lace below the {asked.Show(edging.Edge)} of edge it goes to, with the marks that meet."), Picture(asked, edging));
    }

    private static Panel Picture(Asked asked, LaceEdging edging)
    {
        var sketch = new Sketch(56);
        var scale = sketch.ScaleFor(edging.Lace);
        double X(Length at) => Sketch.Margin + (at.Mm() * scale);
        sketch.Box(Sketch.Margin, 12, edging.Edge.Mm() * scale, 8, Ink.Cloth).Box(Sketch.Margin, 34, sketch.Room, 8, Ink.Lace);
        foreach (var mark in edging.Marks)
        {
            sketch.Line(X(mark.Edge), 12, X(mark.Edge), 20, Ink.Datum).Line(X(mark.Edge), 20, X(mark.Lace), 34, Ink.FoldFine).Line(X(mark.Lace), 34, X(mark.Lace), 42, Ink.Datum);
        }

        return sketch.Text(Sketch.Margin, 9, T($"edge {asked.Show(edging.Edge)}"), Ink.Caption, anchor: Anchor.Start)
            .Text(Sketch.Margin, 49, T($"lace {asked.Show(edging.Lace)}"), Ink.Caption, anchor: Anchor.Start).Panel();
    }
}
