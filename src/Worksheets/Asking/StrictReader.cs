using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Asking;

/// <summary>Reads the members of one object, one by one, and notes every fault with its path; what it was not asked for is unknown.</summary>
internal sealed class StrictReader(JsonObject node, string path, ICollection<Fault> faults)
{
    private readonly HashSet<string> asked = [];

    public bool Has(string name)
    {
        asked.Add(name);
        return node[name] is not null;
    }

    public string PathOf(string name) => path.Length == 0 ? name : $"{path}.{name}";

    public string? Text(string name, int longest)
    {
        if (Member(name) is not { } member)
        {
            return null;
        }

        if (member.GetValueKind() != JsonValueKind.String)
        {
            Unreadable(name, T($"{Shown(member)} is not a text; write it in quotation marks."));
            return null;
        }

        var text = member.GetValue<string>().Trim();
        if (text.Length > longest)
        {
            Senseless(name, T($"This text has {text.Length} characters; at most {longest} are kept."));
        }
        else if (text.Any(c => char.IsControl(c) && c is not ('\n' or '\r' or '\t')) || HasHalfPair(text))
        {
            Senseless(name, T("This text holds a sign that can't be printed; leave it out."));
        }

        return text.Length == 0 ? null : text;
    }

    public string? Choice(string name, params string[] choices)
    {
        if (Text(name, 200) is not { } text)
        {
            return null;
        }

        if (choices.Contains(text, StringComparer.Ordinal))
        {
            return text;
        }

        Senseless(name, T($"“{text}” is not known here; it is one of {string.Join(", ", choices)}."));
        return null;
    }

    public bool? YesNo(string name)
    {
        if (Member(name) is not { } member)
        {
            return null;
        }

        if (member.GetValueKind() is JsonValueKind.True or JsonValueKind.False)
        {
            return member.GetValue<bool>();
        }

        Unreadable(name, T($"{Shown(member)} is neither true nor false."));
        return null;
    }

    public int? Count(string name, int from, int to)
    {
        if (Member(name) is not { } member)
        {
            return null;
        }

        if (Number(member) is not { } number)
        {
            Unreadable(name, T($"{Shown(member)} is not a number."));
            return null;
        }

        if (number != decimal.Truncate(number) || number < from || number > to)
        {
            Senseless(name, T($"{Shown(member)} does not serve; it is a whole number from {from} to {to}."));
            return null;
        }

        return (int)number;
    }

    public decimal? Factor(string name, decimal from, decimal to)
    {
        if (Member(name) is not { } member)
        {
            return null;
        }

        if (Number(member) is not { } number)
        {
            Unreadable(name, T($"{Shown(member)} is not a number."));
            return null;
        }

        if (number < from || number > to)
        {
            Senseless(name, T($"{Shown(member)} does not serve; it is a number from {Whole(from)} to {Whole(to)}."));
            return null;
        }

        return number;
    }

    /// <summary>A length of 0 or more; above 0 when it may not be nothing.</summary>
    public TypedLength? Length(string name, bool nothingServes = true)
    {
        if (Member(name) is not { } member)
        {
            return null;
        }

        var before = faults.Count;
        var length = LengthJson.Read(member, PathOf(name), faults);
        if (faults.Count == before && length is { } read && (read.Length < Sewing.Length.Zero || (!nothingServes && read.Length == Sewing.Length.Zero)))
        {
            Senseless(name, nothingServes ? T($"“{read.Text}” does not serve; it is a length of 0 or more.") : T($"“{read.Text}” does not serve; it is a length above 0."));
        }

        return length;
    }

    public JsonObject? Object(string name)
    {
        if (Member(name) is not { } member)
        {
            return null;
        }

        if (member is JsonObject o)
        {
            return o;
        }

        Unreadable(name, T($"{Shown(member)} is not an object {{…}}."));
        return null;
    }

    public JsonArray? List(string name, int most)
    {
        if (Member(name) is not { } member)
        {
            return null;
        }

        if (member is not JsonArray list)
        {
            Unreadable(name, T($"{Shown(member)} is not a list […]."));
            return null;
        }

        if (list.Count > most)
        {
            Senseless(name, T($"{list.Count} are too many; at most {most} serve."));
            return null;
        }

        return list;
    }

    public void Senseless(string name, string message) => faults.Add(new Fault(PathOf(name), message));

    public void Unreadable(string name, string message) => faults.Add(new Fault(PathOf(name), message, FaultKind.Unreadable));

    /// <summary>Call last: every member that was not asked for is a fault.</summary>
    public void RefuseTheRest()
    {
        var known = string.Join(", ", asked.Order(StringComparer.Ordinal));
        foreach (var (name, _) in node.Where(m => !asked.Contains(m.Key)))
        {
            Unreadable(name, T($"“{name}” is not known here; known are {known}."));
        }
    }

    public static string Shown(JsonNode? node)
    {
        var text = node?.ToJsonString() ?? "null";
        return text.Length <= 40 ? text : text[..39] + "…";
    }

    private JsonNode? Member(string name)
    {
        asked.Add(name);
        return node[name];
    }

    private static decimal? Number(JsonNode member) =>
        member.GetValueKind() == JsonValueKind.Number && member.AsValue().TryGetValue<decimal>(out var number) ? number
        : member.GetValueKind() == JsonValueKind.Number && decimal.TryParse(
            member.ToJsonString(), System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out number) ? number
        : null;

    private static string Whole(decimal number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static bool HasHalfPair(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (i + 1 < text.Length && char.IsSurrogatePair(text[i], text[i + 1]))
            {
                i++;
            }
            else if (char.IsSurrogate(text[i]))
            {
                return true;
            }
        }

        return false;
    }
}
