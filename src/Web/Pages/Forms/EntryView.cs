using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>One entry of a list, for <c>_Entry.cshtml</c>: the fields that its kind has, in a good order to ask for them.</summary>
public sealed record EntryView(Form Form, string List, RecordType Shape, string Prefix)
{
    // What it is comes before where it is; how it was sewn after its measures.
    private static readonly string[] First =
        ["id", "kind", "tuckKind", "lace", "trim", "date", "what", "method", "part", "side", "groups", "severity", "attention"];

    public bool IsTucks => Shape is KindedType && Kind == "tucks";

    public IReadOnlyList<Field> Fields
    {
        get
        {
            var fields = Shape.FieldsOf(Kind is { } kind ? new JsonObject { ["kind"] = kind } : []);
            return [.. fields.OrderBy(f => Array.IndexOf(First, f.Name) is >= 0 and var place ? place : f.Name is "note" or "pictures" ? 99 : First.Length)];
        }
    }

    private string? Kind => Form.At((Prefix.Length == 0 ? "" : Prefix) + "kind") is JsonValue slug ? slug.ToString() : null;
}
