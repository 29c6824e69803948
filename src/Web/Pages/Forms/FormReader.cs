using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using Microsoft.Extensions.Primitives;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>
/// Turns the fields of a posted form into the API's JSON, by the shape of what is asked for. What is left blank is left out;
/// what does not fit its field is kept as it was typed, so that the room that reads it says what is wrong, and where.
/// </summary>
public static class FormReader
{
    /// <param name="form">The fields posted; names that the shape does not know are passed over.</param>
    /// <param name="shape">What is asked for.</param>
    /// <param name="keepBlankRows">While she is still adding rows, those she has not filled in yet stay.</param>
    public static JsonObject Read(IEnumerable<KeyValuePair<string, StringValues>> form, RecordType shape, bool keepBlankRows = false)
    {
        var root = new Posted();
        var tape = Tape.None;
        foreach (var (name, texts) in form)
        {
            root.Place(Paths.Split(name), texts.ToString());
            tape = name == Tape.Field ? Tape.Named(texts) : tape;
        }

        return Object(root, shape, new(tape, keepBlankRows));
    }

    private static JsonObject Object(Posted posted, RecordType shape, Manner manner)
    {
        var hint = new JsonObject();
        if (posted.Members.TryGetValue("kind", out var kind) && Value(kind, new WordType("techniques"), manner) is JsonValue slug)
        {
            hint["kind"] = slug;
        }

        var read = new JsonObject();
        foreach (var field in shape.FieldsOf(hint).Where(f => f.Computed is null))
        {
            if (posted.Members.TryGetValue(field.Name, out var member) && Value(member, field.Type, manner) is { } value && value is not JsonObject { Count: 0 })
            {
                read[field.Name] = value;
            }
        }

        return read;
    }

    private static JsonNode? Value(Posted posted, FieldType type, Manner manner) => type switch
    {
        RecordType record => Object(posted, record, manner),
        SpacingType => Object(posted, new RecordType(SpacingType.Meanings), manner),
        ListType { Item: TextType } when posted.Items.Count == 0 => Texts(posted.Text),
        ListType list => List(posted, list.Item, manner),
        WordType when posted.Members.TryGetValue("own", out var own) && !string.IsNullOrWhiteSpace(own.Text) => new JsonObject { ["own"] = own.Text.Trim() },
        _ when string.IsNullOrWhiteSpace(posted.Text) => null,
        MeasureType => manner.Tape.Complete(posted.Text),
        FlagType => bool.TryParse(posted.Text, out var flag) ? flag : posted.Text,
        NumberType => decimal.TryParse(posted.Text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var number) ? number : posted.Text,
        TextType { Lines: true } => posted.Text.ReplaceLineEndings("\n"),
        _ => posted.Text.Trim(),
    };

    private static JsonArray? List(Posted posted, FieldType item, Manner manner)
    {
        var read = new JsonArray();
        foreach (var one in posted.Items.Values)
        {
            var value = Value(one, item, manner);
            if (value is not null && (manner.KeepBlankRows || !Form.IsBlank(value)))
            {
                read.Add(value);
            }
        }

        return read.Count == 0 ? null : read;
    }

    private static JsonArray? Texts(string text)
    {
        var parts = text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return parts.Length == 0 ? null : new JsonArray([.. parts.Select(p => JsonValue.Create(p))]);
    }

    private readonly record struct Manner(Tape Tape, bool KeepBlankRows);

    private sealed class Posted
    {
        public string Text { get; private set; } = "";

        public Dictionary<string, Posted> Members { get; } = [];

        public SortedDictionary<int, Posted> Items { get; } = [];

        public void Place(IReadOnlyList<object> path, string text)
        {
            var at = this;
            foreach (var step in path)
            {
                at = step is int place
                    ? at.Items.TryGetValue(place, out var item) ? item : at.Items[place] = new()
                    : at.Members.TryGetValue((string)step, out var member) ? member : at.Members[(string)step] = new();
            }

            at.Text = text;
        }
    }
}
