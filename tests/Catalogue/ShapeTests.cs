using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>What the table takes and what it refuses; no database.</summary>
public class ShapeTests
{
    [Fact]
    public void A_garment_with_every_field_is_read_without_a_fault_and_shown_as_it_was_sent()
    {
        var sent = ArchiveFixture.Json(Examples.Everything);
        var (read, faults) = Read(sent);
        Assert.Empty(faults);
        Assert.Equal("", Missing(sent, GarmentShape.Garment.Present(read), ""));
    }

    [Fact]
    public void The_garment_with_every_field_leaves_none_of_the_table_out()
    {
        var met = new HashSet<string>();
        Collect(GarmentShape.Garment, ArchiveFixture.Json(Examples.Everything), "", met);
        // Ids and what is computed, of pictures too, can't be sent with a new garment.
        string[] given = ["id", "lies", "pictures", "examination", "continues", "answers", "repair", "under", "crosses", "belongsWith"];
        Assert.Empty(All(GarmentShape.Garment, "").Where(f => !f.Split('.').Any(given.Contains)).Except(met));
    }

    [Fact]
    public void What_is_shown_reads_back_to_the_same()
    {
        var (read, _) = Read(ArchiveFixture.Json(Examples.Everything));
        var (again, faults) = Read(GarmentShape.Garment.Present(read).AsObject());
        Assert.Empty(faults);
        Assert.True(JsonNode.DeepEquals(read, again));
    }

    [Theory]
    [InlineData("""{"name":17}""", "name", "a number")]
    [InlineData("""{"name":["a"]}""", "name", "a list")]
    [InlineData("""{"nmae":"a"}""", "nmae", "nearest: name")]
    [InlineData("""{"nosuchfield":null}""", "nosuchfield", "no field")]
    [InlineData("""{"place":{"shelve":"3"}}""", "place.shelve", "shelf")]
    [InlineData("""{"tags":"lawn"}""", "tags", "a list")]
    [InlineData("""{"tags":[null]}""", "tags[0]", "null")]
    [InlineData("""{"techniques":[[]]}""", "techniques[0]", "an object")]
    [InlineData("""{"techniques":[{"kind":"tucks","groups":[{"tucks":5,"width":"1/8"}]}]}""", "techniques[0].groups[0].width", "in")]
    [InlineData("""{"techniques":[{"kind":"tucks","groups":[{"tucks":"five"}]}]}""", "techniques[0].groups[0].tucks", "whole number")]
    [InlineData("""{"techniques":[{"kind":"lace","groups":[]}]}""", "techniques[0].groups", "no field")]
    [InlineData("""{"techniques":[{"kind":{"own":"knotting"},"width":"1 in"}]}""", "techniques[0].width", "no field")]
    [InlineData("""{"techniques":[{"kind":"tucks","lies":7}]}""", "techniques[0].lies", "a number")]
    [InlineData("""{"kind":{"own":"a","more":1}}""", "kind.more", "own")]
    [InlineData("""{"kind":7}""", "kind", "a number")]
    [InlineData("""{"measures":[{"byEye":"yes"}]}""", "measures[0].byEye", "true or false")]
    [InlineData("""{"belongsWith":[7]}""", "belongsWith[0]", "an id")]
    [InlineData("""{"dated":1905}""", "dated", "a number")]
    public void What_can_not_be_read_names_field_and_remedy(string json, string path, string says) => Refused(json, path, says, FaultKind.Unreadable);

    [Theory]
    [InlineData("""{"name":"a\u0007b"}""", "name", "U+0007")]
    [InlineData("""{"name":"a\nb"}""", "name", "one line")]
    [InlineData("""{"description":"a\u0085b"}""", "description", "U+0085")]
    [InlineData("""{"kind":"christening-gwon"}""", "kind", "christening-gown")]
    [InlineData("""{"kind":"Dress"}""", "kind", "nearest: dress")]
    [InlineData("""{"overall":"good"}""", "overall", "sound, fair, weak, fragile")]
    [InlineData("""{"dated":"about 1900"}""", "dated", "1905~")]
    [InlineData("""{"examinations":[{"date":"1905/1906"}]}""", "examinations[0].date", "a span")]
    [InlineData("""{"techniques":[{"kind":"tuks","groups":[]}]}""", "techniques[0].kind", "tucks")]
    [InlineData("""{"techniques":[{"kind":"lace","lace":"torchn"}]}""", "techniques[0].lace", "torchon")]
    [InlineData("""{"techniques":[{"kind":"lace","lace":"torchon","trim":"swiss-edging"}]}""", "techniques[0].trim", "the one")]
    [InlineData("""{"techniques":[{"evidence":{"stitchesPerInch":9,"stitchesPerCm":4}}]}""", "techniques[0].evidence.stitchesPerCm", "the one")]
    [InlineData("""{"techniques":[{"id":"x"}]}""", "techniques[0].id", "not an id")]
    [InlineData("""{"materials":[{"threadsPerInch":{"warp":-1}}]}""", "materials[0].threadsPerInch.warp", "from 0")]
    [InlineData("""{"materials":[{"threadsPerInch":{"warp":1e400}}]}""", "materials[0].threadsPerInch.warp", "from 0")]
    public void What_makes_no_sense_names_field_and_remedy(string json, string path, string says) => Refused(json, path, says, FaultKind.Senseless);

    [Theory]
    [InlineData("""{"groups":[{"tucks":0}]}""", "groups[0].tucks", "1 to 1000")]
    [InlineData("""{"groups":[{"tucks":10000}]}""", "groups[0].tucks", "1 to 1000")]
    [InlineData("""{"groups":[{"tucks":5.5}]}""", "groups[0].tucks", "whole")]
    [InlineData("""{"groups":[{"tucks":1000},{"tucks":1000},{"tucks":1}]}""", "groups", "2001")]
    [InlineData("""{"groups":[{"tucks":1000},{"tucks":1}],"centre":"1 in"}""", "groups", "both halves")]
    [InlineData("""{"groups":[{"tucks":5,"width":"-1/8 in"}]}""", "groups[0].width", "-1/8 in")]
    [InlineData("""{"groups":[{"tucks":5,"width":"0 in"}]}""", "groups[0].width", "above zero")]
    [InlineData("""{"groups":[{"tucks":5,"width":"3000 yd"}]}""", "groups[0].width", "km")]
    [InlineData("""{"groups":[{"width":{"mm":3.175,"text":"1/4 in"}}]}""", "groups[0].width", "1/4 in")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"-1/8 in"}]}""", "groups[0].space", "too far")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","foldToFold":"1/4 in"}]}""", "groups[0].foldToFold", "both tucks")]
    [InlineData("""{"groups":[{"tucks":3,"stitchToStitch":"0 in"}]}""", "groups[0].stitchToStitch", "above zero")]
    [InlineData("""{"groups":[{},{}],"between":["1 in","1 in"]}""", "between", "one fewer")]
    [InlineData("""{"between":["1 in"]}""", "between", "one fewer")]
    [InlineData("""{"groups":[{"width":"1/8 in"},{"width":"1/4 in"}],"between":["-1/8 in"],"measuredFrom":"waist","turned":"down"}""", "between[0]", "too far")]
    [InlineData("""{"groups":[{"width":"1/8 in"},{"width":"1/4 in"}],"between":["-1/4 in"],"measuredFrom":"hem","turned":"down"}""", "between[0]", "too far")]
    [InlineData("""{"groups":[{"width":"1/8 in"},{"width":"1/4 in"}],"between":[{"foldToFold":"3/8 in"}]}""", "between[0].foldToFold", "both tucks")]
    [InlineData("""{"centre":"1 in","lead":"1 in"}""", "lead", "centre")]
    [InlineData("""{"centre":"-1/8 in","turned":"to-sides"}""", "centre", "below zero")]
    [InlineData("""{"centre":"-1/4 in","turned":"to-centre","groups":[{"width":"1/8 in"}]}""", "centre", "too far")]
    [InlineData("""{"over":{"widthLeast":"1/4 in","widthMost":"1/8 in"}}""", "over.widthLeast", "1/8 in")]
    [InlineData("""{"measuredFrom":"waist","turned":"down","lies":"towards-start"}""", "lies", "towards-end")]
    public void A_run_of_tucks_that_makes_no_sense_names_field_and_remedy(string technique, string path, string says)
    {
        var run = ArchiveFixture.Json(technique);
        run["kind"] = "tucks";
        Refused(new JsonObject { ["techniques"] = new JsonArray(run) }.ToJsonString(), $"techniques[0].{path}", says, FaultKind.Senseless);
    }

    [Theory]
    [InlineData("""{"groups":[{}]}""")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"-1/16 in"}]}""")]
    [InlineData("""{"groups":[{"tucks":3,"space":"-1 in"}]}""")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"1/4 in","stitchToStitch":"1/2 in"}]}""")] // they disagree: both are hers
    [InlineData("""{"groups":[{"width":"1/8 in"},{"width":"1/4 in"}],"between":["-1/8 in"],"measuredFrom":"hem","turned":"down"}""")]
    [InlineData("""{"groups":[{},{},{}],"between":["1 in"]}""")]
    [InlineData("""{"groups":[{},{}],"between":[{"stitchToStitch":"1 in"}]}""")]
    [InlineData("""{"tuckKind":"twin-needle","needleGap":"2 mm","groups":[{"tucks":9,"width":"2 mm","foldToFold":"3 mm"}]}""")]
    [InlineData("""{"centre":"-1/8 in","turned":"to-centre","groups":[{"width":"1/8 in"}]}""")]
    [InlineData("""{"centre":"1 in","turned":"to-centre","lies":"towards-centre"}""")]
    [InlineData("""{"lies":null}""")]
    public void Half_known_and_odd_runs_are_kept(string technique)
    {
        var run = ArchiveFixture.Json(technique);
        run["kind"] = "tucks";
        var sent = new JsonObject { ["techniques"] = new JsonArray(run) };
        var (read, faults) = Read(sent);
        Assert.Empty(faults);
        Assert.Equal("", Missing(sent, GarmentShape.Garment.Present(read), ""));
    }

    [Theory]
    [InlineData("waist", "down", "", "towards-end")]
    [InlineData("neck", "down", "", "towards-end")]
    [InlineData("shoulder", "up", "", "towards-start")]
    [InlineData("hem", "down", "", "towards-start")]
    [InlineData("sleeve-edge", "up", "", "towards-end")]
    [InlineData("centre-front", "to-sides", "", "towards-end")]
    [InlineData("front-edge", "to-centre", "", "towards-start")]
    [InlineData("shoulder", "to-sides", "", "towards-start")]
    [InlineData("shoulder", "to-centre", "", "towards-end")]
    [InlineData("edge", "from-edge", "", "towards-end")]
    [InlineData("hem", "to-edge", "", "towards-start")]
    [InlineData("centre-front", "wearers-left", "left", "towards-end")]
    [InlineData("centre-front", "wearers-left", "right", "towards-start")]
    [InlineData("centre-back", "wearers-right", "right", "towards-end")]
    [InlineData("centre-back", "wearers-right", "left", "towards-start")]
    [InlineData("centre-front", "wearers-left", "both", null)]
    [InlineData("centre-front", "wearers-left", "", null)]
    [InlineData("centre-front", "down", "", null)]
    [InlineData("seam", "down", "", null)]
    [InlineData("waist", "standing", "", null)]
    [InlineData("waist", "not-determined", "", null)]
    public void The_lie_follows_from_start_and_turn(string from, string turned, string side, string? lies) =>
        Assert.Equal(lies, Lies($$"""{"kind":"tucks","measuredFrom":"{{from}}","turned":"{{turned}}"{{(side.Length == 0 ? "" : $",\"side\":\"{side}\"")}}}"""));

    [Theory]
    [InlineData("to-sides", "from-centre")]
    [InlineData("to-centre", "towards-centre")]
    [InlineData("down", null)]
    [InlineData("wearers-left", null)]
    public void A_run_with_a_centre_lies_from_it_or_towards_it(string turned, string? lies) =>
        Assert.Equal(lies, Lies($$"""{"kind":"tucks","measuredFrom":"waist","turned":"{{turned}}","centre":"1 in"}"""));

    [Fact]
    public void A_length_is_kept_as_typed_beside_its_exact_value()
    {
        var (read, _) = Read(ArchiveFixture.Json("""{"measures":[{"name":"chest","length":"22½ in"}]}"""));
        Assert.Equal("""{"mm":571.5,"text":"22½ in"}""", read["measures"]![0]!["length"]!.ToJsonString(new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }));
    }

    [Fact]
    public void Blank_texts_and_empty_lists_and_nulls_are_as_good_as_absent()
    {
        var (read, faults) = Read(ArchiveFixture.Json("""{"name":"  Cap  ","description":" \n","tags":[],"place":{},"made":null,"where":{"text":""}}"""));
        Assert.Empty(faults);
        Assert.Equal("""{"name":"Cap"}""", read.ToJsonString());
    }

    [Fact]
    public void Emoji_and_scripts_from_right_to_left_and_line_breaks_are_kept()
    {
        const string text = "שמלה לבנה 👗 \u202e مقلوب\n\tline two";
        var (read, faults) = Read(new JsonObject { ["description"] = text.Replace("\n", "\r\n", StringComparison.Ordinal) });
        Assert.Empty(faults);
        Assert.Equal(text, (string?)read["description"]);
    }

    [Fact]
    public void A_megabyte_of_text_is_refused_in_a_short_message()
    {
        var (_, faults) = Read(new JsonObject { ["name"] = new string('a', 1_000_000), ["overall"] = new string('b', 1_000_000), ["dated"] = new string('c', 1_000_000) });
        Assert.Equal(["name", "dated", "overall"], faults.Select(f => f.Path));
        Assert.All(faults, f => Assert.True(f.Message.Length < 300));

        (_, faults) = Read(new JsonObject { ["kind"] = new JsonObject { ["own"] = "a", [new string('d', 1_000_000)] = 1 }, [new string('e', 1_000_000)] = 1 });
        Assert.Equal(2, faults.Count);
        Assert.All(faults, f => Assert.True(f.Message.Length < 300 && f.Path.Length < 100));
    }

    [Fact]
    public void All_faults_are_told_at_once()
    {
        var (_, faults) = Read(ArchiveFixture.Json("""{"overall":"good","kind":"dres","techniques":[{"sewn":"foot"},{"side":"top"}]}"""));
        Assert.Equal(["kind", "overall", "techniques[0].sewn", "techniques[1].side"], faults.Select(f => f.Path));
    }

    [Fact]
    public void A_word_met_twice_in_a_list_is_kept_once()
    {
        var (read, _) = Read(ArchiveFixture.Json("""{"tags":["lawn","lawn","Lawn"]}"""));
        Assert.Equal(2, read["tags"]!.AsArray().Count);
    }

    [Fact]
    public void Price_and_place_and_to_whom_it_went_are_private_and_nothing_else() =>
        Assert.Equal(["whereabouts.to", "acquired", "place"], Private(GarmentShape.Garment, ""));

    private static string? Lies(string technique)
    {
        var (read, faults) = Read(new JsonObject { ["techniques"] = new JsonArray(ArchiveFixture.Json(technique)) });
        Assert.Empty(faults);
        var shown = GarmentShape.Technique.Present(read["techniques"]![0]!).AsObject();
        Assert.True(shown.ContainsKey("lies"));
        return (string?)shown["lies"];
    }

    private static (JsonObject Read, List<Fault> Faults) Read(JsonObject sent)
    {
        var faults = new List<Fault>();
        return (GarmentShape.Garment.Read(sent, "", faults)!.AsObject(), faults);
    }

    private static void Refused(string json, string path, string says, FaultKind kind)
    {
        var (_, faults) = Read(ArchiveFixture.Json(json));
        var fault = Assert.Single(faults);
        Assert.Equal(path, fault.Path);
        Assert.Equal(kind, fault.Kind);
        Assert.Contains(says, fault.Message, StringComparison.Ordinal);
    }

    /// <summary>The first path at which what was sent is not in what is shown; a length is sent as a text.</summary>
    private static string Missing(JsonNode? sent, JsonNode? shown, string path) => (sent, shown) switch
    {
        (null, null) => "",
        (JsonObject a, JsonObject b) => a.Select(m => Missing(m.Value, b[m.Key], $"{path}.{m.Key}")).FirstOrDefault(p => p.Length > 0) ?? "",
        (JsonArray a, JsonArray b) when a.Count == b.Count => a.Select((one, i) => Missing(one, b[i], $"{path}[{i}]")).FirstOrDefault(p => p.Length > 0) ?? "",
        (JsonValue a, JsonObject { } b) => (string?)b["text"] == (string?)a ? "" : path,
        _ => JsonNode.DeepEquals(sent, shown) ? "" : path,
    };

    private static void Collect(FieldType type, JsonNode? value, string path, HashSet<string> met)
    {
        foreach (var (name, one) in type is RecordType ? value as JsonObject ?? [] : [])
        {
            var field = ((RecordType)type).FieldsOf(value!.AsObject()).Single(f => f.Name == name);
            met.Add($"{path}.{name}");
            foreach (var item in one is JsonArray list ? list.ToList() : [one])
            {
                Collect(field.Type is ListType { Item: var inner } ? inner : field.Type, item, $"{path}.{name}", met);
            }
        }
    }

    private static IEnumerable<string> All(RecordType type, string path) =>
        (type is KindedType kinded ? kinded.Kinds.SelectMany(k => kinded.FieldsOf(k)).Distinct() : type.Fields)
        .SelectMany(f => (f.Type is ListType { Item: var item } ? item : f.Type) is RecordType inner
            ? [$"{path}.{f.Name}", .. All(inner, $"{path}.{f.Name}")]
            : new[] { $"{path}.{f.Name}" }).Distinct();

    private static IEnumerable<string> Private(RecordType type, string path) => type.Fields.SelectMany(f =>
        f.Private ? [path + f.Name]
        : (f.Type is ListType { Item: var item } ? item : f.Type) is RecordType inner ? Private(inner, $"{path}{f.Name}.") : []);
}
