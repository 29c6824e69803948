using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>What <see cref="CuttingOrder"/> asks and answers.</summary>
internal static class CuttingOrderSum
{
    private const int MostPieces = 200;

    public static Sum Sum { get; } = new()
    {
        Slug = "cutting-order",
        Shelf = Shelf.Cloth,
        Title = "Cutting order on the cloth",
        Lead = "How the pieces lie on the straight grain, how much cloth they need, and in which order to cut them.",
        Asks =
        [
            Ask.Above("loom", "Width of the cloth", "36 in", "From edge to edge."),
            Ask.Plain("selvage", "Selvage left at each side", "1/4 in"),
            Ask.Rows("pieces", "Pieces", 1, 30, "Each as a rectangle with its seams and turnings in it.",
                Ask.Text("name", "Piece", "front"),
                Ask.Above("length", "Length, along the selvage", "20 in"),
                Ask.Above("width", "Width, across", "14 in"),
                Ask.Whole("count", "How many", 1, 100, "2").Optional()),
        ],
        Example = """
            {"loom":"36 in","selvage":"1/4 in","pieces":[{"name":"skirt breadth","length":"30 in","width":"35 in","count":2},
             {"name":"front","length":"12 in","width":"14 in"},{"name":"back","length":"12 in","width":"9 in","count":2},
             {"name":"sleeve","length":"10 in","width":"12 in","count":2},{"name":"neck band","length":"12 in","width":"1 1/2 in"}]}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var usable = asked.Length("loom") - (2 * asked.Length("selvage"));
        asked.Check(usable > Length.Zero, "selvage", T($"Two selvages of {asked.Show(asked.Length("selvage"))} use up the cloth of {asked.Show(asked.Length("loom"))}: each must be less than half of it."));
        asked.Throw();
        var pieces = asked.Rows("pieces");
        foreach (var piece in pieces)
        {
            piece.Check(piece.Length("width") <= usable, "width",
                T($"{asked.Show(piece.Length("width"))} is wider than the {asked.Show(usable)} between the selvages: join breadths for it."));
        }

        var count = pieces.Sum(p => p.Whole("count", 1));
        asked.Check(count <= MostPieces, "pieces", T($"{count} pieces are too many to lay at once: at most {MostPieces}."));
        asked.Throw();
        var order = CuttingOrder.Lay(usable, pieces.Select(p => new CutPiece(p.Text("name"), p.Length("length"), p.Length("width"), p.Whole("count", 1))));
        return new Answer(asked.Unit)
            .Figure("cloth", "Cloth needed, along the selvage", order.Cloth, "seams and turnings only as you gave them")
            .Figure("rows", "Rows across the cloth", order.Laid.Max(l => l.Row))
            .Figure("covered", "Covered by pieces, per cent", order.Covered)
            .Figure("least", "Less than this no layout can need", order.Least)
            .Table("order", "Lay and cut in this order",
                [new("number", "Number"), new("name", "Piece"), new("row", "Row"), new("fromEnd", "From the cut end"), new("fromEdge", "From the selvage"), new("length", "Length"), new("width", "Width")],
                order.Laid.Select((l, i) => (IReadOnlyList<object?>)[i + 1, l.Piece.Name, l.Row, l.FromEnd, l.FromEdge, l.Piece.Length, l.Piece.Width]))
            .Note("Every piece lies with its length along the selvage, on the straight grain; none is turned. Longest first, each into the first row that has room: a better layout may exist, above all with shaped pieces that fit into each other.")
            .Note("Wash and press the cloth first, straighten its end by a drawn thread, and lay all pieces before you cut one. Cut the long pieces first, the small ones from what is left: common practice.")
            .Drawn(N(
                count,
                $"{count} piece on {asked.Show(order.Cloth)} of cloth; the selvages run along the upper and lower edge.",
                $"{count} pieces on {asked.Show(order.Cloth)} of cloth; the selvages run along the upper and lower edge."), Picture(asked, order));
    }

    private static Panel Picture(Asked asked, CuttingOrder order)
    {
        (double X, double Y)[] cloth = [(0, 0), (order.Cloth.Mm(), order.Usable.Mm())];
        var sketch = new Sketch(110);
        var to = new Scaled(cloth, Sketch.Margin, 12, sketch.Room, 84);
        var (left, top) = to.At(0, 0);
        sketch.Box(left, top, order.Cloth.Mm() * to.By, order.Usable.Mm() * to.By, Ink.Allowance);
        foreach (var (laid, i) in order.Laid.Select((l, i) => (l, i)))
        {
            var (x, y) = to.At(laid.FromEnd.Mm(), laid.FromEdge.Mm());
            var (length, width) = (laid.Piece.Length.Mm() * to.By, laid.Piece.Width.Mm() * to.By);
            sketch.Box(x, y, length, width, Ink.Cloth).Path([(x, y), (x + length, y), (x + length, y + width), (x, y + width), (x, y)], Ink.CutEdge);
            if (length > 5 && width > 3)
            {
                sketch.Text(x + (length / 2), y + (width / 2) + 1, $"{i + 1}");
            }
        }

        return sketch.Across(left, left + (order.Cloth.Mm() * to.By), 9, asked.Show(order.Cloth)).Text(90, 106, T("grain along the selvage, from left to right"), Ink.Caption).Panel();
    }
}
