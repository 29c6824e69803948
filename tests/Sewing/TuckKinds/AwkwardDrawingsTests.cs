using HeirloomArchive.Sewing.Drawing;
using static HeirloomArchive.Sewing.Tests.TuckKinds.Asking;

namespace HeirloomArchive.Sewing.Tests.TuckKinds;

/// <summary>Drawings of what is seldom sewn: tucks that overlap, that are one only, very long, very fine.</summary>
public class AwkwardDrawingsTests
{
    [Theory]
    [InlineData("spacing", """{"apart":"-1/8 in","width":"1/4 in"}""")]
    [InlineData("spacing", """{"apart":"-1/8 in","width":"1/4 in","lies":"towards-start"}""")]
    [InlineData("spacing", """{"apart":"-1/2 in","width":"1/2 in","lies":"towards-centre"}""")]
    [InlineData("spacing", """{"apart":"0 in","width":"1/2 in","lies":"from-centre"}""")]
    [InlineData("spacing", """{"apart":"-1 in","width":"2 in","nextWidth":"1/8 in"}""")]
    [InlineData("spacing", """{"apart":"1 in","width":"1/8 in","nextWidth":"3 in","lies":"towards-start"}""")]
    [InlineData("spacing", """{"apart":"40 in","width":"1/64 in"}""")]
    [InlineData("gauge-card", """{"width":"1/2 in","space":"-1/4 in"}""")]
    [InlineData("gauge-card", """{"width":"1/2 in","space":"0 in","testStrip":{"tucks":10,"width":"1/2 in","flat":"20 in","finished":"9 15/16 in"}}""")]
    [InlineData("tucker-marks", """{"widthMark":4,"spaceMark":3}""")]
    [InlineData("unequal", """{"tucks":[{"width":"2 in"}]}""")]
    [InlineData("unequal", """{"tucks":[{"width":"2 in","space":"-1 in"},{"width":"1/64 in","space":"0 in"},{"width":"1 in"}],"lies":"from-centre"}""")]
    [InlineData("unequal", """{"tucks":[{"width":"1/8 in","space":"-1/16 in"},{"width":"2 in"}],"lies":"towards-start"}""")]
    [InlineData("graduated", """{"tucks":50,"first":"2 in","last":"1/16 in","space":"-1/32 in"}""")]
    [InlineData("graduated", """{"tucks":2,"first":"1/16 in","ratio":10,"space":"0 in","lies":"towards-centre"}""")]
    [InlineData("nuns", """{"tucks":1,"width":"2 in"}""")]
    [InlineData("growth", """{"widths":["10 in","1/64 in","1/64 in"]}""")]
    [InlineData("growth", """{"tucks":50,"width":"1/8 in"}""")]
    [InlineData("release", """{"tucks":400,"width":"1/16 in","space":"0 in","sewn":"1/64 in","length":"1/32 in"}""")]
    [InlineData("release", """{"tucks":1,"width":"1/4 in","sewn":"40 in","lies":"towards-start"}""")]
    [InlineData("release", """{"tucks":3,"width":"1/2 in","space":"-1/4 in","sewn":"4 in","lies":"from-centre"}""")]
    [InlineData("receiving", """{"width":"1 in","set":"lace","setWidth":"1 1/64 in","under":"1 in","seam":"0 in"}""")]
    [InlineData("receiving", """{"width":"1/8 in","set":"ruffle","setWidth":"30 in"}""")]
    [InlineData("shell", """{"length":"1 in","width":"2 in","shell":"1 in"}""")]
    [InlineData("shell", """{"length":"100 in","width":"1/64 in","shell":"1/8 in"}""")]
    [InlineData("corded", """{"tucks":1,"width":"1/4 in","cord":"1/4 in"}""")]
    [InlineData("corded", """{"tucks":3,"width":"10 in","cord":"1/64 in","space":"0 in"}""")]
    [InlineData("crossed", """{"down":{"tucks":1,"width":"1/4 in"},"across":{"tucks":1,"width":"1/4 in"}}""")]
    [InlineData("crossed", """{"down":{"tucks":200,"width":"1/16 in","space":"0 in"},"across":{"tucks":3,"width":"2 in","space":"-1 in"}}""")]
    [InlineData("crossed", """{"down":{"tucks":150,"width":"1/16 in","space":"0 in"},"across":{"tucks":150,"width":"1/16 in","space":"0 in"}}""")]
    [InlineData("crossed", """{"down":{"tucks":400,"width":"1/16 in","space":"0 in"},"across":{"tucks":400,"width":"1/16 in","space":"0 in"}}""")]
    [InlineData("scalloped", """{"length":"1 in","scallop":"1 in","point":"1 in","hollow":"1/2 in"}""")]
    [InlineData("scalloped", """{"length":"40 in","scallop":"1/4 in","point":"1/4 in","hollow":"3/8 in","tucks":5}""")]
    [InlineData("scalloped", """{"length":"40 in","scallop":"10 in","point":"1/64 in","hollow":"1/64 in"}""")]
    [InlineData("twin-needle", """{"tucks":1,"gap":"2 mm","testStrip":{"tucks":10,"width":"2 mm","flat":"120 mm","finished":"112 mm"}}""")]
    [InlineData("twin-needle", """{"tucks":400,"gap":"2 mm","foldToFold":"2 mm","testStrip":{"tucks":10,"width":"2 mm","flat":"120 mm","finished":"101 mm"}}""")]
    [InlineData("tuck-kinds", """{"width":"1/8 in"}""")]
    [InlineData("tuck-kinds", """{"width":"1/64 in","space":"0 in","tucks":400}""")]
    [InlineData("strip", """{"strips":[{"tucks":1,"width":"1/8 in","flat":"1 in","finished":"3/4 in"}]}""")]
    [InlineData("strip", """{"strips":[{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"10 in"},{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 in"}]}""")]
    public void Nothing_of_a_drawing_leaves_its_strip(string slug, string request)
    {
        var answer = Ask(slug, request);
        Assert.InRange(Svg.Of(answer.Panels, slug, answer.Shows).Length, 1, 200_000);
        Assert.All(answer.Panels, panel => Assert.All(panel.Shapes, shape => Assert.All(Points(shape), p =>
        {
            Assert.InRange(p.X, -0.02, panel.Width + 0.02);
            Assert.InRange(p.Y, -0.02, panel.Height + 0.02);
        })));
        Assert.All(answer.Panels.SelectMany(p => p.Shapes).OfType<Box>(), b => Assert.True(b.Width >= 0 && b.Height >= 0));
    }

    private static IEnumerable<(double X, double Y)> Points(Shape shape) => shape switch
    {
        Box b => [(b.X, b.Y), (b.X + b.Width, b.Y + b.Height)],
        Stroke t => [(t.X1, t.Y1), (t.X2, t.Y2)],
        Outline o => o.Points,
        Label l => [(l.X, l.Y)],
        _ => [],
    };
}
