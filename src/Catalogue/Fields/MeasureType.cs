using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>Which lengths make sense in a field.</summary>
public enum Sign
{
    /// <summary>A thing's own measure.</summary>
    AboveZero,

    /// <summary>A distance that may be nothing.</summary>
    ZeroOrMore,

    /// <summary>A distance that may be an overlap.</summary>
    Any,
}

/// <summary>A length, kept with what was typed: <c>{"mm":9.525,"text":"3/8 in"}</c>.</summary>
public sealed class MeasureType(Sign sign) : FieldType
{
    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (LengthJson.Read(sent, path, faults, belowZero: sign == Sign.Any) is not { } typed)
        {
            return null;
        }

        if (sign == Sign.AboveZero && typed.Length == Length.Zero)
        {
            faults.Senseless(path, T($"{typed.Text} is nothing; send a length above zero, or leave the field out."));
            return null;
        }

        return LengthJson.Write(typed.Length, typed.Text);
    }

    /// <summary>The exact length of a kept one; null if there is none.</summary>
    public static Length? Of(JsonNode? kept) =>
        kept is JsonObject o && o["mm"] is { } mm ? Length.FromMillimetres(mm.GetValue<decimal>()) : null;
}
