using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Cloth;
using NetTopologySuite.Geometries;
using static HeirloomArchive.Outside.Tests.Asking;
using GeometricShapeFactory = NetTopologySuite.Utilities.GeometricShapeFactory;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Flare, breadths, bias and hems against printed figures, and their geometry against NetTopologySuite (BSD-3), an independent library.</summary>
public class ClothTests
{
    private static readonly GeometryFactory Draw = new();

    // The circle's own numbers: waist over 2π, π and half of it; hem = waist + 2πfL. Worked by hand for a waist of 24 in and a length of 30 in.
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("1", 3.8197, 212.496)]
    [InlineData("0.5", 7.6394, 118.248)]
    [InlineData("0.25", 15.2789, 71.124)]
    public void A_circular_skirts_radius_and_hem_are_the_circles(string part, double waistRadius, double hem)
    {
        var answer = Of("circular-tucks", $$"""{"waist":"24 in","part":{{part}},"length":"30 in","tucks":1,"width":"1/4 in","fromHem":"2 in"}""");
        Assert.Equal(waistRadius, Inches(answer["waistRadius"]), 5e-5);
        Assert.Equal(hem, Inches(answer["hem"]), 5e-4);
    }

    // Butterick, The New Dressmaker (1921), ch. 20: curved tucks are fuller beneath and eased. The amounts: 2π for 1 in on a full circle to the fold, 4π to the lower line; half on a half circle.
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("1", 6.283, 12.566)]
    [InlineData("0.5", 3.1416, 6.283)]
    public void A_tuck_round_a_circle_is_fuller_beneath_by_its_width_times_the_angle(string part, double fold, double lower)
    {
        var line = Of("circular-tucks", $$"""{"waist":"24 in","part":{{part}},"length":"30 in","tucks":1,"width":"1 in","fromHem":"3 in"}""")["lines"]![0]!;
        Assert.Equal(fold, Inches(line["fold"]) - Inches(line["upper"]), 1e-3);
        Assert.Equal(lower, Inches(line["ease"]), 1e-3);
    }

    // NetTopologySuite: circles drawn with many points about the same centre.
    [Theory]
    [Trait("sure", "read")]
    [InlineData(0.25)]
    [InlineData(0.6)]
    [InlineData(1)]
    public void Every_stitching_line_is_as_long_as_an_independent_librarys_arc(double part)
    {
        var piece = new CircularTucks(Read("24 in"), (decimal)part, Read("30 in"), Read("3 in"), 4, Read("1/2 in"), Read("1/4 in"));
        Assert.All(piece.Lines, line =>
        {
            Assert.Equal(Arc(line.LowerRadius, 360 * part), (double)line.Lower.Millimetres, 1e-3);
            Assert.Equal(Arc(line.FoldRadius, 360 * part), (double)line.Fold.Millimetres, 1e-3);
            Assert.Equal(Arc(line.UpperRadius, 360 * part), (double)line.Upper.Millimetres, 1e-3);
        });
        Assert.All(piece.Bands, band => Assert.Equal(Arc(band.OuterRadius, 360 * part), (double)band.Outer.Millimetres, 1e-3));
    }

    // A gore of 4 and 10 in, 30 in high, is 6 in wide 10 in down: worked by hand.
    [Fact]
    [Trait("sure", "derived")]
    public void A_gore_of_four_and_ten_inches_is_six_wide_ten_inches_down() =>
        Assert.Equal(Read("6 in"), new GoredTucks(1, Read("4 in"), Read("10 in"), Read("30 in"), Read("3 in"), 1, Read("1 in"), Read("0 in")).At(Read("20 in")));

    // A gore that widens 0.2 in in each inch has 2 × 1 × 0.2 = 0.4 in to ease in a tuck of 1 in: worked by hand.
    [Fact]
    [Trait("sure", "derived")]
    public void A_gores_tuck_of_an_inch_has_two_fifths_of_an_inch_to_ease() =>
        Assert.Equal(Read("0.4 in"), new GoredTucks(1, Read("4 in"), Read("10 in"), Read("30 in"), Read("3 in"), 1, Read("1 in"), Read("0 in")).Ease);

    // NetTopologySuite: a line laid across the drawn gore, and what of it lies inside.
    [Fact]
    [Trait("sure", "read")]
    public void A_gore_is_as_wide_at_each_line_as_an_independent_library_cuts_it()
    {
        var skirt = new GoredTucks(6, Read("4 in"), Read("11 in"), Read("31 in"), Read("3 in"), 5, Read("3/8 in"), Read("1/8 in"));
        var gore = Polygon((-5.5, 0), (5.5, 0), (2, 31), (-2, 31));
        Assert.All(skirt.Lines, line =>
        {
            var up = Inches(line.FromHem);
            foreach (var (at, width) in new[] { (up, line.Lower), (up + 0.375, line.Fold), (up + 0.75, line.Upper) })
            {
                Assert.Equal(gore.Intersection(Line((-20, at), (20, at))).Length, Inches(width), 1e-7);
            }
        });
    }

    // Burton, School Sewing Based on Home Problems (1916): twice the skirt and twice the hem; 36 in and 3 in make 78.
    [Fact]
    [Trait("sure", "read")]
    public void Burtons_petticoat_is_two_lengths_and_two_hems() =>
        Assert.Equal("78 in", Text(Of("petticoat-cloth", """{"finished":"36 in","hem":"3 in"}""")["cloth"]));

    // Garments for Girls (c. 1919), six-gored petticoat: (36 - 6) × 2 = 60 in, 1 2/3 yd.
    [Fact]
    [Trait("sure", "read")]
    public void A_ruffled_petticoat_is_the_length_less_the_ruffle_twice() =>
        Assert.Equal(Read("1 2/3 yd"), Read(Text(Of("petticoat-cloth", """{"finished":"36 in","ruffle":"6 in"}""")["cloth"])));

    // The Workwoman's Guide (1838): hems of babies' skirts 4 nails and 1 nail.
    [Fact]
    [Trait("sure", "read")]
    public void The_workwomans_hems_are_nine_and_two_and_a_quarter_inches() =>
        Assert.Equal(["9 in", "2 1/4 in"], Of("petticoat-cloth", """{"finished":"36 in"}""")["usualHems"]!.AsArray().Take(2).Select(h => Text(h!["hem"])));

    // Baldt, Clothing for Women (1916): hem and 1/4 in for the turn; 3 in makes 3 1/4.
    [Fact]
    [Trait("sure", "read")]
    public void Baldts_hem_has_a_quarter_inch_turn() =>
        Assert.Equal("39 1/4 in", Text(Of("petticoat-cloth", """{"finished":"36 in","hem":"3 in","turn":"1/4 in"}""")["cutLength"]));

    // Baldt, Clothing for Women (1916): a bias band is cut twice the depth and 1/2 in; 2 in makes 4 1/2.
    [Fact]
    [Trait("sure", "read")]
    public void Baldts_bias_band_is_twice_its_depth_and_a_half() => Assert.Equal(Read("4 1/2 in"), BiasStrip.ForBand(Read("2 in")));

    // A soft-furnishing forum's answer: a 20 in square gives 200 in of 2 in strip; 250 in of it need a square of 22.36, so 23 in.
    [Fact]
    [Trait("sure", "read")]
    public void A_twenty_inch_square_gives_two_hundred_inches_of_two_inch_strip()
    {
        var answer = Of("bias-strip", """{"width":"2 in","length":"250 in","square":"20 in"}""");
        Assert.Equal("200 in", Text(answer["fromSquare"]));
        Assert.Equal(22.3607, Inches(answer["squareSide"]), 5e-5);
        Assert.Equal("23 in", Text(answer["squareToCut"]));
    }

    // True bias: 1 1/4 in across takes 1.7678 in along the selvage; worked by hand, and drawn with NetTopologySuite.
    [Fact]
    [Trait("sure", "derived")]
    public void A_bias_strip_takes_its_width_times_root_two_along_the_selvage()
    {
        var strip = new BiasStrip(Read("1 1/4 in"), Read("100 in"));
        Assert.Equal(1.7678, Inches(strip.AlongSelvage), 5e-5);
        Assert.Equal(1.25, Line((0, 0), (36, 36)).Distance(Line((Inches(strip.AlongSelvage), 0), (36 + Inches(strip.AlongSelvage), 36))), 1e-7);
    }

    // NetTopologySuite: strips drawn right across a cloth; their area over their width is the length before the joins.
    [Fact]
    [Trait("sure", "read")]
    public void Strips_across_a_cloth_are_as_long_as_an_independent_librarys_area_over_width()
    {
        var strip = new BiasStrip(Read("2 in"), Read("150 in"));
        var strips = strip.StripsAcross(Read("36 in"), Length.Zero);
        var along = Inches(strip.AlongSelvage);
        var each = Polygon((0, 0), (along, 0), (along + 36, 36), (36, 36)).Area / 2;
        Assert.Equal((long)Math.Ceiling(150 / each), strips);
        Assert.Equal(36 + (strips * along), Inches(strip.ClothFor(strips, Read("36 in"))), 1e-6);
    }

    // NetTopologySuite: the pieces of a layout united cover as much as they do one by one, and stay on the cloth.
    [Fact]
    [Trait("sure", "read")]
    public void A_layout_drawn_by_an_independent_library_has_no_piece_on_another()
    {
        var order = CuttingOrder.Lay(Read("36 in"), [new("skirt", Read("30 in"), Read("20 in"), 3), new("front", Read("16 in"), Read("12 in"), 2), new("cuff", Read("4 in"), Read("9 in"), 5)]);
        var pieces = order.Laid.Select(l => (Geometry)Rectangle(Inches(l.FromEnd), Inches(l.FromEdge), Inches(l.Piece.Length), Inches(l.Piece.Width))).ToList();
        var together = NetTopologySuite.Operation.Union.UnaryUnionOp.Union(pieces);
        Assert.Equal(pieces.Sum(p => p.Area), together.Area, 1e-6);
        Assert.True(Rectangle(0, 0, Inches(order.Cloth), 36).Covers(together));
        Assert.Equal((double)order.Covered, 100 * together.Area / (Inches(order.Cloth) * 36), 0.006);
    }

    private static double Arc(Length radius, double degrees)
    {
        var shapes = new GeometricShapeFactory(Draw) { Centre = new Coordinate(0, 0), Size = 2 * (double)radius.Millimetres, NumPoints = 20_001 };
        return shapes.CreateArc(0, degrees * Math.PI / 180).Length;
    }

    private static Polygon Polygon(params (double X, double Y)[] corners) =>
        Draw.CreatePolygon([.. corners.Append(corners[0]).Select(c => new Coordinate(c.X, c.Y))]);

    private static Polygon Rectangle(double x, double y, double width, double height) => Polygon((x, y), (x + width, y), (x + width, y + height), (x, y + height));

    private static LineString Line(params (double X, double Y)[] points) => Draw.CreateLineString([.. points.Select(c => new Coordinate(c.X, c.Y))]);
}
