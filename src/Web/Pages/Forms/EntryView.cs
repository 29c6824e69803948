using System.ComponentModel;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>One entry of a list, for <c>_Entry.cshtml</c>: the fields that its kind has, in a good order to ask for them.</summary>
public sealed record EntryView(Form Form, RecordType Shape, string Prefix)
{
    private static readonly string[] What =
        ["id", "kind", "tuckKind", "lace", "trim", "laceMade", "form", "work", "stitches", "motif", "seam", "hemKind", "fastening", "original", "date", "what", "method", "word", "use", "fibre", "weave", "weight"];

    private static readonly string[] Where = ["part", "side", "face", "at"];
    private static readonly string[] Sewing = ["sewn", "handStitch", "thread"];
    private static readonly string[] Evidence = ["evidence", "sure", "remains", "traces"];
    private static readonly string[] Last = ["repeats", "note", "pictures"];

    // Of a finding what matters most comes first; a technique's measures have no list, they are what its kind adds.
    private static readonly string[] First = [.. What, .. Where, "groups", "severity", "attention"];

    public bool IsTucks => Shape is KindedType && Kind == "tucks";

    public IReadOnlyList<Field> Fields =>
        [.. All.OrderBy(f => Array.IndexOf(First, f.Name) is >= 0 and var place ? place : f.Name is "note" or "pictures" ? 99 : First.Length)];

    /// <summary>
    /// A technique is asked for in the order one looks: what it is, where, its measures, how it is sewn, what shows that.
    /// All else is one step without a name.
    /// </summary>
    public IReadOnlyList<EntryStep> Steps => Shape is not KindedType
        ? [new(null, Fields)]
        :
        [
            .. new EntryStep[]
            {
                new("What it is", Named(What.Except(Sewing))), new("Where it is", Named(Where), "More on where it is"),
                new("How it measures", [.. Fields.Where(f => !What.Concat(Where).Concat(Sewing).Concat(Evidence).Concat(Last).Contains(f.Name))], "More measures"),
                new("How it is sewn", Named(Sewing)), new("What shows it", Named(Evidence), "What shows it, and how sure you are"), new(null, Named(Last)),
            }.Where(s => s.Fields.Count > 0),
        ];

    private IReadOnlyList<Field> All => Shape.FieldsOf(Kind is { } kind ? new JsonObject { ["kind"] = kind } : []);

    private string? Kind => Form.At(Prefix + "kind") is JsonValue slug ? slug.ToString() : null;

    private IReadOnlyList<Field> Named(IEnumerable<string> names)
    {
        var asked = names.ToArray();
        return [.. All.Where(f => asked.Contains(f.Name)).OrderBy(f => Array.IndexOf(asked, f.Name))];
    }
}

/// <summary>One step of it. In English, to be translated where it is shown.</summary>
/// <param name="Title">Its heading, or null.</param>
/// <param name="Fields">What is asked.</param>
/// <param name="More">What leads to those of the fields that can wait; null for the usual words.</param>
public sealed record EntryStep([Localizable(true)] string? Title, IReadOnlyList<Field> Fields, [Localizable(true)] string? More = null);
