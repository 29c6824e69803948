using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>What <see cref="LaceShape"/> asks and answers.</summary>
internal static class LaceShapeSum
{
    private const int MostDrawn = 60;
    private const int Slimmest = 50;

    public static Sum Sum { get; } = new()
    {
        Slug = "lace-diamonds",
        Shelf = Shelf.Lace,
        Title = "Diamonds and zigzags of insertion",
        Lead = "The sides and mitres of diamonds, squares on point or a zigzag made of straight insertion, and how much insertion they take.",
        Asks =
        [
            Ask.Choice("shape", "Shape", "", ("diamond", "diamonds, point to point"), ("square", "squares set on point"), ("zigzag", "a zigzag")),
            Ask.Above("width", "Width of one repeat", "4 in", "Over the outer edges; of a zigzag from one point to the next on the same side."),
            Ask.Above("height", "Height", "6 in", "Over the outer edges. A square is as high as wide: leave it out.").Optional(),
            Ask.Above("insertion", "Width of the insertion", "1/2 in"),
            Ask.Whole("repeats", "Repeats", 1, 500, "5").Optional(),
            Ask.Choice("mitre", "The mitres are", "", ("folded", "folded from one strip"), ("cut", "cut and seamed, each side by itself")).Optional(),
            Ask.Plain("seam", "Kept beyond a cut mitre", "1/8 in", "Straight across it; only where the mitres are cut."),
            LaceCare.Ends,
        ],
        Example = """{"shape":"diamond","width":"4 in","height":"6 in","insertion":"1/2 in","repeats":5,"ends":"1/4 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (kind, cut, repeats, seam, ends) = (asked.Text("shape"), asked.Text("mitre") == "cut", asked.Whole("repeats", 1), asked.Length("seam"), asked.Length("ends"));
        var width = asked.Length("width");
        asked.Check(kind == "square" || asked.Has("height"), "height", "How high is it over the outer edges? Only a square may leave it out.");
        asked.Check(kind != "square" || !asked.Has("height") || asked.Length("height") == width, "height", T($"A square set on point is as high as wide: {asked.Show(width)}, or leave it out."));
        asked.Check(cut || seam == Length.Zero, "seam", "A folded mitre needs no seam: leave it out, or say that the mitres are cut.");
        asked.Throw();
        var height = asked.LengthOrNull("height") ?? width;
        asked.Check(height <= Slimmest * width && width <= Slimmest * height, "height", T($"{asked.Show(height)} high by {asked.Show(width)} wide is too slim a shape: one may be at most {Slimmest} times the other."));
        asked.Throw();
        var shape = new LaceShape(width, height, asked.Length("insertion"), kind == "zigzag");
        asked.Check(shape.Insertion < shape.Widest, "insertion", T($"Insertion of {asked.Show(shape.Insertion)} fills the shape: it must be narrower than {asked.Show(shape.Widest)}."));
        asked.Throw();
        var strips = shape.Zigzag ? 1 : repeats;
        var lace = cut ? repeats * shape.Sides * shape.CutSide(seam) : shape.Folded(repeats) + (strips * 2 * ends);
        var answer = new Answer(asked.Unit)
            .Figure("lace", "Insertion to cut", lace, cut ? T($"{asked.Show(seam)} beyond each mitre in it") : LaceCare.Holds(asked, ends, strips > 1 ? "each repeat from its own strip" : ""))
            .Figure("eachRepeat", "Of it each repeat", cut ? shape.Sides * shape.CutSide(seam) : shape.Zigzag ? shape.Folded(1) : shape.Folded(1) + (2 * ends), shape.Zigzag && !cut ? "ends not in it" : "allowances in it")
            .Figure("side", shape.Zigzag ? "A leg from point to point" : "A side, outer edge", shape.Side)
            .Figure("innerSide", "A side, inner edge", shape.Zigzag ? null : shape.InnerSide, shape.Zigzag ? "both edges of a leg are equal" : "")
            .Figure("sides", "Sides in all", repeats * shape.Sides)
            .Figure("mitres", "Mitres in all", shape.Zigzag ? (2 * repeats) - 1 : 4 * repeats)
            .Figure("pointMitre", "Along the mitre above and below", shape.PointMitre)
            .Figure("sideMitre", "Along the mitre at the sides", shape.Zigzag ? null : shape.SideMitre)
            .Figure("pointAngle", "Angle at the points above and below, degrees", Degrees(Math.PI - (2 * shape.Slope)))
            .Figure("over", "All repeats across", repeats * shape.Width);
        if (cut)
        {
            answer.Figure("sideToCut", "Each side, to cut", shape.CutSide(seam), T($"{asked.Show(seam)} beyond both mitres in it"));
        }

        return answer
            .Note("The sides are those of right-angled triangles of half the width and half the height, the mitres halve the angles: plain geometry.")
            .Note(shape.Zigzag
                ? "Folded, the strip turns over at each point and needs the slant of the fold as well. A leg's two edges are equal."
                : "Folded, the outer edge of the strip runs round the shape; what the inner edge has too much lies in the mitres.")
            .Note("Draw the shape on the cloth or on paper, baste the lace to the drawing, fold the mitres, and sew before you cut anything away behind: common practice.")
            .LayOutFirst()
            .Drawn(T($"{Math.Min(repeats, MostDrawn)} repeats of {asked.Show(shape.Width)} by {asked.Show(shape.Height)} in insertion of {asked.Show(shape.Insertion)}."), Picture(asked, shape, Math.Min(repeats, MostDrawn)));
    }

    private static decimal Degrees(double radians) => decimal.Round((decimal)(radians * 180 / Math.PI), 2);

    private static Panel Picture(Asked asked, LaceShape shape, int repeats)
    {
        var (w, h) = (shape.Width.Mm(), shape.Height.Mm());
        var sketch = new Sketch(90);
        var to = new Scaled([(0, 0), (repeats * w, h)], Sketch.Margin, 12, sketch.Room, 62);
        for (var i = 0; i < repeats; i++)
        {
            var (x, point) = (i * w, shape.PointMitre.Mm());
            if (shape.Zigzag)
            {
                sketch.Area(to.At([(x, h - point), (x + (w / 2), 0), (x + w, h - point), (x + w, h), (x + (w / 2), point), (x, h)]), Ink.Lace)
                    .Path(to.At([(x + (w / 2), 0), (x + (w / 2), point)]), Ink.Fold).Path(to.At([(x + w, h - point), (x + w, h)]), Ink.Fold);
                continue;
            }

            var side = shape.SideMitre.Mm();
            (double X, double Y)[] outer = [(x + (w / 2), 0), (x + w, h / 2), (x + (w / 2), h), (x, h / 2)];
            (double X, double Y)[] inner = [(x + (w / 2), point), (x + w - side, h / 2), (x + (w / 2), h - point), (x + side, h / 2)];
            sketch.Area(to.At(outer), Ink.Lace).Area(to.At(inner), Ink.Cloth);
            for (var corner = 0; corner < 4; corner++)
            {
                sketch.Path(to.At([outer[corner], inner[corner]]), Ink.Fold);
            }
        }

        sketch.Across(to.At(0, 0).X, to.At(w, 0).X, 9, asked.Show(shape.Width));
        return sketch.Text(90, 84, T($"{asked.Show(shape.Height)} high; lines across the insertion: mitres"), Ink.Caption).Panel();
    }
}
