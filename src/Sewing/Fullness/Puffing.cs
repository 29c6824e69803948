using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>Puffing: a strip gathered on both edges, or a puffed ruffle of doubled cloth.</summary>
public static class Puffing
{
    /// <summary>Depth to cut of a puffing strip: what is seen, its rise, and a heading and a turning on both edges. Exact.</summary>
    public static Length StripDepth(Length seen, Length rise, Length heading, Length turning) => seen + rise + (2 * (heading + turning));

    /// <summary>Depth to cut of a puff ruffle: twice its width and its heading.</summary>
    /// <remarks>The New Dressmaker (1921), p. 142, with a heading of 2 in.</remarks>
    public static Length RuffleDepth(Length width, Length heading) => (2 * width) + heading;

    internal static Sum Sum { get; } = new()
    {
        Slug = "puffing",
        Shelf = Shelf.Fullness,
        Title = "Puffing",
        Lead = "What to cut for a puffing strip gathered on both edges, or for a puffed ruffle of doubled cloth.",
        Asks =
        [
            .. Gathered.Asks,
            Ask.Choice("kind", "What kind", "", ("strip", "Puffing strip, gathered on both edges"), ("puff-ruffle", "Puffed ruffle of doubled cloth")).Optional(),
            Ask.Above("width", "Finished width", "1 1/2 in", "Between the two rows of gathers."),
            Ask.Plain("rise", "To puff out", "1/4 in", "Added across the strip so that it stands up; none if it lies flat."),
            Ask.Plain("heading", "Heading", "1/4 in", "Of a strip: beyond each row of gathers. Of a puffed ruffle: all that it takes; 2 in when left out."),
            Ask.Plain("turning", "Turning", "1/8 in", "Raw edge of each heading turned under, or left to be set in."),
            .. Strips.Asks,
        ],
        Example = """{"finished":"14 in","fullness":2,"width":"1 1/2 in","rise":"1/4 in","heading":"1/4 in","turning":"1/8 in","loom":"45 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var ruffle = asked.Text("kind") == "puff-ruffle";
        var gathered = Gathered.Read(asked, 1.5m);
        var (width, rise, turning) = (asked.Length("width"), asked.Length("rise"), asked.Length("turning"));
        asked.Check(!ruffle || (rise == Length.Zero && turning == Length.Zero), rise == Length.Zero ? "turning" : "rise", "A puffed ruffle is its width doubled and a heading: rise and turning belong to a puffing strip. Leave it out.");
        asked.Throw();
        var heading = asked.LengthOrNull("heading") ?? (ruffle ? Length.FromSixtyFourthsOfInch(128) : Length.Zero);
        var cut = ruffle ? RuffleDepth(width, heading) : StripDepth(width, rise, heading, turning);
        var answer = new Answer(asked.Unit).Figure("cutDepth", "Cut depth", cut, ruffle ? "twice the width and the heading" : "width, rise, two headings and two turnings");
        gathered.Add(answer);
        Strips.Add(asked, answer, gathered.Flat, cut);
        if (!asked.Has("fullness") && !(asked.Has("finished") && asked.Has("flat")))
        {
            answer.Note("No fullness was given: 1 1/2 is taken, the most that is given for a straight ruffle; fine lawn may take twice.", "Baldt, Clothing for Women (1916), for ruffles; puffing itself is common practice");
        }

        if (ruffle)
        {
            answer.Note("A puff ruffle is cut twice its width and 2 in more for the heading.", "The New Dressmaker (1921), p. 142");
        }
        else
        {
            answer.Note("Both edges are gathered to the same length and marked in quarters, so that the gathers run straight across.", "Common practice.");
        }

        UsualFullness.AddTable(answer, gathered.Finished);
        return answer.Drawn(T($"Across the strip as it is cut, {asked.Show(cut)}, with its rows of gathers; below, the flat length and the length drawn up."),
            Across(asked, cut, ruffle ? [heading] : [heading + turning, heading + turning + width + rise]), gathered.Picture(asked, 1));
    }

    private static Panel Across(Asked asked, Length cut, IReadOnlyList<Length> rows)
    {
        var sketch = new Sketch(34);
        var scale = sketch.ScaleFor(cut);
        sketch.Box(Sketch.Margin, 13, sketch.Room, 14, Ink.Cloth).Across(Sketch.Margin, Sketch.Margin + sketch.Room, 10, T($"cut {asked.Show(cut)} across"));
        for (var i = 0; i < rows.Count; i++)
        {
            var x = Sketch.Margin + (rows[i].Mm() * scale);
            sketch.Line(x, 13, x, 27, Ink.Stitching)
                .Text(i == 0 ? Sketch.Margin : Sketch.PageWidth - Sketch.Margin, 31, T($"gathers at {asked.Show(rows[i])}"), Ink.StitchNumber, 2.4, i == 0 ? Anchor.Start : Anchor.End);
        }

        return sketch.Panel();
    }
}
