using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>The record in words: labels for slugs, lengths as typed, entries in a line.</summary>
public static class Say
{
    /// <summary>A value of a closed list: <c>handle-in-class</c> is "Handle in class".</summary>
    public static string Plain(string slug) => slug switch
    {
        "in16" => T("Inches, to 1/16"),
        "in32" => T("Inches, to 1/32"),
        "mm" => T("Millimetres"),
        "letter" => T("US Letter"),
        _ => T(InEnglish(slug)),
    };

    /// <summary>Such a value in English.</summary>
    public static string InEnglish(string slug) => Capital(slug.Replace('-', ' '));

    /// <summary>A word of a facet, or her own; empty where nothing is recorded.</summary>
    public static string Word(string facet, JsonNode? value) => value switch
    {
        JsonObject own => own["own"]?.ToString() ?? "",
        JsonValue slug => Word(facet, slug.ToString()),
        _ => "",
    };

    /// <summary>A word of a facet by its slug; the slug itself where there is none.</summary>
    public static string Word(string facet, string slug) => Words.Find(facet, slug) is { } word ? Label(word) : slug;

    /// <summary>A word of the trade in the reader's language; one of her own as she wrote it.</summary>
    public static string Label(Word word) => word.IsOwn ? word.Label : T(word.Label);

    /// <summary>A length as it was typed.</summary>
    public static string Length(JsonNode? length) => length?["text"]?.ToString() ?? "";

    /// <summary>A sentence of a worksheet, in which no line ends within a length.</summary>
    public static string Sentence(JsonNode? text) => Sewing.Unbroken.Of(text?.ToString() ?? "");

    /// <summary>A recorded value of any type, for a list of facts; empty where there is nothing.</summary>
    public static string Value(Field field, JsonNode? value) => (field.Type, value) switch
    {
        (_, null) => "",
        (WordType word, _) => Word(word.Facet, value),
        (MeasureType, _) => Length(value),
        (SpacingType, JsonObject o) => o["text"]?.ToString() ?? Record(SpacingType.Meanings, o),
        (FlagType, JsonValue v) => v.GetValue<bool>() ? T("Yes") : T("No"),
        (ChoiceType, _) => Plain(value.ToString()),
        (DateType, _) => DateInWords.Say(value.ToString()),
        (RecordType record, JsonObject o) => Record(record.FieldsOf(o), o),
        (ListType list, JsonArray items) => List(list, items),
        _ => value.ToString(),
    };

    /// <summary>One entry of a list, short enough for a choice: "Pin tucks, yoke".</summary>
    public static string Entry(string list, JsonObject entry)
    {
        var part = Word("parts", entry["part"]).ToLowerInvariant();
        var what = list switch
        {
            "techniques" => Technique(entry),
            "condition" => Word("findings", entry["what"]),
            "repairs" => Word("repairs", entry["method"]),
            "examinations" => entry["date"] is { } date ? T($"Examination, {DateInWords.Say(date.ToString())}") : T("Examination"),
            "pictures" => entry["caption"]?.ToString() ?? Word("views", entry["view"]),
            _ => "",
        };
        what = what.Length > 0 ? what : Capital(Forms.Asking.One(list));
        return part.Length > 0 ? $"{what}, {part}" : what;
    }

    /// <summary>What a technique is called: "Pin tucks", "Torchon lace", "Whitework".</summary>
    public static string Technique(JsonObject technique)
    {
        var kind = Word("techniques", technique["kind"]);
        var (facet, named) = technique["tuckKind"] is { } tuck ? ("tucks", tuck)
            : technique["lace"] is { } lace ? ("laces", lace)
            : technique["trim"] is { } trim ? ("trims", trim)
            : technique["work"] is { } work ? ("whitework", work)
            : technique["seam"] is { } seam ? ("seams", seam)
            : technique["hemKind"] is { } hem ? ("hems", hem)
            : technique["fastening"] is { } fastening && technique["kind"]?.ToString() == "fastening" ? ("fastenings", fastening) : ("", null);
        var name = Word(facet, named);
        // Whether a name tells its kind is seen in English: "Pin tucks" does, "Torchon" does not.
        return name.Length == 0 ? kind
            : InEnglish(facet, named).Contains(InEnglish("techniques", technique["kind"]).TrimEnd('s'), StringComparison.OrdinalIgnoreCase) ? name
            : T($"{name} {kind.ToLowerInvariant()}").Trim();
    }

    /// <summary>Groups of tucks in a line: "6 tucks of 1/16 in, 3/16 in of plain cloth between".</summary>
    public static string Groups(JsonObject technique) => string.Join("; ", (technique["groups"] as JsonArray ?? []).OfType<JsonObject>().Select(g =>
    {
        var (many, wide) = (g["tucks"]?.ToString(), Length(g["width"]));
        var number = many == "1" ? 1 : long.TryParse(many, CultureInfo.InvariantCulture, out var counted) ? counted : 2;
        var tucks = (many, wide) switch
        {
            (null, "") => T("tucks"),
            (null, _) => T($"tucks of {wide}"),
            (_, "") => N(number, $"{many} tuck", $"{many} tucks"),
            _ => N(number, $"{many} tuck of {wide}", $"{many} tucks of {wide}"),
        };
        return g["space"] is { } space ? T($"{tucks}, {Length(space)} of plain cloth between")
            : g["stitchToStitch"] is { } pitch ? T($"{tucks}, {Length(pitch)} stitching to stitching")
            : g["foldToFold"] is { } fold ? T($"{tucks}, {Length(fold)} fold to fold") : tucks;
    }));

    /// <summary>Where a fault lies, in words: <c>techniques[0].groups[1].width</c> is "Technique 1, group of tucks 2, width".</summary>
    public static string Path(string path)
    {
        var steps = Forms.Paths.Split(path);
        var words = new List<string>();
        for (var i = 0; i < steps.Count; i++)
        {
            if (steps[i] is string name)
            {
                words.Add(i + 1 < steps.Count && steps[i + 1] is int place
                    ? $"{Forms.Asking.One(name)} {place + 1}"
                    : T(Forms.Asking.For(string.Join('.', steps.Take(i + 1).OfType<string>()), new Field(name, new FlagType())).Label).ToLowerInvariant());
            }
        }

        return words.Count == 0 ? "" : Capital(string.Join(", ", words));
    }

    /// <summary>A value whose field is not known here: of a difference or a change.</summary>
    public static string Loose(JsonNode? value) => value switch
    {
        null => T("nothing"),
        JsonObject o when o["text"] is JsonValue text => text.ToString(),
        JsonObject o when o["own"] is JsonValue own => own.ToString(),
        JsonObject o => string.Join(", ", o.Where(m => m.Key is not ("id" or "sha256") && m.Value is not (null or JsonArray { Count: 0 })).Select(m => $"{T(new Field(m.Key, new FlagType()).Label).ToLowerInvariant()} {Loose(m.Value)}")),
        JsonArray a => a.Count == 0 ? T("nothing") : string.Join("; ", a.Select(Loose)),
        _ => value.ToString() is { Length: > 0 } said ? said : T("nothing"),
    };

    /// <summary>A moment as a day and time of this computer.</summary>
    public static string When(string moment) =>
        DateTimeOffset.TryParse(moment, CultureInfo.InvariantCulture, DateTimeStyles.None, out var when)
            ? Written.Moment(when) : moment;

    /// <summary>A whole number of an answer, whichever type it was written from.</summary>
    public static long Number(JsonNode? number) => number is null ? 0 : long.Parse(number.ToString(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);

    /// <summary>A name as a sentence of its own: with a full stop, unless it asks or calls.</summary>
    public static string Ended(string name) => name.Length > 0 && name[^1] is ('.' or '?' or '!') ? name : name + ".";

    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static bool IsThreads(Field field) => field.Name is "threadsPerInch" or "threadsPerCm";

    private static string Record(IEnumerable<Field> fields, JsonObject value) => Joined(fields
        .Select(f => (f, Text: f.Type is IdType ? "" : IsThreads(f) && value[f.Name] is JsonObject count ? ThreadCount.Say(f.Name, count) : Value(f, value[f.Name]))).Where(p => p.Text.Length > 0)
        .Select(p => IsThreads(p.f) || p.f.Name is "text" or "is" or "word" or "name" or "part" or "length" or "fibre" or "weave" or "what" or "use" ? p.Text
            : p.f.Name is "sure" or "taken" or "side" or "face" or "weight" ? p.Text.ToLowerInvariant()
            : p.f.Type is FlagType ? Flag(T(p.f.Label).ToLowerInvariant(), value[p.f.Name]!.GetValue<bool>())
            : $"{T(Forms.Asking.For(p.f.Name, p.f).Label).ToLowerInvariant()} {(p.f.Type is ChoiceType ? p.Text.ToLowerInvariant() : p.Text)}").ToList());

    private static string Flag(string label, bool yes) => yes ? label : T($"not {label}");

    private static string InEnglish(string facet, JsonNode? value) => value is JsonValue slug ? Words.Label(facet, slug.ToString()) : Word(facet, value);

    // A sentence of hers in the middle ends without its full stop.
    private static string Joined(List<string> parts) => string.Join(", ", parts.Select((part, i) => i < parts.Count - 1 ? part.TrimEnd('.') : part));

    private static string List(ListType list, JsonArray items) => list.Item is IdType ? ""
        : string.Join(list.Item is RecordType ? "\n" : ", ", items.OfType<JsonNode>().Select(n => Value(new Field("item", list.Item), n)).Where(t => t.Length > 0));
}
