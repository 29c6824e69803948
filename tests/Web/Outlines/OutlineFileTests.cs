using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Outlines;

namespace HeirloomArchive.Web.Tests.Outlines;

/// <summary>The drawings and the table of kinds.</summary>
public class OutlineFileTests
{
    private static readonly string[] Paired = ["sleeve", "cuff", "shoulder", "armhole", "underarm", "leg", "leg-edge", "strap"];

    // Of these there is no drawing: their parts are not a garment's.
    private static readonly string[] Undrawn = ["barrow-coat", "bootees", "paper-pattern", "pilch", "separate-cuffs"];

    public static TheoryData<string> Kinds => [.. Words.In("kinds").Select(w => w.Slug).Except(Undrawn)];

    public static TheoryData<string> Shapes => [.. OutlineKinds.All.Select(o => o.Shape)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_kind_has_a_drawing_with_each_part_that_it_usually_has(string kind)
    {
        var outline = OutlineKinds.For(kind);
        Assert.NotNull(outline);
        Assert.NotEmpty(OutlineKinds.Usual(kind));
        Assert.Empty(OutlineKinds.Usual(kind).Except(outline.Faces.SelectMany(f => f.Regions).Select(r => r.Part)));
    }

    [Fact]
    public void A_kind_in_her_own_words_or_none_has_no_drawing()
    {
        Assert.Null(OutlineKinds.For(new System.Text.Json.Nodes.JsonObject { ["own"] = "spat" }));
        Assert.Null(OutlineKinds.For(null));
        Assert.Empty(OutlineKinds.Usual(null));
    }

    [Fact]
    public void Every_drawing_serves_some_kind_and_no_part_is_drawn_that_none_of_its_kinds_has()
    {
        var drawn = OutlineKinds.All.SelectMany(o => o.Faces.SelectMany(f => f.Regions).Select(r => (o.Shape, r.Part))).ToHashSet();
        var used = Words.In("kinds").SelectMany(k => OutlineKinds.Usual(k.Slug).Select(p => (OutlineKinds.For(k.Slug)?.Shape ?? "", p)));
        Assert.Empty(drawn.Except(used));
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_drawing_shows_front_and_back_with_regions_that_are_parts(string shape)
    {
        var outline = Find(shape);
        Assert.Equal(["front", "back"], outline.Faces.Select(f => f.Id));
        foreach (var region in outline.Faces.SelectMany(f => f.Regions))
        {
            Assert.NotNull(Words.Find("parts", region.Part));
            Assert.Contains(region.Side, (string?[])["left", "right", null]);
            Assert.False(Paired.Contains(region.Part) && region.Side is null, $"{region.Part} tells no side");
        }

        Assert.All(outline.Faces, f => Assert.Equal(f.Regions.Count, f.Regions.DistinctBy(r => (r.Part, r.Side)).Count()));
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Left_is_the_wearers_left_at_the_right_of_a_front_and_at_the_left_of_a_back(string shape) =>
        Assert.All(Find(shape).Faces.SelectMany(f => f.Regions.Where(r => r.Side is not null).Select(r => (f.Id, Region: r))), at =>
            Assert.True((at.Region.X > OutlineFace.Width / 2) == ((at.Region.Side == "left") == (at.Id == "front")), $"{at.Id}: {at.Region.Part}, {at.Region.Side}"));

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Regions_share_the_cloth_and_each_mark_stands_in_its_own(string shape)
    {
        foreach (var face in Find(shape).Faces)
        {
            var cloth = new Area(face.Cloth).Samples(face.Height);
            var areas = face.Regions.Select(r => (Region: r, Area: new Area(r.Path))).Select(a => (a.Region, a.Area, Samples: a.Area.Samples(face.Height))).ToList();
            foreach (var (region, area, samples) in areas)
            {
                var where = $"{shape}, {face.Id}: {region.Part} {region.Side}";
                Assert.True(samples.Count >= 8, $"{where} is too small for a finger");
                Assert.True(samples.Except(cloth).Count() <= 6, $"{where} lies beside the cloth");
                Assert.True(area.Has(region.X, region.Y), $"{where} has its mark elsewhere");
                foreach (var other in areas.Where(o => o.Region != region))
                {
                    Assert.True(samples.Intersect(other.Samples).Count() <= Math.Max(2, samples.Count / 50), $"{where} lies on {other.Region.Part} {other.Region.Side}");
                    Assert.False(other.Area.Has(region.X, region.Y), $"the mark of {where} lies on {other.Region.Part} {other.Region.Side}");
                }
            }

            if (shape != "flat")
            {
                Assert.True(cloth.Except(areas.SelectMany(a => a.Samples)).Count() <= cloth.Count / 20, $"{shape}, {face.Id} has cloth that is no part");
            }
        }
    }

    private static Outline Find(string shape) => OutlineKinds.All.Single(o => o.Shape == shape);
}
