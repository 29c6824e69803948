using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Catalogue.Measuring;

namespace HeirloomArchive.Catalogue;

/// <summary>
/// The texts that pages show and no line of code holds: the names of the fields, what may be chosen in them, and what stands in this
/// room's JSON tables. For the list of all that can be translated; each is English here and translated where it is shown.
/// </summary>
public static class TextsOfTables
{
    /// <summary>All of them, each once.</summary>
    public static IReadOnlyList<string> All { get; } = [.. Of(GarmentShape.Garment).Concat(OfFiles()).Distinct()];

    /// <summary>A value of a closed list in words: <c>handle-in-class</c> is "Handle in class".</summary>
    public static string InWords(string choice)
    {
        ArgumentException.ThrowIfNullOrEmpty(choice);
        return char.ToUpperInvariant(choice[0]) + choice[1..].Replace('-', ' ');
    }

    private static IEnumerable<string> Of(FieldType type) => type switch
    {
        KindedType kinded => kinded.Kinds.SelectMany(k => kinded.FieldsOf(k)).SelectMany(Of),
        RecordType record => record.Fields.SelectMany(Of),
        ListType list => Of(list.Item),
        SpacingType => SpacingType.Meanings.SelectMany(Of),
        ChoiceType choice => choice.Values.Select(InWords),
        _ => [],
    };

    private static IEnumerable<string> Of(Field field) => Of(field.Type).Prepend(field.Label);

    private static IEnumerable<string> OfFiles() =>
    [
        .. Cautions.All.SelectMany(c => new[] { c.Text, c.Reason }),
        .. Evidence.Groups.SelectMany(g => g.Evidence.SelectMany(e => e.Marks.Select(m => m.Reason).Prepend(e.Seen)).Prepend(g.Name)),
        .. Evidence.Notes.Select(n => n.Text),
        .. KindMeasures.All.SelectMany(k => k.Measures).Select(m => m.Where),
    ];
}
