using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Dating;

namespace HeirloomArchive.Catalogue.Tests.Dating;

/// <summary>The file of dating evidence: whole, and each rule of it at work.</summary>
public class EvidenceTests
{
    public static TheoryData<string> All => [.. Evidence.Groups.SelectMany(g => g.Evidence).Select(e => e.Id)];

    public static TheoryData<string> Recorded => [.. Evidence.Groups.SelectMany(g => g.Evidence).Where(e => e.Found.Count > 0 || e.Fibre is not null).Select(e => e.Id)];

    // The years as our list of dating facts has them; a year mistyped in the file shows here.
    [Theory]
    [InlineData("machine", 1830, 1857)]
    [InlineData("lockstitch", 1846, 1870)]
    [InlineData("chainstitch", 1830, 1857)]
    [InlineData("double-chainstitch", 1851, null)]
    [InlineData("zigzag", 1873, 1947)]
    [InlineData("overlock", 1889, 1920)]
    [InlineData("machine-hemstitch", null, 1890)]
    [InlineData("six-cord-thread", 1840, 1865)]
    [InlineData("zip", 1913, 1937)]
    [InlineData("zip-metal", 1913, 1937)]
    [InlineData("zip-coil", 1940, 1960)]
    [InlineData("press-stud", null, 1903)]
    [InlineData("safety-pin", 1849, null)]
    [InlineData("humped-hook", 1889, null)]
    [InlineData("hook-and-loop", 1948, 1960)]
    [InlineData("bobbin-net", 1808, null)]
    [InlineData("machine-lace", 1808, 1835)]
    [InlineData("leavers", 1813, null)]
    [InlineData("outlined-lace", 1841, null)]
    [InlineData("barmen", 1890, null)]
    [InlineData("machine-embroidery", 1828, 1854)]
    [InlineData("schiffli", 1863, null)]
    [InlineData("chemical-lace", 1883, null)]
    [InlineData("mercerised", 1890, null)]
    [InlineData("rayon", 1892, null)]
    [InlineData("acetate", 1924, null)]
    [InlineData("nylon", 1939, null)]
    [InlineData("polyester", 1941, 1951)]
    [InlineData("coal-tar-dye", 1856, null)]
    [InlineData("gigot-sleeve", null, 1825)]
    [InlineData("rayon-label", 1924, null)]
    [InlineData("weighted-silk-label", null, 1938)]
    [InlineData("fibre-label", null, 1960)]
    [InlineData("care-label", null, 1972)]
    public void Each_thing_seen_has_its_years(string id, int? notBefore, int? unlikelyBefore)
    {
        var help = DatingHelp.Of([], [id]);
        Assert.Equal(notBefore, help.NotBefore);
        Assert.Equal(unlikelyBefore ?? notBefore, help.UnlikelyBefore ?? help.NotBefore);
        Assert.Equal($"{notBefore ?? unlikelyBefore:0000}/..", help.Narrowed ?? help.Likely);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Each_year_contradicts_a_date_before_it_and_no_date_from_it_on(string id)
    {
        foreach (var mark in Find(id).Marks)
        {
            Against At(int year) => DatingHelp.Of(new JsonObject { ["dated"] = $"{year}" }, [id]).Reasons.Single(r => r.Mark == mark).Against;
            Assert.Equal(mark.NotBefore is null ? Against.Query : Against.Conflict, At(mark.Year - 1));
            Assert.Equal(Against.Nothing, At(mark.Year));
            Assert.Equal(Against.Nothing, At(mark.Year + 30));
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Each_has_one_year_a_mark_a_reason_and_a_source_and_says_what_is_from_memory(string id)
    {
        var evidence = Find(id);
        Assert.NotEmpty(evidence.Marks);
        Assert.All(evidence.Marks, mark =>
        {
            Assert.True(mark.NotBefore is null ^ mark.UnlikelyBefore is null);
            Assert.EndsWith(".", mark.Reason.TrimEnd('?') + (mark.Reason.EndsWith('?') ? "." : ""), StringComparison.Ordinal);
            Assert.NotEqual("", mark.Source);
            Assert.True(mark.Read || mark.Source.Contains("no text at hand", StringComparison.Ordinal) || (mark.Reason + mark.Source).Contains("from memory", StringComparison.Ordinal), mark.Source);
        });
    }

    [Theory]
    [MemberData(nameof(Recorded))]
    public void Each_that_the_record_can_show_is_found_in_it(string id)
    {
        var evidence = Find(id);
        foreach (var garment in evidence.Found.Select(Showing).Concat((evidence.Fibre ?? []).Select(f => new JsonObject { ["materials"] = new JsonArray(new JsonObject { ["fibre"] = $"cotton and {f}" }) })))
        {
            List<Sewing.Fault> faults = [];
            GarmentShape.Garment.Read(garment.DeepClone(), "", faults);
            Assert.Empty(faults);
            Assert.Contains(DatingHelp.Of(garment, []).Reasons, r => r.Evidence.Id == id && r.Seen.Count == 1);
        }
    }

    [Fact]
    public void No_two_have_one_name() => Assert.Equal(All.Count, Evidence.Groups.SelectMany(g => g.Evidence).Select(e => e.Id).Distinct().Count());

    private static Evidence Find(string id) => Evidence.Groups.SelectMany(g => g.Evidence).Single(e => e.Id == id);

    private static JsonObject Showing(IReadOnlyDictionary<string, IReadOnlyList<string>> fields)
    {
        var technique = new JsonObject { ["kind"] = fields.ContainsKey("fastening") ? "fastening" : fields.ContainsKey("lace") ? "lace" : "seam" };
        foreach (var (name, values) in fields)
        {
            technique[name] = name == "fastening" && Words.Find("fastenings", values[0]) is null ? new JsonObject { ["own"] = values[0] } : values[0];
        }

        return new() { ["techniques"] = new JsonArray(technique) };
    }
}
