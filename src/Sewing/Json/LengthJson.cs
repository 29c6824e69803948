using System.ComponentModel;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing;

/// <summary>A length and how she wrote it.</summary>
/// <param name="Length">The exact value.</param>
/// <param name="Text">As typed, without blanks around it; for a bare number of millimetres as it would be printed.</param>
/// <param name="Unit">The unit she thinks in.</param>
public readonly record struct TypedLength(Length Length, string Text, LengthUnit Unit);

/// <summary>
/// Lengths in JSON. In: <c>"3/8 in"</c> or <c>{"mm": 9.525}</c>, beside <c>mm</c> perhaps the <c>text</c> it came out with.
/// Out: always <c>{"mm": 9.525, "text": "3/8 in"}</c>, <c>mm</c> exact to the nanometre.
/// </summary>
public static class LengthJson
{
    /// <summary>Reads a length.</summary>
    /// <param name="node">A text with a unit, or an object with <c>mm</c>.</param>
    /// <param name="path">Where it stands, for the faults.</param>
    /// <param name="faults">
    /// Gets what is wrong: unreadable are a number with no unit, a wrong type, an unknown member; senseless are more than 1 km,
    /// below zero, a <c>text</c> that reads to another length than <c>mm</c>.
    /// </param>
    /// <param name="belowZero">True where a rule allows less than zero (an overlap).</param>
    /// <returns>Null when a fault was added.</returns>
    public static TypedLength? Read(JsonNode? node, string path, ICollection<Fault> faults, bool belowZero = false)
    {
        ArgumentNullException.ThrowIfNull(faults);
        var read = node switch
        {
            JsonObject members => ReadObject(members, path, faults),
            _ when JsonReading.Text(node) is { } text => ReadText(text, path, faults),
            _ => Refuse(faults, path, T($"{JsonReading.Show(node)} is not a length: write a text with a unit, as in \"3/8 in\", or {{\"mm\": 9.525}}."), FaultKind.Unreadable),
        };
        return read?.Length < Length.Zero && !belowZero
            ? Refuse(faults, path, T($"“{Shown.Short(read.Value.Text)}” is below 0: this must be 0 or more."), FaultKind.Senseless)
            : read;
    }

    /// <summary>A computed length, its text in the given unit.</summary>
    public static JsonObject Write(Length length, LengthUnit unit) => Write(length, length.ToText(unit));

    /// <summary>A length of the record, its text as she typed it.</summary>
    public static JsonObject Write(Length length, string typed) => new() { ["mm"] = length.Millimetres, ["text"] = typed };

    private static TypedLength? ReadText(string text, string path, ICollection<Fault> faults)
    {
        var reading = LengthText.Read(text);
        return reading.Problem is { } problem
            ? Refuse(faults, path, problem, reading.Kind)
            : new(reading.Length, text.Trim(), reading.Unit);
    }

    private static TypedLength? ReadObject(JsonObject members, string path, ICollection<Fault> faults)
    {
        var before = faults.Count;
        foreach (var (name, _) in members.Where(m => m.Key is not ("mm" or "text")))
        {
            Refuse(faults, JsonReading.At(path, Shown.Short(name)), T($"A length has no “{Shown.Short(name)}”: it has mm, and perhaps text."), FaultKind.Unreadable);
        }

        var text = JsonReading.Text(members["text"]);
        if (text is null && members["text"] is { } other)
        {
            Refuse(faults, JsonReading.At(path, "text"), T($"{JsonReading.Show(other)} is not a text such as \"3/8 in\"."), FaultKind.Unreadable);
        }

        var length = ReadMillimetres(members["mm"], path, faults);
        if (length is not { } exact || faults.Count > before)
        {
            return null;
        }

        if (text is null)
        {
            return new(exact, exact.ToText(LengthUnit.Millimetres), LengthUnit.Millimetres);
        }

        return Agreed(exact, text.Trim())
            ?? Refuse(faults, path, T($"“{Shown.Short(text)}” is not {exact.ToText(LengthUnit.Millimetres)}: send mm alone, or the text that belongs to it."), FaultKind.Senseless);
    }

    /// <summary>A text that reads to the same length, or the nearest one with its <c>≈ </c> just as it came out.</summary>
    private static TypedLength? Agreed(Length exact, string text)
    {
        foreach (var unit in Enum.GetValues<LengthUnit>())
        {
            if (text == exact.ToText(unit))
            {
                return new(exact, text, unit);
            }
        }

        var reading = LengthText.Read(text);
        return reading.Problem is null && reading.Length == exact ? new(exact, text, reading.Unit) : null;
    }

    private static Length? ReadMillimetres(JsonNode? node, string path, ICollection<Fault> faults)
    {
        if (node?.GetValueKind() != JsonValueKind.Number)
        {
            Refuse(faults, JsonReading.At(path, "mm"), T($"{JsonReading.Show(node)} is not a number of millimetres, as in {{\"mm\": 9.525}}."), FaultKind.Unreadable);
            return null;
        }

        var written = node.ToJsonString();
        if (decimal.TryParse(written, NumberStyles.Float, CultureInfo.InvariantCulture, out var millimetres)
            && Math.Abs(millimetres) <= Length.Longest.Millimetres)
        {
            return Length.FromMillimetres(millimetres);
        }

        Refuse(faults, path, T($"{Shown.Short(written)} mm is too long: lengths here go up to 1 km (1000000 mm)."), FaultKind.Senseless);
        return null;
    }

    private static TypedLength? Refuse(ICollection<Fault> faults, string path, [Localizable(true)] string message, FaultKind kind)
    {
        faults.Add(new(path, message, kind));
        return null;
    }
}
