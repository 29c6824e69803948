using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Web.Pages.Forms;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>What is recorded, as labels and values in the order of the record; what is not recorded is not listed.</summary>
public sealed record FactsView(IReadOnlyList<(string Label, string Text)> Facts, bool Across = false)
{
    private static readonly string[] Never = ["id", "pictures", "examination", "continues", "answers", "under", "crosses"];

    /// <param name="shape">Its fields.</param>
    /// <param name="value">What is recorded.</param>
    /// <param name="besides">Fields that are shown elsewhere.</param>
    public static FactsView Of(RecordType shape, JsonObject value, params string[] besides) =>
        Of(shape.FieldsOf(value).Where(f => !Never.Contains(f.Name) && !besides.Contains(f.Name)), value) with { Across = true };

    public static FactsView Of(IEnumerable<Field> fields, JsonObject value) => new(
    [
        .. fields.Select(f => (Label: Label(f), Text: Text(f, value[f.Name], value))).Where(f => f.Text.Length > 0),
    ]);

    private static string Label(Field field) => field.Name switch
    {
        "runs" => T("The folds go"),
        "turned" => T("Turned"),
        "lies" => T("So the tucks lie"),
        "holds" => T("Holds"),
        "trend" => T("Changing"),
        "groups" => T("Tucks"),
        "between" => T("From group to group"),
        _ => T(Asking.For(field.Name, field).Label),
    };

    private static string Text(Field field, JsonNode? value, JsonObject whole) =>
        // Her words are told beside the date only where they say more.
        field.Name == "datedText" && whole["dated"] is { } dated && DateInWords.SayInEnglish(dated.ToString()) == value?.ToString() ? "" : Text(field, value);

    private static string Text(Field field, JsonNode? value) => field.Name == "groups" && value is JsonArray groups
        ? Say.Groups(new JsonObject { ["groups"] = groups.DeepClone() })
        : Say.Value(field, value);
}
