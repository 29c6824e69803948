using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Catalogue.Measuring;
using HeirloomArchive.Web.Outlines;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Web.Pages.Worksheets;

namespace HeirloomArchive.Web.Tests.Language;

/// <summary>English texts that stand in no call: those of data files, and those made of a field's name or of a value of a closed list.</summary>
internal static class TextsOfTables
{
    public static IEnumerable<string> All() =>
    [
        .. new[] { GarmentShape.Garment, LessonShape.Lesson, LessonShape.Given, ListQuestion.Shape, WorksheetForm.Request, WorksheetForm.Plan, WorksheetForm.Onto, SideBySideModel.Shape }.SelectMany(Of),
        .. Evidence.Groups.SelectMany(g => g.Evidence.SelectMany(e => e.Marks.Select(m => m.Reason).Append(e.Seen)).Append(g.Name)),
        .. Evidence.Notes.Select(n => n.Text),
        .. KindMeasures.All.SelectMany(k => k.Measures).Select(m => m.Where),
        .. OutlineKinds.All.SelectMany(o => o.Faces.Select(f => f.Title).Append(o.Title)),
    ];

    private static IEnumerable<string> Of(FieldType type) => type switch
    {
        ChoiceType choice => choice.Values.Select(Say.InEnglish),
        ListType list => Of(list.Item),
        SpacingType => SpacingType.Meanings.SelectMany(Of),
        KindedType kinded => kinded.Kinds.SelectMany(k => kinded.FieldsOf(k)).SelectMany(Of),
        RecordType record => record.Fields.SelectMany(Of),
        _ => [],
    };

    private static IEnumerable<string> Of(Field field) => field.Type is IdType { Of: "" } ? [] : Of(field.Type).Prepend(field.Label);
}
