using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Laces;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;
using static HeirloomArchive.Outside.Tests.Asking;
using GeometricShapeFactory = NetTopologySuite.Utilities.GeometricShapeFactory;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Lace and insertion against printed figures, and their geometry against NetTopologySuite (BSD-3), an independent library.</summary>
public class LaceTests
{
    private static readonly GeometryFactory Draw = new();

    // McGlauflin, Handicraft for Girls (c. 1910), and Hapgood, School Needlework: twice the width at each corner. The square of 12 in is worked from them.
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("1", "56 in")]
    [InlineData("1.5", "80 in")]
    public void A_square_with_lace_round_it_takes_its_edge_and_twice_the_width_at_each_corner(string ratio, string lace) =>
        Assert.Equal(lace, Text(Of("lace-edging", $$"""{"sides":["12 in","12 in","12 in","12 in"],"width":"1 in","ratio":{{ratio}},"round":true}""")["lace"]));

    // McGlauflin: for an edge as long as the lace is wide, each side of the corner gets 2 w plain, and 2 1/2 w with half as much again for fullness.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("1", "4 in")]
    [InlineData("1.5", "5 in")]
    public void McGlauflins_corner_gets_two_or_two_and_a_half_widths_on_each_side(string ratio, string bothSides) =>
        Assert.Equal(bothSides, Text(Of("lace-edging", $$"""{"sides":["1 in","1 in"],"width":"1 in","ratio":{{ratio}}}""")["lace"]));

    // McGlauflin: half the length again for fullness is her worked case.
    [Fact]
    [Trait("sure", "read")]
    public void Half_as_much_again_is_taken_where_nothing_is_said() =>
        Assert.Equal("30 in", Text(Of("lace-edging", """{"sides":["20 in"],"width":"1 in"}""")["lace"]));

    // McGlauflin: divide in halves, quarters, eighths. 20 in of edge and 30 in of lace: 2 1/2 and 3 3/4 in, worked from it.
    [Fact]
    [Trait("sure", "derived")]
    public void Eighths_of_edge_and_lace_are_marked_on_both()
    {
        var marks = Of("lace-edging", """{"sides":["20 in"],"width":"1 in"}""")["marks"]!.AsArray();
        Assert.Equal(("2 1/2 in", "3 3/4 in"), (Text(marks[1]!["edge"]), Text(marks[1]!["lace"])));
        Assert.Equal(["start", "1/8", "1/4", "3/8", "half", "5/8", "3/4", "7/8", "end"], marks.Select(m => (string)m!["place"]!));
    }

    // A rectangle of 10 by 14 in, lace 2 in: 48 + 16 = 64 in, the same as McGlauflin's twice the width at each corner.
    [Fact]
    [Trait("sure", "derived")]
    public void A_mitred_rectangle_takes_its_edge_and_eight_widths() =>
        Assert.Equal("64 in", Text(Of("mitred-lace", """{"sides":[{"length":"10 in","turn":90},{"length":"14 in","turn":90},{"length":"10 in","turn":90},{"length":"14 in","turn":90}],"width":"2 in","round":true}""")["lace"]));

    // Burton, School Sewing (1916), pars 146-147, and McGlauflin: the mitre of a square corner lies at 45 degrees. Its length is worked out: 1.41421 for 1 in.
    [Fact]
    [Trait("sure", "read")]
    public void Burtons_mitre_lies_at_forty_five_degrees()
    {
        var corner = Of("mitred-lace", """{"sides":[{"length":"10 in","turn":90},{"length":"14 in"}],"width":"1 in"}""")["corners"]![0]!;
        Assert.Equal(45m, (decimal)corner["mitreAngle"]!);
        Assert.Equal(1.41421, Inches(corner["mitre"]), 5e-6);
    }

    // Burton, the same: trim to 1/16 in from the basting.
    [Fact]
    [Trait("sure", "read")]
    public void Burtons_trim_is_told_with_its_source() =>
        Assert.Contains(Of("mitred-lace", """{"sides":[{"length":"10 in"}],"width":"1 in"}""")["notes"]!.AsArray(),
            n => ((string)n!["text"]!).Contains("1/16 in", StringComparison.Ordinal) && ((string)n["source"]!).Contains("Burton", StringComparison.Ordinal));

    // NetTopologySuite: outlines offset outwards and inwards with mitred corners; one with a corner turning inwards among them.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("90:10,90:14,90:10,90:14")]
    [InlineData("60:9,60:9,60:9,60:9,60:9,60:9")]
    [InlineData("120:20,120:20,120:20")]
    [InlineData("143.130102354155979:12,126.869897645844021:15,90:9")]
    [InlineData("90:20,90:12,-90:8,90:8,90:12,90:20")]
    public void Mitred_edges_are_as_long_as_an_independent_librarys_offset(string outline)
    {
        var sides = outline.Split(',').Select(s => s.Split(':')).Select(s => new MitredSide(Read(s[1] + " in"), decimal.Parse(s[0], System.Globalization.CultureInfo.InvariantCulture))).ToList();
        var edge = Walked(sides);
        var outside = new MitredLace(sides, Read("1 1/2 in"), Within: false, Length.Zero, Length.Zero);
        Assert.Equal(Offset(edge, 1.5).Length, Inches(outside.Free), 1e-6);
        Assert.Equal(Offset(edge, -1.5).Length, Inches((outside with { Within = true }).Free), 1e-6);
    }

    // NetTopologySuite: arcs drawn with many points.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("4 in", 90)]
    [InlineData("2 1/2 in", 217)]
    [InlineData("36 in", 12)]
    [InlineData("5 in", 360)]
    public void Shaped_lace_is_as_long_as_an_independent_librarys_arcs(string radius, int degrees)
    {
        var outside = new ShapedLace(Read(radius), degrees, Read("1 in"), Inside: false);
        var inside = outside with { Inside = true };
        Assert.Equal(Arc(Inches(Read(radius)) + 1, degrees).Length, Inches(outside.Outer), 1e-6);
        Assert.Equal(Arc(Inches(Read(radius)), degrees).Length, Inches(outside.Inner), 1e-6);
        Assert.Equal(Arc(Inches(Read(radius)) - 1, degrees).Length, Inches(inside.Inner), 1e-6);
    }

    // NetTopologySuite: a diamond offset inwards with mitred corners has the inner edges.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("4 in", "6 in", "1/2 in")]
    [InlineData("5 in", "5 in", "3/4 in")]
    [InlineData("9 in", "4 in", "5/8 in")]
    public void A_diamonds_edges_are_those_an_independent_library_offsets(string width, string height, string insertion)
    {
        var (w, h, i) = (Inches(Read(width)), Inches(Read(height)), Inches(Read(insertion)));
        var shape = new LaceShape(Read(width), Read(height), Read(insertion), Zigzag: false);
        var diamond = Polygon((w / 2, 0), (w, h / 2), (w / 2, h), (0, h / 2));
        Assert.Equal(diamond.Length, Inches(shape.Folded(1)), 1e-6);
        Assert.Equal(Offset(diamond, -i).Length, 4 * Inches(shape.InnerSide), 1e-6);
        Assert.Equal(h - (2 * Inches(shape.PointMitre)), Offset(diamond, -i).EnvelopeInternal.Height, 1e-6);
        Assert.Equal(w - (2 * Inches(shape.SideMitre)), Offset(diamond, -i).EnvelopeInternal.Width, 1e-6);
    }

    // NetTopologySuite: the middle line of a zigzag thickened with mitred corners; its legs are found again from the height over all.
    [Theory]
    [Trait("sure", "read")]
    [InlineData(4, 3, 0.5)]
    [InlineData(3, 6, 0.75)]
    [InlineData(8, 2, 0.25)]
    public void A_zigzags_legs_are_found_again_from_an_independent_librarys_outline(double repeat, double rise, double insertion)
    {
        var middle = Draw.CreateLineString([.. Enumerable.Range(0, 7).Select(k => new Coordinate(k * repeat / 2, k % 2 * rise))]);
        var band = middle.Buffer(insertion / 2, new BufferParameters(8, EndCapStyle.Flat, JoinStyle.Mitre, 50));
        var shape = new LaceShape(Wide(repeat), Wide(band.EnvelopeInternal.Height), Wide(insertion), Zigzag: true);
        Assert.Equal(middle.Length / 6, Inches(shape.Side), 1e-6);
    }

    // NetTopologySuite: a scallop drawn as an arc is as long, as wide and as deep.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("72 in", 36, "1/2 in")]
    [InlineData("20 in", 7, "1 in")]
    [InlineData("100 in", 200, "1/16 in")]
    public void A_scallop_is_as_long_wide_and_deep_as_an_independent_librarys_arc(string length, int count, string depth)
    {
        var edge = new ScallopedEdge(Read(length), count, Read(depth));
        var radius = Inches(edge.Radius);
        var degrees = 360 / Math.PI * Math.Acos(1 - (Inches(Read(depth)) / radius));
        var arc = Arc(radius, degrees, 90 - (degrees / 2));
        Assert.Equal(arc.Length * count, Inches(edge.Along), 1e-4);
        Assert.Equal(arc.EnvelopeInternal.Width, Inches(edge.Width), 1e-6);
        Assert.Equal(arc.EnvelopeInternal.Height, Inches(edge.Depth), 1e-6);
    }

    // Butterick, The New Dressmaker (1921), ch. 27: narrow insertion over a slit, wide with the cloth cut away and a seam left. Worked: 3/4 in let in with turnings of 1/4 in adds 1/4 in.
    [Fact]
    [Trait("sure", "derived")]
    public void Insertion_laid_on_keeps_the_size_and_let_in_adds_a_quarter_inch()
    {
        var set = new InsertionSet(Read("20 in"), 1, Read("3/4 in"), Length.Zero, Read("1/4 in"));
        Assert.Equal((Read("20 in"), Read("20 1/4 in")), (set.LaidOn, set.LetIn));
    }

    // Three strips of 1/2 in and four bands of 1 1/4 in joined edge to edge: 6 1/2 in. Common practice.
    [Fact]
    [Trait("sure", "derived")]
    public void Three_strips_and_four_bands_make_six_inches_and_a_half() =>
        Assert.Equal("6 1/2 in", Text(Of("insertion", """{"panel":"20 in","strips":3,"width":"1/2 in","length":"10 in","bands":["1 1/4 in","1 1/4 in","1 1/4 in","1 1/4 in"]}""")["joined"]));

    // The Workwoman's Guide (1838): a roll of about ten threads; on cloth of 40 threads in a centimetre that is 2.5 mm, worked from it.
    [Fact]
    [Trait("sure", "derived")]
    public void The_workwomans_roll_of_ten_threads_is_two_and_a_half_millimetres() =>
        Assert.Equal("2.5 mm", Text(Of("roll-and-whip", """{"threads":40,"over":"10 mm","finished":"150 mm","edges":2}""")["roll"]));

    // Dillmont, Encyclopedia of Needlework (1886): the first turn of a hem no more than 2 mm.
    [Fact]
    [Trait("sure", "read")]
    public void Dillmonts_turn_of_two_millimetres_stands_beside_it() =>
        Assert.Equal("2 mm", Text(Of("roll-and-whip", """{"threads":40,"over":"10 mm","finished":"150 mm","edges":2}""")["usual"]![1]!["amount"]));

    private static Polygon Walked(IReadOnlyList<MitredSide> sides)
    {
        var (x, y, heading) = (0.0, 0.0, 0.0);
        var corners = new List<(double, double)>();
        foreach (var side in sides)
        {
            corners.Add((x, y));
            (x, y) = (x + (Inches(side.Length) * Math.Cos(heading)), y + (Inches(side.Length) * Math.Sin(heading)));
            heading += (double)side.Turn * Math.PI / 180;
        }

        Assert.Equal(0, Math.Abs(x) + Math.Abs(y), 1e-9);
        return Polygon([.. corners]);
    }

    private static Geometry Offset(Geometry shape, double by) => shape.Buffer(by, new BufferParameters(8, EndCapStyle.Flat, JoinStyle.Mitre, 50));

    private static LineString Arc(double radius, double degrees, double from = 0)
    {
        var shapes = new GeometricShapeFactory(Draw) { Centre = new Coordinate(0, 0), Size = 2 * radius, NumPoints = 40_001 };
        return shapes.CreateArc(from * Math.PI / 180, degrees * Math.PI / 180);
    }

    private static Polygon Polygon(params (double X, double Y)[] corners) =>
        Draw.CreatePolygon([.. corners.Append(corners[0]).Select(c => new Coordinate(c.X, c.Y))]);

    private static Length Wide(double inches) => Length.FromNanometres((long)Math.Round(inches * 25_400_000));
}
