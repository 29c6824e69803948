using System.Buffers;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Search.Alike;

/// <summary>How one technique is made, as far as two can be compared by it. What is not recorded is null or empty.</summary>
internal sealed class Construction
{
    private static readonly string[] Compared =
        ["id", "kind", "tuckKind", "lace", "trim", "work", "seam", "fastening", "sewn", "laceMade", "form", "set", "part", "repeats", "groups", "width"];

    private Construction(JsonObject technique)
    {
        Id = Parameter.Text(technique["id"]);
        Kind = Meant("technique", technique["kind"]);
        TuckKind = Meant("tuckKind", technique["tuckKind"]);
        Called = Meant("lace", technique["lace"]) ?? Meant("trim", technique["trim"]) ?? Meant("work", technique["work"])
            ?? Meant("seam", technique["seam"]) ?? Meant("fastening", technique["fastening"]);
        Sewn = Parameter.Text(technique["sewn"]);
        LaceMade = Parameter.Text(technique["laceMade"]);
        Form = Parameter.Text(technique["form"]);
        Set = (technique["set"] as JsonArray ?? []).Select(Parameter.Text).OfType<string>().ToHashSet();
        Parts = Parameter.Find("part")!.Read(technique).OfType<string>().Select(Parameter.Find("part")!.Meant).ToHashSet();
        var groups = Parameter.Entries(technique["groups"]).ToList();
        Groups = groups.Count;
        Tucks = groups.Sum(g => g["tucks"] is { } tucks && int.TryParse(tucks.ToJsonString(), NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : 0);
        var first = groups.FirstOrDefault();
        Width = Length(first?["width"]) ?? Length(technique["width"]);
        Space = Length(first?["space"]);
    }

    public string? Id { get; }

    public string? Kind { get; }

    public string? TuckKind { get; }

    /// <summary>The lace, trim, whitework, seam or fastening it is.</summary>
    public string? Called { get; }

    public string? Sewn { get; }

    public string? LaceMade { get; }

    public string? Form { get; }

    public IReadOnlySet<string> Set { get; }

    /// <summary>Where it stands, repeats included.</summary>
    public IReadOnlySet<string> Parts { get; }

    public int Groups { get; }

    /// <summary>Tucks of all groups together.</summary>
    public int Tucks { get; }

    /// <summary>The width of the first group's tucks, or of a lace, in nanometres.</summary>
    public long? Width { get; }

    /// <summary>The plain cloth between the first group's tucks, in nanometres.</summary>
    public long? Space { get; }

    /// <summary>
    /// The proportion w : s as the tuck's share of one repeat, w / (w + s): 1/3 for 1/8 in tucks 1/4 in apart, 1 for meeting ones, above 1 for
    /// overlapping ones. Null without both, or where nothing of the repeat would be seen.
    /// </summary>
    public double? Share => Width is > 0 && Space is { } space && Width + space > 0 ? (double)Width.Value / (Width.Value + space) : null;

    public static Construction Of(JsonObject technique) => new(technique);

    /// <summary>What of a technique is compared, to be kept beside it in the index.</summary>
    public static byte[] Kept(JsonObject technique)
    {
        var kept = new ArrayBufferWriter<byte>(256);
        using (var writer = new Utf8JsonWriter(kept))
        {
            writer.WriteStartObject();
            foreach (var name in Compared)
            {
                if (technique[name] is { } value)
                {
                    writer.WritePropertyName(name);
                    value.WriteTo(writer);
                }
            }

            writer.WriteEndObject();
        }

        return kept.WrittenSpan.ToArray();
    }

    private static string? Meant(string parameter, JsonNode? value) => Parameter.Text(value) is { } text ? Parameter.Find(parameter)!.Meant(text) : null;

    private static long? Length(JsonNode? length) => (length as JsonObject)?["mm"] is { } mm ? RecordText.Nanometres(mm) : null;
}
