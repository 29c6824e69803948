using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing;

/// <summary>
/// What <c>POST /api/plans/fit</c> takes: <c>finished</c>, <c>cloth</c>, <c>tucks</c>, <c>width</c>, <c>space</c>, <c>ends</c> (each <c>from</c>, <c>to</c>),
/// <c>finest</c>, <c>like</c>, <c>unevenEnds</c>, <c>testStrip</c>; for a worksheet also <c>lies</c> and <c>centre</c>.
/// </summary>
public static class FitRequestJson
{
    private const string Example = """{"finished":"12 in","tucks":{"from":6,"to":20},"width":{"from":"1/8 in","to":"1/4 in"}, …}""";
    private static readonly string[] Known = ["finished", "cloth", "tucks", "width", "space", "ends", "finest", "like", "unevenEnds", "testStrip"];

    /// <summary>Reads a request; whether it makes sense is for <see cref="Fit.Find"/>.</summary>
    /// <param name="node">The object sent.</param>
    /// <param name="path">Where it stood in what was sent; empty when it was all of it.</param>
    /// <param name="onto">True for a worksheet's <c>onto</c>, which may carry <c>lies</c> and <c>centre</c>.</param>
    /// <exception cref="FaultException">Every fault found: unknown fields and wrong types unreadable, missing fields senseless.</exception>
    public static FitRequest Read(JsonNode? node, string path = "", bool onto = false)
    {
        var reading = new JsonReading(new List<Fault>());
        var request = new FitRequest { Finished = default, Tucks = default, Width = default, Space = default, Ends = default, Finest = default, Path = path };
        foreach (var (name, value, at) in reading.Fields(node, path, Example, onto ? [.. Known, "lies", "centre"] : Known))
        {
            request = name switch
            {
                "finished" => request with { Finished = reading.Length(value, at) ?? default },
                "cloth" => request with { Cloth = reading.Length(value, at) },
                "tucks" => request with { Tucks = Counts(reading, value, at) },
                "width" => request with { Width = Lengths(reading, value, at) },
                "space" => request with { Space = Lengths(reading, value, at) },
                "ends" => request with { Ends = Lengths(reading, value, at) },
                "finest" => request with { Finest = reading.Length(value, at) ?? default },
                "like" => request with { Like = Like(reading, value, at) },
                "unevenEnds" => request with { UnevenEnds = reading.Flag(value, at) },
                "testStrip" => request with { TestStrip = TuckRunJson.Strip(reading, value, at) },
                "lies" => request with { Lies = reading.Lies(value, at) },
                _ => request with { Centre = reading.Length(value, at) },
            };
        }

        reading.Needed(node, path, "finished", "Which width is to be filled, as in \"12 in\"?");
        reading.Needed(node, path, "tucks", "How many tucks, as in {\"from\":6,\"to\":20}?");
        reading.Needed(node, path, "width", "How wide may the tucks be, as in {\"from\":\"1/8 in\",\"to\":\"1/4 in\"}?");
        reading.Needed(node, path, "ends", "How much plain cloth before and after, as in {\"from\":\"1 in\",\"to\":\"3 in\"}?");
        reading.Needed(node, path, "finest", "How fine is the marking: 1/16 in, 1/32 in, 1/64 in, 1 mm, 0.5 mm or 0.25 mm?");
        if (request.Tucks.To > 1)
        {
            reading.Needed(node, path, "space", "How far apart, as in {\"from\":\"1/8 in\",\"to\":\"1/2 in\"}?");
        }

        reading.Throw();
        return request with { Unit = reading.FirstUnit ?? LengthUnit.Inches };
    }

    private static CountRange Counts(JsonReading reading, JsonNode node, string path)
    {
        var range = default(CountRange);
        foreach (var (name, value, at) in reading.Fields(node, path, """{"from":6,"to":20}""", "from", "to"))
        {
            var count = reading.Whole(value, at) ?? 0;
            range = name == "from" ? range with { From = count } : range with { To = count };
        }

        Both(reading, node, path);
        return range;
    }

    private static LengthRange Lengths(JsonReading reading, JsonNode node, string path)
    {
        var range = default(LengthRange);
        foreach (var (name, value, at) in reading.Fields(node, path, """{"from":"1/8 in","to":"1/4 in"}""", "from", "to"))
        {
            var length = reading.Length(value, at) ?? default;
            range = name == "from" ? range with { From = length } : range with { To = length };
        }

        Both(reading, node, path);
        return range;
    }

    private static void Both(JsonReading reading, JsonNode node, string path)
    {
        reading.Needed(node, path, "from", "From what? A range has from and to, which may be the same.");
        reading.Needed(node, path, "to", "Up to what? A range has from and to, which may be the same.");
    }

    private static Likeness Like(JsonReading reading, JsonNode node, string path)
    {
        var like = new Likeness(0, default, null);
        foreach (var (name, value, at) in reading.Fields(node, path, """{"tucks":9,"width":"1/8 in","space":"1/4 in"}""", "tucks", "width", "space"))
        {
            like = name switch
            {
                "tucks" => like with { Tucks = reading.Whole(value, at) ?? 0 },
                "width" => like with { Width = reading.Length(value, at) ?? default },
                _ => like with { Space = reading.Length(value, at) },
            };
        }

        reading.Needed(node, path, "tucks", "How many tucks has the antique?");
        reading.Needed(node, path, "width", "How wide are the antique's tucks?");
        if (like.Tucks > 1)
        {
            reading.Needed(node, path, "space", "How much plain cloth is seen between the antique's tucks?");
        }

        return like;
    }
}
