using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>The garment's own fields as the forms ask for them; its entries have forms of their own.</summary>
public static class MainFields
{
    public static readonly string[] First = ["name", "number", "kind", "dated", "datedText", "made", "overall", "handling", "description"];

    public static readonly string[] Lists = ["materials", "measures"];

    public static readonly string[] More =
        ["tags", "where", "maker", "wornBy", "occasion", "story", "marks", "alterations", "whereabouts", "shown", "acquired", "place"];

    /// <summary>All of them, by the shape of the record.</summary>
    public static IReadOnlyList<Field> All { get; } = [.. First.Concat(Lists).Concat(More).Select(n => GarmentShape.Garment.Fields.Single(f => f.Name == n))];
}
