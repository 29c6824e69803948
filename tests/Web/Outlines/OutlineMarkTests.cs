using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Outlines;

namespace HeirloomArchive.Web.Tests.Outlines;

/// <summary>What is recorded, by part: the list and the marks.</summary>
public class OutlineMarkTests
{
    private static readonly JsonObject Blouse = new()
    {
        ["kind"] = "blouse",
        ["techniques"] = new JsonArray(
            Entry("t1", "kind", "tucks", "yoke"), Entry("t2", "kind", "lace", "yoke"),
            new JsonObject { ["id"] = "t3", ["kind"] = "gathers", ["part"] = "cuff", ["side"] = "left", ["repeats"] = new JsonArray(new JsonObject { ["part"] = "cuff", ["side"] = "right" }) },
            Entry("t4", "kind", "hem", null), Entry("t5", "kind", "lace", "crown"),
            new JsonObject { ["id"] = "t6", ["kind"] = "lace", ["part"] = new JsonObject { ["own"] = "Sailor flap" } }),
        ["condition"] = new JsonArray(
            Entry("f1", "what", "stain", "yoke"), Entry("f2", "what", "hole", "sleeve"),
            new JsonObject { ["id"] = "f3", ["what"] = "hole", ["part"] = "sleeve", ["side"] = "right", ["continues"] = "f2" },
            new JsonObject { ["id"] = "f4", ["what"] = "tear", ["part"] = "collar", ["ended"] = new JsonObject { ["date"] = "2020" } }),
        ["repairs"] = new JsonArray(Entry("r1", "method", "darn", "sleeve")),
    };

    [Fact]
    public void The_list_tells_each_part_once_with_what_is_there_and_what_has_no_part_last()
    {
        var parts = PartEntries.Of(Blouse);
        Assert.Equal(["Yoke", "Sleeve", "Cuff", "Crown", "Sailor flap", "No part named"], parts.Select(p => p.Label));
        Assert.Equal("2 techniques, 1 finding", parts[0].Counts);
        Assert.Equal("1 finding, 1 repair", parts[1].Counts);
        Assert.Equal("2 techniques", parts[2].Counts);
        Assert.Equal(parts.Count, parts.DistinctBy(p => p.Id).Count());
    }

    [Fact]
    public void A_finding_that_ended_or_went_on_under_a_later_one_is_not_marked() =>
        Assert.Equal(["f1", "f3"], PartEntries.Of(Blouse).SelectMany(p => p.Entries).Where(e => e.List == "condition").Select(e => e.Id));

    [Fact]
    public void An_unusual_part_is_kept_and_said_to_be_unusual()
    {
        var view = new OutlineView("blouse", Blouse);
        Assert.Equal(["crown"], view.Parts.Where(p => !p.Usual).Select(p => p.Part!));
        Assert.Contains("Crown is not usual", view.Unusual("crown"), StringComparison.Ordinal);
        Assert.Null(view.Unusual("yoke"));
        Assert.Null(new OutlineView(null).Unusual("crown"));
    }

    [Fact]
    public void A_part_that_is_not_drawn_is_shown_where_the_broader_one_is()
    {
        var frill = new JsonObject { ["kind"] = "blouse", ["techniques"] = new JsonArray(Entry("t1", "kind", "ruffle", "sleeve-frill"), Entry("t2", "kind", "lace", "sleeve")) };
        var view = new OutlineView("blouse", frill);
        Assert.All(view.Marks(OutlineKinds.For("blouse")!.Faces[0]), m => Assert.Equal(("sleeve", 2), (m.Region.Part, m.Counts[0].Count)));
        Assert.Null(view.Unusual("sleeve-frill"));
        Assert.NotNull(new OutlineView("petticoat").Unusual("sleeve-frill"));
        Assert.Null(new OutlineView("petticoat").Unusual("side-seam"));
    }

    [Fact]
    public void A_mark_stands_on_the_side_its_entry_tells_and_on_both_where_it_tells_none()
    {
        var front = OutlineKinds.For("blouse")!.Faces[0];
        var marks = new OutlineView("blouse", Blouse).Marks(front);
        Assert.Equal([("condition", 1), ("repairs", 1)], At("sleeve", "right"));
        Assert.Equal([("repairs", 1)], At("sleeve", "left"));
        Assert.Equal([("techniques", 2), ("condition", 1)], At("yoke", null));
        Assert.DoesNotContain(marks, m => m.Region.Part == "collar");

        IEnumerable<(string, int)> At(string part, string? side) => marks.Single(m => m.Region.Part == part && m.Region.Side == side).Counts.Select(c => (c.List, c.Count));
    }

    [Fact]
    public void Marks_on_every_part_of_every_drawing_stay_clear_of_each_other_and_within_it()
    {
        foreach (var kind in Words.In("kinds").Where(k => OutlineKinds.For(k.Slug) is not null).DistinctBy(k => OutlineKinds.For(k.Slug)!.Shape))
        {
            var full = new JsonObject { ["kind"] = kind.Slug };
            foreach (var (list, field, value) in new[] { ("techniques", "kind", "lace"), ("condition", "what", "stain"), ("repairs", "method", "darn") })
            {
                full[list] = new JsonArray([.. OutlineKinds.Usual(kind.Slug).Select((p, i) => Entry($"{list}{i}", field, value, p))]);
            }

            foreach (var face in OutlineKinds.For(kind.Slug)!.Faces)
            {
                var marks = new OutlineView(kind.Slug, full).Marks(face);
                Assert.Equal(face.Regions.Count(r => OutlineKinds.Usual(kind.Slug).Contains(r.Part)), marks.Count);
                foreach (var column in marks.GroupBy(m => m.Edge))
                {
                    var heights = column.Select(m => m.Y).ToList();
                    Assert.All(heights.Zip(heights.Skip(1)), pair => Assert.True(pair.Second - pair.First >= 18.99, $"{kind.Slug}, {face.Id}: {pair}"));
                    Assert.True(heights[0] >= 5 && heights[^1] <= face.Height, $"{kind.Slug}, {face.Id}: {heights[0]} to {heights[^1]} of {face.Height}");
                }
            }
        }
    }

    private static JsonObject Entry(string id, string field, string value, string? part)
    {
        var entry = new JsonObject { ["id"] = id, [field] = value };
        if (part is not null) entry["part"] = part;
        return entry;
    }
}
