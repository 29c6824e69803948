using System.ComponentModel;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing;

/// <summary>
/// Reads one request: gathers faults by path, and remembers the unit of the first length met in the order of the document.
/// A field that is null counts as left out.
/// </summary>
internal sealed class JsonReading(ICollection<Fault> faults)
{
    public LengthUnit? FirstUnit { get; private set; }

    public static string At(string path, string field) => path.Length == 0 ? field : $"{path}.{field}";

    public void Throw()
    {
        if (faults.Count > 0)
        {
            throw new FaultException([.. faults]);
        }
    }

    public void Unreadable(string path, [Localizable(true)] string message) => faults.Add(new(path, message, FaultKind.Unreadable));

    public void Senseless(string path, [Localizable(true)] string message) => faults.Add(new(path, message));

    /// <summary>The fields of an object in their order, without those that are null; faults for what is no object and for fields not known.</summary>
    public IEnumerable<(string Name, JsonNode Value, string Path)> Fields(JsonNode? node, string path, string example, params IReadOnlyCollection<string> known)
    {
        if (node is not JsonObject fields)
        {
            Unreadable(path, T($"{Show(node)} stands where an object should, such as {example}."));
            yield break;
        }

        foreach (var (name, value) in fields)
        {
            var at = At(path, known.Contains(name) ? name : Shown.Short(name));
            if (!known.Contains(name))
            {
                Unreadable(at, T($"There is no field “{Shown.Short(name)}” here. There are: {string.Join(", ", known)}."));
            }
            else if (value is not null)
            {
                yield return (name, value, at);
            }
        }
    }

    /// <summary>Adds a fault when a field that must be there is not; <paramref name="question"/> asks for it.</summary>
    public void Needed(JsonNode? node, string path, string field, [Localizable(true)] string question)
    {
        if (node is JsonObject fields && fields[field] is null)
        {
            Senseless(At(path, field), question);
        }
    }

    public IReadOnlyList<TItem> List<TItem>(JsonNode node, string path, Func<JsonNode?, string, TItem> read)
    {
        if (node is JsonArray items)
        {
            return [.. items.Select((item, i) => read(item, FormattableString.Invariant($"{path}[{i}]")))];
        }

        Unreadable(path, T($"{Show(node)} stands where a list should, in [ ]."));
        return [];
    }

    public Length? Length(JsonNode? node, string path)
    {
        var read = LengthJson.Read(node, path, faults, belowZero: true);
        FirstUnit ??= read?.Unit;
        return read?.Length;
    }

    /// <summary>A whole number; one beyond 32 bits comes back as the nearest that is not, for a range check to refuse.</summary>
    public int? Whole(JsonNode? node, string path)
    {
        if (node?.GetValueKind() == JsonValueKind.Number)
        {
            var text = node.ToJsonString();
            if (!decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number))
            {
                return text[0] == '-' ? int.MinValue : int.MaxValue;
            }

            if (decimal.Truncate(number) == number)
            {
                return (int)Math.Clamp(number, int.MinValue, int.MaxValue);
            }
        }

        Unreadable(path, T($"{Show(node)} is not a whole number."));
        return null;
    }

    public bool Flag(JsonNode? node, string path)
    {
        if (node?.GetValueKind() is JsonValueKind.True or JsonValueKind.False)
        {
            return node.GetValueKind() == JsonValueKind.True;
        }

        Unreadable(path, T($"{Show(node)} is neither true nor false."));
        return false;
    }

    public Lies? Lies(JsonNode? node, string path)
    {
        if (Text(node) is not { } word)
        {
            Unreadable(path, T($"{Show(node)} is not a text: {T(Words.All)}."));
            return null;
        }

        var lies = Words.Lies(word);
        if (lies is null)
        {
            Senseless(path, T($"“{Shown.Short(word)}” is no way for tucks to lie: {T(Words.All)}."));
        }

        return lies;
    }

    /// <summary>The text of a node; null when it is not one, or not whole characters.</summary>
    public static string? Text(JsonNode? node)
    {
        try
        {
            return node?.GetValueKind() == JsonValueKind.String ? node.GetValue<string>() : null;
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>What was sent, short enough for a message.</summary>
    public static string Show(JsonNode? node) => node switch
    {
        null => "null",
        JsonObject => T("An object"),
        JsonArray => T("A list"),
        _ => Text(node) is { } text ? $"“{Shown.Short(text)}”" : node.GetValueKind() == JsonValueKind.String ? T("A text of broken characters") : Shown.Short(node.ToJsonString()),
    };

    /// <summary>The words of the API for the ways tucks lie.</summary>
    internal static class Words
    {
        public const string All = // texts
            "towards-end, towards-start, from-centre or towards-centre";

        public static Lies? Lies(string word) => word switch
        {
            "towards-end" => Sewing.Lies.TowardsEnd,
            "towards-start" => Sewing.Lies.TowardsStart,
            "from-centre" => Sewing.Lies.FromCentre,
            "towards-centre" => Sewing.Lies.TowardsCentre,
            _ => null,
        };
    }
}
