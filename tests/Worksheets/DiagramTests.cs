using System.Globalization;
using System.Xml.Linq;

namespace HeirloomArchive.Worksheets.Tests;

public class DiagramTests
{
    [Fact] public void Every_line_is_drawn_to_scale_and_numbered()
    {
        var svg = XElement.Parse(WorksheetDiagram.Svg(Examples.Made(Examples.TowardsStart)));
        var flat = svg.Elements().First(e => e.Name.LocalName == "g");
        var folds = Across(flat, "fold").ToList();

        // Folds at 2 1/4, 2 7/8, 4 1/2: 5/8 and 1 5/8 apart, as 5 to 13.
        Assert.Equal(3, folds.Count);
        Assert.Equal(13 / 5.0, (folds[2] - folds[1]) / (folds[1] - folds[0]), 0.001);
        Assert.Equal(6, Across(flat, "stitching").Count());
        var numbers = flat.Elements().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToList();
        Assert.Subset(numbers.ToHashSet(), new HashSet<string> { "1", "1a", "1b", "2", "2a", "2b", "3", "3a", "3b" });
    }

    [Fact] public void A_hundred_tucks_are_all_numbered_in_as_many_strips_as_that_takes()
    {
        var svg = WorksheetDiagram.Svg(Examples.Made("""{"plan":{"groups":[{"tucks":50,"width":"1/16 in","space":"0 in"}],"centre":"1 in","trail":"1 in","lies":"from-centre"}}"""));
        var texts = XElement.Parse(svg).Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToHashSet();

        Assert.All(Enumerable.Range(1, 100), n => Assert.Subset(texts, new HashSet<string> { $"{n}", $"{n}a", $"{n}b" }));
    }

    [Fact] public void Two_thousand_tucks_of_the_narrowest_still_make_a_diagram()
    {
        var worksheet = Examples.Made("""{"plan":{"groups":[{"tucks":1000,"width":"0.000002 mm","space":"0 mm"},{"tucks":1000,"width":"0.000002 mm","space":"0 mm"}],"between":["0 mm"],"trail":"1 m"}}""");
        Assert.StartsWith("<svg", WorksheetDiagram.Svg(worksheet), StringComparison.Ordinal);
    }

    [Fact] public void It_reads_aloud_and_tells_fold_from_stitching_without_colour()
    {
        var text = WorksheetDiagram.Svg(Examples.Made(Examples.Five("""{"title":"Tucks <& more>"}""")));
        var svg = XElement.Parse(text);

        Assert.Equal("Diagram: Tucks <& more>", svg.Elements().Single(e => e.Name.LocalName == "title").Value);
        Assert.Contains("5 tucks on", svg.Elements().Single(e => e.Name.LocalName == "desc").Value, StringComparison.Ordinal);
        Assert.Contains(".stitching{stroke:#9c4221;stroke-width:.3;stroke-dasharray", text, StringComparison.Ordinal);
    }

    private static IEnumerable<double> Across(XElement panel, string look) => panel.Elements()
        .Where(e => e.Name.LocalName == "line" && e.Attribute("class")?.Value == look)
        .Select(e => double.Parse(e.Attribute("x1")!.Value, CultureInfo.InvariantCulture)).Order();

    [Fact] public void On_a_page_it_claims_no_scale_since_the_page_stretches_it()
    {
        var worksheet = Examples.Made("""{"plan":{"groups":[{"tucks":8,"width":"1/8 in","space":"0 in"}],"lead":"1 in","trail":"1 in"}}""");
        var svg = WorksheetDiagram.Svg(worksheet);

        Assert.Contains(">not at true size<", svg, StringComparison.Ordinal);
        Assert.DoesNotContain(">true size<", svg, StringComparison.Ordinal);
        Assert.DoesNotContain(">scale ", svg, StringComparison.Ordinal);
    }
}
