using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;

namespace HeirloomArchive.Worksheets;

/// <summary>A worksheet as it was made: what was asked, the record's version, the whole result. Never computed again.</summary>
public sealed class Worksheet
{
    /// <summary>Its id, and the name of its page and print.</summary>
    public Guid Id { get; set; }

    /// <summary>Hers, or made from the technique and the piece.</summary>
    public string Title { get; set; } = "";

    /// <summary>When it was made; also the date written into the print, so that two prints are alike.</summary>
    public DateTimeOffset Made { get; set; }

    /// <summary>The release that computed it: <c>0.1.0</c>.</summary>
    public string Engine { get; set; } = "";

    /// <summary>What its sentences are in, as BCP 47 writes it; its print stays in it.</summary>
    public string Language { get; set; } = "en";

    /// <summary><c>A4</c> or <c>letter</c>.</summary>
    public string Paper { get; set; } = "A4";

    /// <summary>The long side of the paper across.</summary>
    public bool Landscape { get; set; }

    /// <summary>The garment it came from, or null.</summary>
    public Guid? Garment { get; set; }

    /// <summary>The version of the garment's record that was read, or null.</summary>
    public long? RecordVersion { get; set; }

    /// <summary>The worksheet that this one puts right by a strip, or null.</summary>
    public Guid? CorrectedFrom { get; set; }

    /// <summary>The request, member for member as it was sent.</summary>
    [JsonConverter(typeof(AsWritten<JsonObject>))]
    public JsonObject Request { get; set; } = [];

    /// <summary>All that page, diagram and print show; <c>plan</c> is the answer of the tucks route.</summary>
    [JsonConverter(typeof(AsWritten<JsonObject>))]
    public JsonObject Result { get; set; } = [];

    /// <summary><c>{"code","text","reason","source"}</c> each; the plan's own first.</summary>
    [JsonConverter(typeof(AsWritten<JsonArray>))]
    public JsonArray Cautions { get; set; } = [];

    /// <summary>The answer of <c>GET /api/worksheets/{id}</c>.</summary>
    public JsonObject ToJson() => new()
    {
        ["id"] = Id,
        ["title"] = Title,
        ["made"] = Made,
        ["engine"] = Engine,
        ["paper"] = Paper,
        ["landscape"] = Landscape,
        ["request"] = Request.DeepClone(),
        ["recordVersion"] = RecordVersion,
        ["correctedFrom"] = CorrectedFrom,
        ["result"] = Result.DeepClone(),
        ["cautions"] = Cautions.DeepClone(),
    };
}

/// <summary>Keeps a node as its text: the database would sort its members and rewrite its numbers.</summary>
internal sealed class AsWritten<T> : JsonConverter<T>
    where T : JsonNode
{
    public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        (T)JsonNode.Parse(reader.GetString()!)!;

    public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) =>
        writer.WriteStringValue(value.ToJsonString());
}
