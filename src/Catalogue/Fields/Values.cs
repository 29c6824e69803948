using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>A text of any script. A line is trimmed; lines are kept as typed, with line feeds; blank is absent.</summary>
/// <param name="longest">The most characters (UTF-16 units) it may have.</param>
/// <param name="lines">Whether it may have several lines, and tabs.</param>
public sealed class TextType(int longest, bool lines) : FieldType
{
    /// <summary>Whether it may have several lines.</summary>
    public bool Lines => lines;

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (!Sent.IsText(sent, path, () => T("a text, in quotation marks"), faults, out var text))
        {
            return null;
        }

        text = lines ? text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace('\r', '\n') : text.Trim();
        if (text.Length > longest)
        {
            faults.Senseless(path, T($"The text has {text.Length} characters; this field takes {longest}."));
            return null;
        }

        for (var i = 0; i < text.Length; i++)
        {
            if (char.IsControl(text[i]) && !(lines && text[i] is '\n' or '\t'))
            {
                faults.Senseless(path, text[i] is '\n' or '\t'
                    ? T("The text has a line break or a tab; this field takes one line.")
                    : T($"The text holds the control character U+{(int)text[i]:X4}; leave it out."));
                return null;
            }

            if (char.IsSurrogate(text[i]) && !(i + 1 < text.Length && char.IsSurrogatePair(text[i], text[i++ + 1])))
            {
                faults.Add(new(path, T("The text holds half a character (a lone surrogate); send whole Unicode characters."), FaultKind.Unreadable));
                return null;
            }
        }

        return string.IsNullOrWhiteSpace(text) ? null : JsonValue.Create(text);
    }
}

/// <summary>A number: of things (whole) or of a reading.</summary>
public sealed class NumberType(decimal least, decimal most, bool whole) : FieldType
{
    /// <summary>Whether it counts things.</summary>
    public bool Whole => whole;

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (!Sent.IsNumber(sent, path, () => whole ? T("a whole number") : T("a number"), faults, out var number))
        {
            return null;
        }

        if (number < least || number > most || (whole && number != decimal.Truncate(number)))
        {
            faults.Senseless(path, whole
                ? T($"{Sent.Quote(sent)} is not a whole number from {Plain(least)} to {Plain(most)}.")
                : T($"{Sent.Quote(sent)} is not a number from {Plain(least)} to {Plain(most)}."));
            return null;
        }

        // Dividing by this one takes trailing zeros off: 9.50 and 9.5 are kept alike.
        return whole ? JsonValue.Create(decimal.ToInt64(number)) : JsonValue.Create(number / 1.0000000000000000000000000000m);
    }

    private static string Plain(decimal number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}

/// <summary>True or false; absent where it was not looked at.</summary>
public sealed class FlagType : FieldType
{
    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (sent.GetValueKind() is JsonValueKind.True or JsonValueKind.False)
        {
            return JsonValue.Create(sent.GetValue<bool>());
        }

        faults.WrongType(path, sent, T("true or false"));
        return null;
    }
}

/// <summary>One of a closed list.</summary>
public sealed class ChoiceType(params IReadOnlyList<string> values) : FieldType
{
    /// <summary>What may be chosen, in the order it is shown.</summary>
    public IReadOnlyList<string> Values => values;

    /// <summary>A value in words: <c>handle-in-class</c> is "Handle in class".</summary>
    public static string InWords(string value)
    {
        ArgumentException.ThrowIfNullOrEmpty(value);
        return char.ToUpperInvariant(value[0]) + value[1..].Replace('-', ' ');
    }

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (!Sent.IsText(sent, path, () => T($"one of {string.Join(", ", values)}"), faults, out var text))
        {
            return null;
        }

        if (!values.Contains(text))
        {
            faults.Senseless(path, T($"{Sent.Quote(sent)} is not one of {string.Join(", ", values)}."));
            return null;
        }

        return JsonValue.Create(text);
    }
}

/// <summary>The id of something already in the record: of a garment, or of an entry of the list named.</summary>
public sealed class IdType(string of) : FieldType
{
    /// <summary>Whose: <c>garments</c>, or a list of the garment's own, <c>techniques</c>; empty for the entry's own id.</summary>
    public string Of => of;

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (!Sent.IsText(sent, path, () => T("an id as it was answered, in quotation marks"), faults, out var text))
        {
            return null;
        }

        if (Guid.TryParse(text, out var id))
        {
            return JsonValue.Create(id.ToString());
        }

        faults.Senseless(path, T($"{Sent.Quote(sent)} is not an id; an id is 32 hexadecimal digits in five groups, as it was answered."));
        return null;
    }
}

/// <summary>A date in EDTF, level 0 or 1.</summary>
/// <param name="span">Whether an interval serves too: <c>1895/1905</c>.</param>
public sealed class DateType(bool span) : FieldType
{
    /// <summary>Whether an interval serves too.</summary>
    public bool Span => span;

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (!Sent.IsText(sent, path, () => T("a date as text, such as \"2026-10-18\""), faults, out var text))
        {
            return null;
        }

        text = text.Trim();
        if (text.Length == 0)
        {
            return null;
        }

        if (!Edtf.TryParse(text, out var date, out var problem))
        {
            faults.Senseless(path, T($"{Sent.Quote(sent)} is not a date in EDTF: {problem}"));
            return null;
        }

        if (date.IsInterval && !span)
        {
            faults.Senseless(path, T($"{Sent.Quote(sent)} is a span; this field takes one date, such as 2026-10-18, 2026-10 or 2026."));
            return null;
        }

        return JsonValue.Create(text);
    }
}
