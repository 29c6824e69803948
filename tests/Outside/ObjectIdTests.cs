using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Outside.Tests;

/// <summary>
/// The record against Object ID (ICOM, Getty): the headings by which an object is described so that it can be told again.
/// The list of headings was read; which field answers which heading is ours.
/// </summary>
public class ObjectIdTests
{
    [Theory]
    [InlineData("Photographs", "pictures")]
    [InlineData("Type of object", "kind")]
    [InlineData("Materials and techniques", "materials", "materials.fibre", "materials.weave", "techniques", "techniques.kind", "techniques.sewn")]
    [InlineData("Measurements", "measures", "measures.name", "measures.length")]
    [InlineData("Inscriptions and markings", "marks", "marks.text", "marks.part")]
    [InlineData("Distinguishing features: damage, repairs, making", "condition", "repairs", "alterations")]
    [InlineData("Title", "name")]
    [InlineData("Subject", "techniques.motif", "occasion")]
    [InlineData("Date or period", "dated", "datedText")]
    [InlineData("Maker", "maker", "made")]
    [InlineData("Description", "description")]
    [InlineData("Also recommended: inventory number", "number")]
    [InlineData("Also recommended: related written material", "acquired.papers")]
    [InlineData("Also recommended: place of origin", "where")]
    [InlineData("Also recommended: related objects", "belongsWith")]
    [InlineData("Also recommended: date documented", "examinations", "examinations.date")]
    public void Each_heading_has_its_place_in_the_record(string heading, params string[] fields) =>
        Assert.All(fields, path => Assert.True(Has(path), $"{heading}: {path} is no field of the record"));

    [Fact]
    public void A_type_of_object_is_told_at_two_levels_at_least_where_words_are_near() =>
        Assert.Contains(Words.In("kinds"), w => w.Slug == "christening-gown" && w.Broader is not null);

    [Fact]
    public void A_measurement_says_its_unit_and_its_dimension()
    {
        List<Sewing.Fault> faults = [];
        GarmentShape.Garment.Read(JsonNode.Parse("""{"measures":[{"name":"chest","length":"14"},{"name":"no-such-dimension","length":"14 in"}]}""")!, "", faults);
        Assert.Contains(faults, f => f.Path == "measures[0].length");
        Assert.Contains(faults, f => f.Path == "measures[1].name");
    }

    [Theory]
    [InlineData("front")]
    [InlineData("back")]
    [InlineData("mark")]
    [InlineData("damage")]
    [InlineData("repair")]
    [InlineData("with-scale")]
    public void Photographs_can_be_told_apart_as_the_list_asks(string view) => Assert.NotNull(Words.Find("views", view));

    private static bool Has(string path)
    {
        FieldType type = GarmentShape.Garment;
        foreach (var name in path.Split('.'))
        {
            var fields = type switch
            {
                KindedType kinded => Words.In("techniques").SelectMany(w => kinded.FieldsOf(new JsonObject { ["kind"] = w.Slug })),
                RecordType record => record.Fields,
                _ => [],
            };
            if (fields.FirstOrDefault(f => f.Name == name)?.Type is not { } found)
            {
                return false;
            }

            type = found is ListType list ? list.Item : found;
        }

        return true;
    }
}
