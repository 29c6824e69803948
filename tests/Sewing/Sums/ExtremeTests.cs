using System.Text.Json.Nodes;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Tests.Sums;

/// <summary>Every sum with very small and very large lengths in every pair of its fields.</summary>
public class ExtremeTests
{
    private static readonly string[] Sizes = ["0.000001 mm", "1/64 in", "1 in", "1000 m"];

    public static TheoryData<string> Slugs => [.. AllSums.InOrder.Select(s => s.Slug)];

    [Theory, MemberData(nameof(Slugs))]
    public void Any_sizes_are_answered_and_drawn_or_refused_in_words(string slug)
    {
        var sum = AllSums.Find(slug)!;
        var fields = Lengths(JsonNode.Parse(sum.Example)!, "").ToList();
        var answered = 0;
        foreach (var (a, b, first, second) in fields.SelectMany((a, i) => fields.Skip(i).SelectMany(b => Sizes.SelectMany(f => Sizes.Select(s => (a, b, f, s))))))
        {
            var sent = JsonNode.Parse(sum.Example)!;
            Set(sent, a, first);
            Set(sent, b, second);
            try
            {
                Drawn(sum, sent);
                answered++;
            }
            catch (FaultException refused)
            {
                Assert.All(refused.Faults, f => Assert.NotEmpty(f.Message));
            }
        }

        Assert.True(answered > 0 || fields.Count == 0);
    }

    [Theory]
    [InlineData("circular-tucks", """{"waist":"24 in","part":1,"length":"30 in","fromHem":"3 in","tucks":20,"width":"1/16 in","space":"1/16 in"}""")]
    [InlineData("gored-tucks", """{"gores":6,"top":"4 in","bottom":"10 in","height":"30 in","tucks":50,"width":"1/16 in","space":"1/16 in"}""")]
    [InlineData("release-flare", """{"tucks":200,"width":"1/64 in","finished":"10 in","panel":"24 in","stitched":"6 in"}""")]
    [InlineData("breadths", """{"loom":"36 in","length":"40 in","run":{"groups":[{"tucks":1000,"width":"1/16 in","space":"1/16 in"},{"tucks":1000,"width":"1/16 in","space":"1/16 in"}],"between":["1 in"]}}""")]
    [InlineData("cutting-order", """{"loom":"36 in","pieces":[{"name":"a","length":"5 in","width":"3 in","count":100},{"name":"b","length":"4 in","width":"3 in","count":100}]}""")]
    [InlineData("bias-strip", """{"width":"1/64 in","length":"1000 in","square":"100 in"}""")]
    [InlineData("lace-diamonds", """{"shape":"zigzag","width":"1 in","height":"1 in","insertion":"1/8 in","repeats":500}""")]
    [InlineData("scalloped-edge", """{"length":"2000 in","scallops":2000,"depth":"1/2 in"}""")]
    [InlineData("entredeux", """{"holes":10000,"over":"1000 in","length":"900 in","width":"1/2 in"}""")]
    [InlineData("pattern-repeat", """{"repeat":"1/64 in","pieces":[{"name":"hem","length":"1000 in","count":200}]}""")]
    public void Many_of_them_are_drawn_small_and_within_the_strip(string slug, string sent) => Drawn(AllSums.Find(slug)!, JsonNode.Parse(sent)!);

    private static void Drawn(Sum sum, JsonNode sent)
    {
        var answer = sum.Of(sent);
        var svg = Svg.Of(answer.Panels, sum.Title, answer.Shows);
        Assert.True(svg.Length <= 200_000, $"{svg.Length} bytes for {sent.ToJsonString()}");
        Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
        Assert.NotEmpty(answer.ToJson().ToJsonString());
        Assert.All(answer.Panels, panel => Assert.All(panel.Shapes, shape => Assert.True(Inside(shape, panel), $"{shape} for {sent.ToJsonString()}")));
    }

    private static bool Inside(Shape shape, Panel panel) => shape switch
    {
        Box b => In(b.X, b.Y, panel) && In(b.X + b.Width, b.Y + b.Height, panel),
        Stroke t => In(t.X1, t.Y1, panel) && In(t.X2, t.Y2, panel),
        Outline o => o.Points.All(p => In(p.X, p.Y, panel)),
        Label l => In(l.X, l.Y, panel),
        _ => false,
    };

    private static bool In(double x, double y, Panel panel) => x >= -0.01 && x <= panel.Width + 0.01 && y >= -0.01 && y <= panel.Height + 0.01;

    private static IEnumerable<string> Lengths(JsonNode node, string path) => node switch
    {
        JsonObject o => o.SelectMany(m => Lengths(m.Value!, $"{path}/{m.Key}")),
        JsonArray list => list.Take(1).SelectMany(item => Lengths(item!, $"{path}/0")),
        JsonValue v when v.TryGetValue<string>(out var text) && Length.TryParse(text, out _, out _) => [path],
        _ => [],
    };

    private static void Set(JsonNode node, string path, string value)
    {
        var parts = path.Split('/', StringSplitOptions.RemoveEmptyEntries);
        foreach (var part in parts[..^1])
        {
            node = node is JsonArray list ? list[int.Parse(part, System.Globalization.CultureInfo.InvariantCulture)]! : node[part]!;
        }

        if (node is JsonArray last)
        {
            last[0] = value;
        }
        else
        {
            node[parts[^1]] = value;
        }
    }
}
