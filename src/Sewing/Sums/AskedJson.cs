using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>Reads what was sent to a sum: unknown fields and wrong types unreadable, missing and out of bounds senseless, all of them at once.</summary>
internal static partial class AskedJson
{
    private const int LongestText = 200;

    public static Asked Read(JsonNode? node, IReadOnlyList<Ask> asks)
    {
        var faults = new List<Fault>();
        var reading = new JsonReading(faults);
        var asked = Fields(reading, node, asks, "", faults);
        reading.Throw();
        InUnit(asked, reading.FirstUnit ?? LengthUnit.Inches);
        return asked;
    }

    private static void InUnit(Asked asked, LengthUnit unit)
    {
        asked.Unit = unit;
        foreach (var inner in asked.Inner)
        {
            InUnit(inner, unit);
        }
    }

    private static Asked Fields(JsonReading reading, JsonNode? node, IReadOnlyList<Ask> asks, string path, List<Fault> faults)
    {
        var values = new Dictionary<string, object>();
        var example = "{" + string.Join(",", asks.Where(a => a.Needed && a.Example.Length > 0).Take(3).Select(a => $"\"{a.Name}\":{Quoted(a)}")) + "}";
        foreach (var (name, value, at) in reading.Fields(node, path, example, [.. asks.Select(a => a.Name)]))
        {
            if (Value(reading, value, asks.First(a => a.Name == name), at, faults) is { } read)
            {
                values[name] = read;
            }
        }

        foreach (var ask in asks.Where(a => a.Needed))
        {
            reading.Needed(node, path, ask.Name, ask.Example.Length > 0
                ? T($"{T(ask.Label)} is missing: give for example {Quoted(ask)}.")
                : T($"{T(ask.Label)} is missing."));
        }

        return new(values, path, LengthUnit.Inches, faults);
    }

    private static string Quoted(Ask ask) => ask.Kind is AskKind.Whole or AskKind.Number or AskKind.Flag ? ask.Example : $"\"{ask.Example}\"";

    private static object? Value(JsonReading reading, JsonNode value, Ask ask, string at, List<Fault> faults) => ask.Kind switch
    {
        AskKind.Length => Length(reading, value, ask, at),
        AskKind.Whole => reading.Whole(value, at) is { } whole && InBounds(reading, whole, ask, at) ? whole : null,
        AskKind.Number => Number(reading, value, ask, at) is { } number && InBounds(reading, number, ask, at) ? number : null,
        AskKind.Choice => Choice(reading, value, ask, at),
        AskKind.Flag => reading.Flag(value, at),
        AskKind.Text => Text(reading, value, at),
        AskKind.Lengths => Many(reading, value, ask, at),
        AskKind.Part => Fields(reading, value, ask.Fields, at, faults),
        _ => Counted(reading, reading.List(value, at, (item, place) => Fields(reading, item, ask.Fields, place, faults)), ask, at),
    };

    private static Length? Length(JsonReading reading, JsonNode? value, Ask ask, string at)
    {
        if (reading.Length(value, at) is not { } length)
        {
            return null;
        }

        if (ask.AboveZero && length <= Sewing.Length.Zero)
        {
            reading.Senseless(at, T($"{JsonReading.Show(value)} is not above zero."));
        }
        else if (length < ask.Least)
        {
            reading.Senseless(at, T($"{JsonReading.Show(value)} is too little: it must be at least {Text(ask.Least)}."));
        }
        else if (length > ask.Most)
        {
            reading.Senseless(at, T($"{JsonReading.Show(value)} is too much: it may be at most {Text(ask.Most)}."));
        }

        return length;

        string Text(Length bound) => bound.ToText(reading.FirstUnit ?? LengthUnit.Inches);
    }

    private static decimal? Number(JsonReading reading, JsonNode value, Ask ask, string at)
    {
        if (value.GetValueKind() == JsonValueKind.Number
            && decimal.TryParse(value.ToJsonString(), NumberStyles.Float, CultureInfo.InvariantCulture, out var number))
        {
            return number;
        }

        if (JsonReading.Text(value) is { } text && Fraction().Match(text) is { Success: true } match)
        {
            var over = match.Groups["over"].Success ? decimal.Parse(match.Groups["over"].Value, CultureInfo.InvariantCulture) : 1;
            if (over > 0)
            {
                return Part(match, "whole") + (Part(match, "parts") / over);
            }
        }

        reading.Unreadable(at, T($"{JsonReading.Show(value)} is not a number: write for example {ask.Example}."));
        return null;
    }

    private static decimal Part(Match match, string group) =>
        match.Groups[group].Success ? decimal.Parse(match.Groups[group].Value.Replace(',', '.'), CultureInfo.InvariantCulture) : 0;

    // As she writes it: 1 1/3, 3/4, 1.5, 1,5. A third keeps 28 places, enough for any length to the nanometre.
    [GeneratedRegex(@"^\s*(?=[0-9])(?:(?<whole>[0-9]{1,9}(?:[.,][0-9]{1,9})?)(?!\s*/|[0-9]))?\s*(?:(?<parts>[0-9]{1,6})\s*/\s*(?<over>[0-9]{1,6}))?\s*$")]
    private static partial Regex Fraction();

    private static bool InBounds(JsonReading reading, decimal number, Ask ask, string at)
    {
        if (ask.AboveZero && number <= 0)
        {
            reading.Senseless(at, T($"{Plain(number)} is not above zero."));
            return false;
        }

        if (number < ask.From || number > ask.To)
        {
            reading.Senseless(at, T($"{Plain(number)} is out of bounds: {Plain(ask.From)} to {Plain(ask.To)}."));
            return false;
        }

        return true;
    }

    private static string Plain(decimal number) => number.ToString("0.############################", CultureInfo.InvariantCulture);

    private static string? Choice(JsonReading reading, JsonNode value, Ask ask, string at)
    {
        if (Text(reading, value, at) is not { } word)
        {
            return null;
        }

        if (ask.Choices.Any(c => c.Slug == word))
        {
            return word;
        }

        reading.Senseless(at, T($"“{Shown.Short(word)}” is not one of {string.Join(", ", ask.Choices.Select(c => c.Slug))}."));
        return null;
    }

    private static string? Text(JsonReading reading, JsonNode value, string at)
    {
        if (JsonReading.Text(value) is not { } text)
        {
            reading.Unreadable(at, T($"{JsonReading.Show(value)} is not a text."));
            return null;
        }

        if (text.Length > LongestText)
        {
            reading.Senseless(at, T($"The text has {text.Length} characters; at most {LongestText} serve here."));
        }

        return text.Trim();
    }

    private static IReadOnlyList<Length> Many(JsonReading reading, JsonNode value, Ask ask, string at)
    {
        var list = JsonReading.Text(value) is { } text
            ? new JsonArray([.. text.Split(['\n', '\r', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(t => (JsonNode)t)])
            : value;
        var lengths = reading.List(list, at, (item, place) => Length(reading, item, ask, place) ?? default);
        return Counted(reading, lengths, ask, at);
    }

    private static IReadOnlyList<TItem> Counted<TItem>(JsonReading reading, IReadOnlyList<TItem> list, Ask ask, string at)
    {
        if (list.Count < ask.From || list.Count > ask.To)
        {
            reading.Senseless(at, T($"{list.Count} are given; {Plain(ask.From)} to {Plain(ask.To)} serve here."));
        }

        return list;
    }
}
