using System.Text.Json.Nodes;

namespace HeirloomArchive.Worksheets.Tests;

/// <summary>An invented piece and requests to make worksheets from.</summary>
internal static class Examples
{
    public static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);

    public const string GarmentId = "018f3c3e-0000-7000-8000-000000000014";

    /// <summary>The design's example: 1/8, 1/8, 1/4, spaces 1/4 and 1, lead 2, trail 3, towards the start.</summary>
    public const string TowardsStart = """
        {"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"},{"tucks":1,"width":"1/4 in"}],"between":["1 in"],
                 "lead":"2 in","trail":"3 in","lies":"towards-start"}}
        """;

    public const string Strip = """{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 7/16 in"}""";

    public static JsonObject Garment() => Object($$$"""
        {"id":"{{{GarmentId}}}","version":4,"number":"G-014","name":"Nainsook baby dress with a tucked yoke","kind":"baby-dress",
         "techniques":[
          {"id":"pin","kind":"tucks","tuckKind":"pin","part":"yoke","groups":[{"tucks":6,"width":{"mm":1.5875,"text":"1/16 in"},"space":{"mm":4.7625,"text":"3/16 in"}}],
           "measuredFrom":"centre-front","turned":"to-sides","lies":"towards-end","sewn":"hand","evidence":{"stitchesPerInch":9,"note":"uneven, knots at both ends"},"sure":"certain"},
          {"id":"sides","kind":"tucks","tuckKind":"plain","part":"skirt","groups":[{"tucks":3,"width":{"mm":3.175,"text":"1/8 in"},"foldToFold":{"mm":12.7,"text":"1/2 in"}}],
           "centre":{"mm":25.4,"text":"1 in"},"turned":"to-sides","lies":"from-centre","sewn":"machine-lockstitch","sure":"perhaps"},
          {"id":"lace","kind":"lace","lace":"torchon","part":"hem","form":"edging","set":["gathered"],"joined":"rolled-and-whipped","width":{"mm":19.05,"text":"3/4 in"},"note":"old mend at the side"}]}
        """);

    public static JsonObject Object(string json) => JsonNode.Parse(json)!.AsObject();

    public static Worksheet Made(string request) => Made(Object(request));

    public static Worksheet Made(JsonObject request) =>
        WorksheetMaker.Make(request, request["garment"] is null ? null : Garment(), Noon);

    /// <summary>A plan of five equal pin tucks with whatever else is given.</summary>
    public static JsonObject Five(string more = "{}")
    {
        var request = Object("""{"plan":{"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}],"lead":"2 in","trail":"2 in"}}""");
        foreach (var (name, value) in Object(more))
        {
            request[name] = value?.DeepClone();
        }

        return request;
    }

    /// <summary>One line (0 a, 1 fold, 2 b) of every tuck, from one column, as shown.</summary>
    public static IEnumerable<string> Positions(Worksheet worksheet, string column, int line) =>
        worksheet.Result["positions"]!["rows"]!.AsArray().Select(r => r!["lines"]![line]![column]!["text"]!.GetValue<string>());
}
