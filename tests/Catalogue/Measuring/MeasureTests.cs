using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Measuring;
using HeirloomArchive.Support;

namespace HeirloomArchive.Catalogue.Tests.Measuring;

/// <summary>Which measures a kind gets, and which measures can hardly all be right.</summary>
public class MeasureTests
{
    [Fact]
    public void Every_kind_of_a_shape_is_a_word_and_of_that_shape_only()
    {
        var named = KindMeasures.All.SelectMany(s => s.Kinds).ToList();
        Assert.Equal(named.Count, named.Distinct().Count());
        Assert.All(named, kind => Assert.NotNull(Words.Find("kinds", kind)));
    }

    [Fact]
    public void Every_measure_is_a_word_and_is_taken_in_a_way_that_the_record_knows()
    {
        var measure = (RecordType)((ListType)GarmentShape.Garment.Fields.Single(f => f.Name == "measures").Type).Item;
        var ways = ((ChoiceType)measure.Fields.Single(f => f.Name == "taken").Type).Values;
        Assert.All(KindMeasures.All.SelectMany(s => s.Measures), m =>
        {
            Assert.NotNull(Words.Find("measures", m.Name));
            Assert.Contains(m.Taken, ways);
        });
    }

    [Fact]
    public void Every_shape_has_a_drawing_that_numbers_all_its_measures()
    {
        foreach (var shape in KindMeasures.All)
        {
            var drawing = File.ReadAllText(Path.Combine(SourceFolder.Top, "src", "Web", "wwwroot", "drawings", $"measures-{shape.Shape}.svg"));
            Assert.All(Enumerable.Range(1, shape.Measures.Count), n => Assert.Contains($">{n}</text>", drawing, StringComparison.Ordinal));
            Assert.DoesNotContain($">{shape.Measures.Count + 1}</text>", drawing, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("christening-gown", "gown")]
    [InlineData("petticoat", "skirt")]
    [InlineData("drawers", "legs")]
    [InlineData("boudoir-cap", "cap")]
    [InlineData("handkerchief", "flat")]
    [InlineData("no-such-kind", "flat")]
    [InlineData(null, "flat")]
    public void A_kind_has_the_measures_of_its_shape(string? kind, string shape) => Assert.Equal(shape, KindMeasures.Of(kind).Shape);

    [Fact]
    public void Only_what_is_not_recorded_yet_is_proposed()
    {
        var missing = KindMeasures.Of("petticoat").Missing([new JsonObject { ["name"] = "waist", ["length"] = "24 in" }, new JsonObject { ["name"] = new JsonObject { ["own"] = "flounce" } }]);
        Assert.Equal(["hips", "skirt-length", "hem-round"], missing.Select(m => m["name"]!.ToString()));
    }

    [Theory]
    [InlineData("chest is 34 in whole round and 14 in flat", "chest|34 in|whole-round", "chest|14 in|flat-width")]
    [InlineData("which would be 28 in round", "chest|34 in|whole-round", "chest|14 in|flat-width")]
    [InlineData("which would be 600 mm round", "waist|24 in|whole-round", "waist|300 mm|flat-width", "waist|30 in|whole-round")]
    [InlineData("twice", "waist|24 in|flat-width", "waist|20 in|flat-width")]
    [InlineData("exchanged", "waist|24 in|drawn-up", "waist|17 in|let-out")]
    [InlineData("less than the waist", "hem-round|20 in|whole-round", "waist|12 in|flat-width")]
    [InlineData("less than the width", "hem-round|20 in|whole-round", "width|22 in|")]
    [InlineData("less than the chest", "hem-round|20 in|", "chest|24 in|whole-round")]
    [InlineData("The skirt is 40 in long", "skirt-length|40 in|along", "front-length|38 in|along")]
    public void Measures_that_contradict_are_asked_about(string asked, params string[] measures) =>
        Assert.Contains(MeasureDoubts.Of(With(measures)), d => d.Contains(asked, StringComparison.OrdinalIgnoreCase));

    [Theory]
    [InlineData("chest|28 in|whole-round", "chest|14 in|flat-width")]
    [InlineData("chest|28 1/2 in|whole-round", "chest|14 in|flat-width")]
    [InlineData("waist|17 in|drawn-up", "waist|24 1/2 in|let-out")]
    [InlineData("hem-round|2 yd 4 in|whole-round", "waist|17 in|drawn-up")]
    [InlineData("hem-round|30 in|whole-round", "waist|40 in|let-out")]
    [InlineData("skirt-length|37 in|along", "front-length|41 1/2 in|along")]
    [InlineData("chest|28 in|whole-round", "waist|10 in|flat-width")]
    [InlineData("waist|24 in|", "waist|20 in|")]
    public void Measures_that_can_all_be_right_are_not(params string[] measures) => Assert.Empty(MeasureDoubts.Of(With(measures)));

    [Fact]
    public void Measures_without_a_length_or_a_name_ask_nothing() =>
        Assert.Empty(MeasureDoubts.Of(new JsonObject { ["measures"] = new JsonArray(new JsonObject { ["name"] = "waist" }, new JsonObject { ["taken"] = "along" }) }));

    private static JsonObject With(string[] measures)
    {
        var sent = new JsonArray([.. measures.Select(m => m.Split('|')).Select(m =>
        {
            var measure = new JsonObject { ["name"] = m[0], ["length"] = m[1] };
            if (m[2].Length > 0)
            {
                measure["taken"] = m[2];
            }

            return measure;
        })]);
        List<Sewing.Fault> faults = [];
        var read = GarmentShape.Garment.Read(new JsonObject { ["name"] = "A piece", ["measures"] = sent }, "", faults);
        Assert.Empty(faults);
        return read!.AsObject();
    }
}
