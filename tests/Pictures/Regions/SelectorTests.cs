using CsCheck;
using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Pictures.Tests.Regions;

/// <summary>Places on a picture as fragments and as SVG.</summary>
public class SelectorTests
{
    /// <summary>
    /// W3C, Media Fragments URI 1.0 (25 September 2012), section 4.2.2: its three examples; on a picture of 640 by 480 the
    /// percentages are the same part as the pixels.
    /// </summary>
    [Theory]
    [InlineData("xywh=160,120,320,240", 640, 480)]
    [InlineData("xywh=pixel:160,120,320,240", 640, 480)]
    [InlineData("xywh=percent:25,25,50,50", 640, 480)]
    public void The_examples_of_media_fragments_are_one_and_the_same(string value, int width, int height)
    {
        var (shape, problem) = FragmentSelector.Read(value, width, height);
        Assert.Null(problem);
        Assert.Equal(Shape.Rectangle(160, 120, 320, 240), shape);
        Assert.Equal("xywh=160,120,320,240", FragmentSelector.Write(shape!));
    }

    [Theory]
    [InlineData("160,120,320,240")]
    [InlineData("xywh=160,120,320")]
    [InlineData("xywh=160,120,320,-240")]
    [InlineData("xywh=160,120,320,1e3")]
    [InlineData("xywh=inch:1,1,1,1")]
    [InlineData("xywh= 1,1,1,1")]
    [InlineData("xywh=99999999999999999999999,1,1,1")]
    [InlineData("")]
    public void What_is_no_rectangle_is_refused_with_what_would_be_right(string value)
    {
        var (shape, problem) = FragmentSelector.Read(value, 640, 480);
        Assert.Null(shape);
        Assert.Contains("xywh=120,80,400,300", problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'><polygon points='0,0 10,0 10,10'/></svg>", ShapeKind.Polygon)]
    [InlineData("<s:svg xmlns:s='http://www.w3.org/2000/svg'>\n<s:line x1='1' y1='2' x2='3.5' y2='4.25' />\n</s:svg>", ShapeKind.Line)]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'><circle cx='9' cy='8' r='5'></circle></svg>", ShapeKind.Point)]
    public void A_polygon_a_line_and_a_point_are_read(string value, ShapeKind kind)
    {
        var (shape, problem) = SvgSelector.Read(value);
        Assert.Null(problem);
        Assert.Equal(kind, shape!.Kind);
        Assert.Equal(shape, SvgSelector.Read(SvgSelector.Write(shape)).Shape);
    }

    public static TheoryData<string> Unwanted =>
    [
        "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'><line x1='1' y1='2' x2='3' y2='4'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><line x1='1' y1='2' x2='3' y2='4' onclick='alert(1)'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><line x1='1' y1='2' x2='3' y2='4' style='fill:url(http://x)'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><line x1='1' y1='2' x2='3' y2='4'><animate/></line></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><image href='http://x/y.png'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><foreignObject/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><path d='M0 0L1 1'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><rect x='1' y='1' width='2' height='2'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><circle cx='9' cy='8' r='500'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><circle cx='9' cy='8' r='5'/><circle cx='9' cy='8' r='5'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><polygon points='0,0 10,0 10'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><polygon points='NaN,0 10,0 10,1'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><polygon/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><!-- a --><line x1='1' y1='2' x2='3' y2='4'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'>text<line x1='1' y1='2' x2='3' y2='4'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'></svg>",
        "<svg><line x1='1' y1='2' x2='3' y2='4'/></svg>",
        "<html/>",
        "<!DOCTYPE svg [<!ENTITY a 'aaaa'>]><svg xmlns='http://www.w3.org/2000/svg'><line x1='&a;' y1='2' x2='3' y2='4'/></svg>",
        "<!DOCTYPE svg SYSTEM 'file:///etc/passwd'><svg xmlns='http://www.w3.org/2000/svg'/>",
        "not xml",
        "",
        new string('x', 20_000),
    ];

    [Theory]
    [MemberData(nameof(Unwanted))]
    public void Whatever_else_SVG_can_hold_is_refused(string value)
    {
        var (shape, problem) = SvgSelector.Read(value);
        Assert.Null(shape);
        Assert.False(string.IsNullOrWhiteSpace(problem));
        Assert.True(problem.Length < 400, "the answer repeats what was sent");
    }

    [Fact]
    public void What_is_written_reads_back_the_same()
    {
        var spots = Gen.Select(Gen.Int[0, 400_000], Gen.Int[0, 300_000]).Select((x, y) => new Spot(x / 100m, y / 100m));
        Gen.Select(Gen.Int[3, 200], Gen.Int[0, 2]).SelectMany((n, k) => spots.Array[k == 0 ? n : k == 1 ? 2 : 1].Select(s => new Shape(k == 0 ? ShapeKind.Polygon : k == 1 ? ShapeKind.Line : ShapeKind.Point, s)))
            .Sample(shape => SvgSelector.Read(SvgSelector.Write(shape)).Shape!.Equals(shape), iter: 500);
        Gen.Select(Gen.Int[0, 3000], Gen.Int[0, 3000], Gen.Int[1, 3000], Gen.Int[1, 3000]).Select((x, y, w, h) => Shape.Rectangle(x, y, w, h))
            .Sample(shape => FragmentSelector.Read(FragmentSelector.Write(shape), 6000, 6000).Shape!.Equals(shape), iter: 500);
    }

    [Fact]
    public void A_shape_lies_inside_the_picture_and_has_a_size()
    {
        Assert.Null(Shape.Rectangle(0, 0, 640, 480).Problem(640, 480));
        Assert.Contains("640 by 480", Shape.Rectangle(1, 0, 640, 480).Problem(640, 480), StringComparison.Ordinal);
        Assert.NotNull(Shape.Rectangle(1, 1, 0, 5).Problem(640, 480));
        Assert.NotNull(new Shape(ShapeKind.Line, [new(1, 1), new(1.5m, 1)]).Problem(640, 480));
        Assert.NotNull(new Shape(ShapeKind.Polygon, [new(1, 1), new(2, 1)]).Problem(640, 480));
        Assert.NotNull(new Shape(ShapeKind.Polygon, [.. Enumerable.Range(0, 201).Select(i => new Spot(i, i % 7))]).Problem(640, 480));
        Assert.NotNull(new Shape(ShapeKind.Polygon, [new(1, 1), new(1, 1), new(1, 1)]).Problem(640, 480));
        // Sides that cross are what a hand draws; they stay as drawn.
        Assert.Null(new Shape(ShapeKind.Polygon, [new(0, 0), new(10, 10), new(10, 0), new(0, 10)]).Problem(640, 480));
    }
}
