using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>Words for what was sent: how a refused value is named in a fault, and what stands near it.</summary>
internal static class Sent
{
    /// <summary>The value as it is quoted in a message, never more than some sixty characters of it.</summary>
    public static string Quote(JsonNode? node)
    {
        string text;
        try
        {
            text = node?.ToJsonString(Plain) ?? "null";
        }
        catch (Exception e) when (e is ArgumentException or InvalidOperationException)
        {
            return T("what was sent");
        }

        return text.Length <= 60 ? text : text[..(char.IsHighSurrogate(text[58]) ? 58 : 59)] + "…";
    }

    /// <summary>A fault of writing: the value is of another type than the field.</summary>
    public static void WrongType(this ICollection<Fault> faults, string path, JsonNode sent, string right) =>
        faults.Add(new(path, T($"{Quote(sent)} is {KindOf(sent)}; send {right}."), FaultKind.Unreadable));

    /// <summary>A fault of sense.</summary>
    public static void Senseless(this ICollection<Fault> faults, string path, string message) => faults.Add(new(path, message));

    /// <summary>The text sent; false, with a fault, when it is no text.</summary>
    public static bool IsText(JsonNode sent, string path, Func<string> right, ICollection<Fault> faults, [NotNullWhen(true)] out string? text)
    {
        text = null;
        if (sent.GetValueKind() != JsonValueKind.String)
        {
            faults.WrongType(path, sent, right());
            return false;
        }

        try
        {
            text = sent.GetValue<string>();
        }
        catch (InvalidOperationException)
        {
            faults.Add(new(path, T("The text holds half a character (a lone surrogate); send whole Unicode characters."), FaultKind.Unreadable));
        }

        return text is not null;
    }

    /// <summary>The number sent, exact; false, with a fault, when it is no number. One too large for a decimal comes as its limit.</summary>
    public static bool IsNumber(JsonNode sent, string path, Func<string> right, ICollection<Fault> faults, out decimal number)
    {
        number = 0;
        if (sent.GetValueKind() != JsonValueKind.Number)
        {
            faults.WrongType(path, sent, right());
            return false;
        }

        var text = sent.ToJsonString();
        if (!decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out number))
        {
            number = text.StartsWith('-') ? decimal.MinValue : decimal.MaxValue;
        }

        return true;
    }

    /// <summary>The choices nearest in spelling, nearest first; none that is nothing like it.</summary>
    public static IReadOnlyList<string> Nearest(string sent, IEnumerable<string> choices, int most = 3)
    {
        var said = sent.Length <= 60 ? sent.ToLowerInvariant() : sent[..60].ToLowerInvariant();
        return [.. choices
            .Select(c => (Choice: c, Distance: Distance(said, c.ToLowerInvariant())))
            .Where(c => c.Distance <= Math.Max(2, Math.Max(said.Length, c.Choice.Length) / 2))
            .OrderBy(c => c.Distance).ThenBy(c => c.Choice, StringComparer.Ordinal)
            .Take(most).Select(c => c.Choice)];
    }

    /// <summary>How many letters must be put in, taken out, exchanged or swapped with their neighbour to make one word of the other.</summary>
    internal static int Distance(string a, string b)
    {
        var (beforeLast, last, row) = (new int[b.Length + 1], new int[b.Length + 1], new int[b.Length + 1]);
        for (var j = 0; j <= b.Length; j++)
        {
            last[j] = j;
        }

        for (var i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                row[j] = Math.Min(Math.Min(last[j] + 1, row[j - 1] + 1), last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    row[j] = Math.Min(row[j], beforeLast[j - 2] + 1);
                }
            }

            (beforeLast, last, row) = (last, row, beforeLast);
        }

        return last[b.Length];
    }

    private static string KindOf(JsonNode node) => node.GetValueKind() switch
    {
        JsonValueKind.Object => T("an object"),
        JsonValueKind.Array => T("a list"),
        JsonValueKind.String => T("a text"),
        JsonValueKind.Number => T("a number"),
        _ => T("true or false"),
    };

    private static readonly JsonSerializerOptions Plain = new()
    {
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };
}
