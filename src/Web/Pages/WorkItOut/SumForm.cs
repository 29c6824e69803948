using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.Extensions.Primitives;
using Ask = HeirloomArchive.Sewing.Sums.Ask;

namespace HeirloomArchive.Web.Pages.WorkItOut;

/// <summary>The form of a sum, made from what it asks.</summary>
public static class SumForm
{
    /// <summary>What was filled in, as the sum's route takes it.</summary>
    public static JsonObject Read(IEnumerable<KeyValuePair<string, StringValues>> sent, Sum sum, bool keepBlankRows)
    {
        ArgumentNullException.ThrowIfNull(sum);
        return FormReader.Read(sent, Shape(sum.Asks), keepBlankRows);
    }

    /// <summary>Gives every list the rows that it needs at least, so that there is something to fill in.</summary>
    public static void Pad(JsonObject values, IReadOnlyList<Ask> asks)
    {
        foreach (var ask in asks.Where(a => a.Kind == AskKind.Rows))
        {
            var rows = values[ask.Name] as JsonArray ?? [];
            values[ask.Name] ??= rows;
            while (rows.Count < Math.Max(1, ask.From))
            {
                rows.Add((JsonNode)new JsonObject());
            }
        }
    }

    /// <summary>The address of the sum's example, filled in.</summary>
    public static string Example(Sum sum)
    {
        ArgumentNullException.ThrowIfNull(sum);
        return $"/work-it-out/{sum.Slug}?{string.Join('&', Pairs(JsonNode.Parse(sum.Example), "").Select(p => $"{p.Path}={Uri.EscapeDataString(p.Value)}"))}#answer";
    }

    /// <summary>What a path of a fault is called in the form: <c>Strip 2, flat width</c>.</summary>
    public static string Name(Sum sum, string path)
    {
        ArgumentNullException.ThrowIfNull(sum);
        var (asks, said) = (sum.Asks, new List<string>());
        foreach (var step in Paths.Split(path))
        {
            if (step is int place && said.Count > 0)
            {
                said[^1] += $" {place + 1}";
            }
            else if (asks.FirstOrDefault(a => a.Name == step as string) is { } ask)
            {
                said.Add(T(ask.Label));
                asks = ask.Fields;
            }
        }

        return string.Join(", ", said);
    }

    private static RecordType Shape(IReadOnlyList<Ask> asks) => new([.. asks.Select(a => new Field(a.Name, Type(a)))]);

    private static FieldType Type(Ask ask) => ask.Kind switch
    {
        AskKind.Whole => new NumberType(ask.From, ask.To, whole: true),
        AskKind.Number => new NumberType(ask.From, ask.To, whole: false),
        AskKind.Flag => new FlagType(),
        AskKind.Length => new MeasureType(Sign.Any),
        AskKind.Lengths => new TextType(4_000, lines: true),
        AskKind.Part => Shape(ask.Fields),
        AskKind.Rows => new ListType(Shape(ask.Fields), (int)ask.To),
        _ => new TextType(200, lines: false),
    };

    private static IEnumerable<(string Path, string Value)> Pairs(JsonNode? node, string path) => node switch
    {
        JsonObject o => o.SelectMany(p => Pairs(p.Value, path.Length == 0 ? p.Key : $"{path}.{p.Key}")),
        JsonArray a when a.All(n => n is JsonValue) => [(path, string.Join("; ", a.Select(n => n!.ToString())))],
        JsonArray a => a.SelectMany((n, i) => Pairs(n, $"{path}[{i}]")),
        null => [],
        _ => [(path, node.ToString())],
    };
}

/// <summary>The fields of a sum or of one of its parts, for <c>_Asks.cshtml</c>.</summary>
/// <param name="Form">What is filled in.</param>
/// <param name="Asks">Which fields.</param>
/// <param name="Prefix">What stands before their names: <c>strips[0].</c></param>
public sealed record AsksView(Form Form, IReadOnlyList<Ask> Asks, string Prefix);
