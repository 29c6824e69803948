using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Forms;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Changes of the record in words: where, and what stood and stands there.</summary>
public static class ChangeWords
{
    private const string ManyAtOnce = ", many at once", OfVersion = " of version ", Version = "version ";

    /// <summary>Where nothing is recorded.</summary>
    public static string Nothing => T("not recorded");

    /// <summary>A value of a field; what could not be read yet, as it was typed.</summary>
    /// <param name="field">Its row in the table; null where the table has none any more.</param>
    /// <param name="value">The value.</param>
    /// <param name="garment">The record that ids point into.</param>
    public static string Value(Field? field, JsonNode? value, JsonObject? garment = null)
    {
        value = field?.Type == GarmentShape.Picture || field?.Type is ListType { Item: var item } && item == GarmentShape.Picture ? WithoutUpload(value) : value;
        var said = (field?.Type, value) switch
        {
            (_, null) => "",
            (null, _) => Say.Loose(value),
            (IdType id, JsonValue) => Pointed(id, value, garment),
            (ListType { Item: IdType id }, JsonArray ids) => string.Join(", ", ids.Select(i => Pointed(id, i!, garment))),
            (MeasureType or SpacingType, JsonValue) => value.ToString(),
            _ when Fits(field.Type, value) => Say.Value(field, value),
            _ => Say.Loose(value),
        };
        return string.IsNullOrWhiteSpace(said) ? value is null ? Nothing : Say.Loose(value) : said;
    }

    /// <summary>The row of the table for a path of the record: <c>techniques[0].groups[1].width</c>; null where it has none.</summary>
    public static Field? FieldAt(string path)
    {
        Field? field = null;
        FieldType? type = GarmentShape.Garment;
        foreach (var step in Paths.Split(path))
        {
            (field, type) = (type, step) switch
            {
                (ListType list, int) => (new Field(field!.Name, list.Item), list.Item),
                (RecordType record, string name) when Named(record, name) is { } found => (found, found.Type),
                (SpacingType, string name) when SpacingType.Meanings.FirstOrDefault(f => f.Name == name) is { } found => (found, found.Type),
                _ => (null, null),
            };
            if (field is null)
            {
                return null;
            }
        }

        return field;
    }

    /// <summary>Where a change lies: "Pin tucks, yoke: group of tucks 2, width".</summary>
    /// <param name="path">As the history writes it.</param>
    /// <param name="record">The record whose entries it counts; null where only the place is known.</param>
    public static string Place(string path, JsonObject? record = null)
    {
        if (path == "pictures")
        {
            return T("Pictures");
        }

        if (Paths.Split(path) is not [string list, int place, ..] || (record?[list] as JsonArray)?.ElementAtOrDefault(place) is not JsonObject entry
            || !GarmentShape.EntryLists.Append("pictures").Contains(list))
        {
            return Say.Path(path);
        }

        var inner = path[(path.IndexOf(']', StringComparison.Ordinal) + 1)..].TrimStart('.');
        return inner.Length == 0 ? Say.Entry(list, entry) : $"{Say.Entry(list, entry)}: {Lower(Say.Path(inner))}";
    }

    /// <summary>What one change of the record did: "Changed dated and overall state", "Added to how it was made".</summary>
    public static string What(string what)
    {
        ArgumentNullException.ThrowIfNull(what);
        return what.EndsWith(ManyAtOnce, StringComparison.Ordinal) ? T($"{Did(what[..^ManyAtOnce.Length])}, many at once") : Did(what);
    }

    private static string Did(string what)
    {
        return what switch
        {
            _ when After("changed in ") is { } names => T($"Changed in {names}"),
            _ when After("changed ") is { } names => T($"Changed {names}"),
            _ when After("added to ") is { } names => T($"Added to {names}"),
            _ when After("taken out of ") is { } names => T($"Taken out of {names}"),
            _ when After("put back ") is { } names => T($"Put back {names}"),
            "entered" => T("Entered"),
            "added pictures" => T("Added pictures"),
            "set aside" => T("Set aside"),
            "brought back" => T("Brought back"),
            "shown to visitors" => T("Shown to visitors"),
            "hidden from visitors" => T("Hidden from visitors"),
            "changed" => T("Changed"),
            _ => Say.Capital(what),
        };

        string? After(string doing) =>
            what.StartsWith(doing, StringComparison.Ordinal) ? string.Join(", ", what[doing.Length..].Split(", ").Select(Named)) : null;
    }

    // A field, or what was put back: "version 3", "dated of version 3".
    private static string Named(string name) => name.Split(OfVersion) switch
    {
        [var field, var version] => T($"{Named(field)} of version {version}"),
        _ when name.StartsWith(Version, StringComparison.Ordinal) => T($"version {name[Version.Length..]}"),
        _ => name switch
        {
            "techniques" => T("how it was made"),
            "examinations" => T("the times it was looked over"),
            "condition" => T("condition"),
            "repairs" => T("repairs"),
            "pictures" => T("pictures"),
            "measures" => T("measures"),
            "marks" => T("marks"),
            "alterations" => T("alterations"),
            "materials" => T("cloth"),
            _ when GarmentShape.Garment.Fields.FirstOrDefault(f => f.Name == name) is { } known => Lower(T(Asking.For(name, known).Label)),
            _ => name,
        },
    };

    private static string Lower(string text) => text.Length == 0 ? text : char.ToLowerInvariant(text[0]) + text[1..];

    // What the upload found out of a picture says nothing to a reader; one without words of hers is a picture all the same.
    private static JsonNode? WithoutUpload(JsonNode? picture) => picture switch
    {
        JsonArray several => new JsonArray([.. several.Select(WithoutUpload)]),
        JsonObject one when !one.ContainsKey("caption") && !one.ContainsKey("view") => JsonValue.Create(T("a picture")),
        JsonObject one => new JsonObject(one.Where(m => m.Key is not ("id" or "sha256" or "width" or "height")).Select(m => KeyValuePair.Create(m.Key, m.Value?.DeepClone()))),
        _ => picture,
    };

    private static Field? Named(RecordType record, string name) =>
        record.Fields.FirstOrDefault(f => f.Name == name)
        ?? (record as KindedType)?.Kinds.SelectMany(k => ((KindedType)record).FieldsOf(k)).FirstOrDefault(f => f.Name == name);

    private static bool Fits(FieldType type, JsonNode value) => type switch
    {
        RecordType or MeasureType or SpacingType => value is JsonObject,
        ListType list => value is JsonArray items && items.All(i => i is not null && Fits(list.Item, i)),
        FlagType => value is JsonValue v && v.GetValueKind() is System.Text.Json.JsonValueKind.True or System.Text.Json.JsonValueKind.False,
        WordType => true,
        _ => value is JsonValue,
    };

    private static string Pointed(IdType type, JsonNode id, JsonObject? garment) =>
        (garment?[type.Of] as JsonArray)?.OfType<JsonObject>().FirstOrDefault(e => e["id"]?.ToString() == id.ToString()) is { } entry
            ? Say.Entry(type.Of, entry)
            : type.Of == "garments" ? T("another piece") : T($"a {Asking.One(type.Of)} that is not there");
}
