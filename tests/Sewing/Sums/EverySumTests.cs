using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Tests.Sums;

/// <summary>What holds for every sum there is, a new one included.</summary>
public partial class EverySumTests
{
    public static TheoryData<string> Slugs => [.. AllSums.InOrder.Select(s => s.Slug)];

    [Fact]
    public void No_two_have_one_slug() =>
        Assert.Equal(AllSums.InOrder.Count, AllSums.InOrder.Select(s => s.Slug).Append("tucks").Append("fit").Distinct().Count() - 2);

    [Theory, MemberData(nameof(Slugs))]
    public void Its_example_works_and_gives_a_figure_or_a_table(string slug)
    {
        var answer = Find(slug).Of(JsonNode.Parse(Find(slug).Example));
        Assert.True(answer.Figures.Count + answer.Tables.Count > 0);
        Assert.All(answer.Figures.Select(f => f.Name).Concat(answer.Tables.Select(t => t.Name)), name => Assert.Matches(CamelCase(), name));
        Assert.All(answer.Tables, t => Assert.All(t.Rows, row => Assert.Equal(t.Columns.Count, row.Count)));
        Assert.NotNull(answer.ToJson()["notes"]);
    }

    [Theory, MemberData(nameof(Slugs))]
    public void Its_drawing_is_told_in_words_small_and_well_formed(string slug)
    {
        var answer = Find(slug).Of(JsonNode.Parse(Find(slug).Example));
        Assert.NotEmpty(answer.Panels);
        Assert.NotEmpty(answer.Shows);
        var svg = Svg.Of(answer.Panels, Find(slug).Title, answer.Shows);
        Assert.InRange(svg.Length, 1, 200_000);
        System.Xml.Linq.XDocument.Parse(svg);
        Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
        Assert.All(answer.Panels, panel => Assert.All(Points(panel), p =>
        {
            Assert.InRange(p.X, -0.01, panel.Width + 0.01);
            Assert.InRange(p.Y, -0.01, panel.Height + 0.01);
        }));
    }

    [Theory, MemberData(nameof(Slugs))]
    public void An_unknown_field_is_unreadable_and_named(string slug)
    {
        var sent = JsonNode.Parse(Find(slug).Example)!.AsObject();
        sent["colour"] = "blue";
        var refused = Assert.Throws<FaultException>(() => Find(slug).Of(sent));
        Assert.True(refused.Unreadable);
        Assert.Contains(refused.Faults, f => f.Path == "colour");
    }

    [Theory, MemberData(nameof(Slugs))]
    public void A_wrong_type_is_unreadable_at_its_field(string slug)
    {
        foreach (var ask in Find(slug).Asks)
        {
            var sent = JsonNode.Parse(Find(slug).Example)!.AsObject();
            sent[ask.Name] = ask.Kind is AskKind.Flag ? "perhaps" : ask.Kind is AskKind.Part or AskKind.Rows ? 7 : new JsonArray(new JsonArray());
            var refused = Assert.Throws<FaultException>(() => Find(slug).Of(sent));
            Assert.True(refused.Unreadable);
            Assert.All(refused.Faults, f => Assert.StartsWith(ask.Name, f.Path, StringComparison.Ordinal));
        }
    }

    [Theory, MemberData(nameof(Slugs))]
    public void A_needed_field_left_out_is_senseless_at_its_field(string slug)
    {
        foreach (var ask in Find(slug).Asks.Where(a => a.Needed))
        {
            var sent = JsonNode.Parse(Find(slug).Example)!.AsObject();
            sent.Remove(ask.Name);
            var refused = Assert.Throws<FaultException>(() => Find(slug).Of(sent));
            Assert.False(refused.Unreadable);
            Assert.Contains(refused.Faults, f => f.Path == ask.Name);
        }
    }

    [Theory, MemberData(nameof(Slugs))]
    public void A_length_below_its_least_is_senseless_at_its_field(string slug)
    {
        foreach (var ask in Find(slug).Asks.Where(a => a.Kind == AskKind.Length && a.Least >= Length.Zero))
        {
            var sent = JsonNode.Parse(Find(slug).Example)!.AsObject();
            sent[ask.Name] = "-1 in";
            var refused = Assert.Throws<FaultException>(() => Find(slug).Of(sent));
            Assert.False(refused.Unreadable);
            Assert.Contains(refused.Faults, f => f.Path == ask.Name && f.Message.Contains("-1 in", StringComparison.Ordinal));
        }
    }

    private static Sum Find(string slug) => AllSums.Find(slug)!;

    private static IEnumerable<(double X, double Y)> Points(Panel panel) => panel.Shapes.SelectMany(s => s switch
    {
        Box b => [(b.X, b.Y), (b.X + b.Width, b.Y + b.Height)],
        Stroke t => [(t.X1, t.Y1), (t.X2, t.Y2)],
        Outline o => o.Points,
        Label l => [(l.X, l.Y)],
        _ => (IEnumerable<(double, double)>)[],
    });

    [GeneratedRegex("^[a-z][A-Za-z0-9]*$")]
    private static partial Regex CamelCase();
}
