using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing;

/// <summary>
/// What <c>POST /api/plans/tucks</c> takes: <c>groups</c>, <c>between</c>, <c>lead</c>, <c>trail</c>, <c>lies</c>, <c>centre</c>,
/// <c>testStrip</c>, <c>twinNeedle</c>; the tuck fields of a recorded technique read the same.
/// </summary>
public static class TuckRunJson
{
    private static readonly string[] Ways = ["space", "stitchToStitch", "foldToFold"];

    private const string Example = """{"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}]}""";

    /// <summary>Reads a run; whether it makes sense is for <see cref="TuckPlan.Make"/>.</summary>
    /// <param name="node">The object sent.</param>
    /// <param name="path">Where it stood in what was sent; empty when it was all of it.</param>
    /// <exception cref="FaultException">Every fault found: unknown fields and wrong types unreadable, missing fields senseless.</exception>
    public static TuckRun Read(JsonNode? node, string path = "")
    {
        var reading = new JsonReading(new List<Fault>());
        var run = new TuckRun { Groups = [], Path = path };
        foreach (var (name, value, at) in reading.Fields(node, path, Example, "groups", "between", "lead", "trail", "lies", "centre", "testStrip", "twinNeedle"))
        {
            run = name switch
            {
                "groups" => run with { Groups = reading.List(value, at, (item, place) => Group(reading, item, place)) },
                "between" => run with { Between = reading.List(value, at, (item, place) => Between(reading, item, place)) },
                "lead" => run with { Lead = reading.Length(value, at) },
                "trail" => run with { Trail = reading.Length(value, at) },
                "centre" => run with { Centre = reading.Length(value, at) },
                "lies" => run with { Lies = reading.Lies(value, at) },
                "twinNeedle" => run with { TwinNeedle = reading.Flag(value, at) },
                _ => run with { TestStrip = Strip(reading, value, at) },
            };
        }

        reading.Needed(node, path, "groups", T($"Which tucks? A run has at least one group, as in {Example}."));
        reading.Throw();
        return run with { Unit = reading.FirstUnit ?? LengthUnit.Inches };
    }

    /// <summary>A strip she has sewn, as a plan and a fit take it.</summary>
    internal static TestStrip? Strip(JsonReading reading, JsonNode? node, string path)
    {
        int? tucks = null;
        var lengths = new Dictionary<string, Length>();
        const string example = """{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 7/16 in"}""";
        foreach (var (name, value, at) in reading.Fields(node, path, example, "tucks", "width", "sewnWidth", "flat", "finished"))
        {
            if (name == "tucks")
            {
                tucks = reading.Whole(value, at);
            }
            else if (reading.Length(value, at) is { } length)
            {
                lengths[name] = length;
            }
        }

        reading.Needed(node, path, "tucks", "How many tucks has the strip?");
        reading.Needed(node, path, "width", "How wide were the strip's tucks marked?");
        reading.Needed(node, path, "flat", "How wide was the strip before it was sewn?");
        reading.Needed(node, path, "finished", "How wide is the strip now?");
        return tucks is { } count && lengths.TryGetValue("width", out var width) && lengths.TryGetValue("flat", out var flat) && lengths.TryGetValue("finished", out var finished)
            ? new(count, width, flat, finished, lengths.TryGetValue("sewnWidth", out var sewn) ? sewn : null)
            : null;
    }

    private static TuckGroup Group(JsonReading reading, JsonNode? node, string path)
    {
        var group = new TuckGroup(0, default, default);
        const string example = """{"tucks":5,"width":"1/8 in","space":"1/4 in"}""";
        foreach (var (name, value, at) in reading.Fields(node, path, example, ["tucks", "width", .. Ways]))
        {
            group = name switch
            {
                "tucks" => group with { Tucks = reading.Whole(value, at) ?? 0 },
                "width" => group with { Width = reading.Length(value, at) ?? default },
                _ => group with { Spacing = Spaced(reading, group.Spacing, name, value, at) },
            };
        }

        reading.Needed(node, path, "tucks", "How many tucks has this group?");
        reading.Needed(node, path, "width", "How wide are these tucks, from fold to stitching?");
        return group;
    }

    /// <summary>A bare length is the space; an object names its way.</summary>
    private static Spacing Between(JsonReading reading, JsonNode? node, string path)
    {
        if (node is not JsonObject fields || fields.ContainsKey("mm") || fields.ContainsKey("text"))
        {
            return new(reading.Length(node, path));
        }

        return reading.Fields(node, path, """{"space":"1 in"}""", Ways)
            .Aggregate(default(Spacing), (spacing, f) => Spaced(reading, spacing, f.Name, f.Value, f.Path));
    }

    private static Spacing Spaced(JsonReading reading, Spacing spacing, string way, JsonNode value, string at) => way switch
    {
        "space" => spacing with { Space = reading.Length(value, at) },
        "stitchToStitch" => spacing with { StitchToStitch = reading.Length(value, at) },
        _ => spacing with { FoldToFold = reading.Length(value, at) },
    };
}
