using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>One field of a form, for <c>_Field.cshtml</c>.</summary>
public sealed record FieldView(Form Form, string Path, Field Field, Ask Ask)
{
    public FieldView(Form form, string prefix, Field field)
        : this(form, prefix + field.Name, field, Asking.For(prefix + field.Name, field, form.About))
    {
    }

    public string Id => Form.Id(Path);

    public string Text => Form.Text(Path);

    public string? Wrong => Form.Wrong(Path) ?? Form.Wrong(Path + ".own");

    /// <summary>The ids of what describes the field, for the reader of it.</summary>
    public string? Describes
    {
        get
        {
            var ids = string.Join(' ', new[] { Wrong is null ? null : Id + "-wrong", Ask.Help is null ? null : Id + "-help" }.OfType<string>());
            return ids.Length == 0 ? null : ids;
        }
    }

    /// <summary>The values of a closed list or of a facet, each with its label.</summary>
    public IReadOnlyList<(string Value, string Label)> Choices => Of(Field.Type, Form.Garment);

    /// <summary>What a date was understood as, where it is not written as it is recorded or could be meant otherwise; else null.</summary>
    public SpokenDate? Spoken => Field.Type is DateType && Text.Length > 0 && SpokenDate.Read(Text) is var heard && (heard.Edtf != Text || heard.Either.Count > 0) ? heard : null;

    private static IReadOnlyList<(string, string)> Of(FieldType type, JsonObject? garment) => type switch
    {
        ChoiceType choice => [.. choice.Values.Select(v => (v, Say.Plain(v)))],
        WordType word => [.. Words.In(word.Facet).Select(w => (w.Slug, Label: Say.Label(w))).OrderBy(w => w.Label, StringComparer.OrdinalIgnoreCase)],
        FlagType => [("true", T("Yes")), ("false", T("No"))],
        IdType id => [.. (garment?[id.Of] as JsonArray ?? []).OfType<JsonObject>().Select(e => (e["id"]!.ToString(), Say.Entry(id.Of, e)))],
        ListType list => Of(list.Item, garment),
        _ => [],
    };
}

/// <summary>The fields of a record or an entry, for <c>_Fields.cshtml</c>.</summary>
/// <param name="Form">The form they stand in.</param>
/// <param name="Fields">Which.</param>
/// <param name="Prefix">What stands before their names: <c>techniques[0].</c></param>
public sealed record FieldsView(Form Form, IReadOnlyList<Field> Fields, string Prefix);

/// <summary>A list whose rows can be added and taken out, for <c>_Rows.cshtml</c>; of techniques there is a button for each of the kinds.</summary>
public sealed record RowsView(Form Form, string Path, string Name, RecordType Shape, params string[] Kinds);

/// <summary>One row of such a list, for <c>_Row.cshtml</c>.</summary>
public sealed record RowView(Form Form, string Path, string Name, RecordType Shape, int Place);
