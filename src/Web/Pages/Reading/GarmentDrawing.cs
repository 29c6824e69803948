namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>The drawing that stands in for a piece without a picture.</summary>
public static class GarmentDrawing
{
    private static readonly Dictionary<string, string[]> Drawn = new()
    {
        ["gown"] = ["christening-gown", "nightgown", "nightshirt", "gertrude", "infant-shirt", "chemise", "slip", "romper"],
        ["dress"] = ["dress", "lingerie-dress", "tea-gown", "baby-dress", "childs-dress", "pinafore", "wrapper", "doll-dress", "apron"],
        ["petticoat"] = ["petticoat", "drawers", "combinations"],
        ["cap"] = ["bonnet", "cap", "boudoir-cap"],
        ["blouse"] = ["blouse", "bodice", "guimpe", "chemisette", "corset-cover", "camisole", "sacque", "undersleeves"],
    };

    /// <summary>The address of the drawing for a kind; of any other piece, white work folded.</summary>
    public static string For(string? kind) => $"/drawings/{Drawn.FirstOrDefault(d => d.Value.Contains(kind)).Key ?? "piece"}.svg";
}
