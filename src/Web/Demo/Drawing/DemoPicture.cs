using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Draws the demonstration's pictures: no photographs of invented pieces exist.</summary>
public static class DemoPicture
{
    /// <param name="garment">The garment as <c>GET /api/garments/{id}</c> answers it.</param>
    /// <param name="what"><c>whole</c>, or the entry to show close to: <c>techniques[0]</c>, <c>repairs[1]</c>.</param>
    /// <returns>A PNG file of 900 × 1200 pixels, the same each time.</returns>
    public static byte[] Draw(JsonObject garment, string what)
    {
        var number = Text(garment, "number") ?? "";
        var sheet = new Sheet(Chance.Seed(number + what), Chance.Seed(number));
        if (what == "whole")
        {
            if (Cut.Of(Text(garment, "kind")) is { } cut) new WholePiece(sheet, cut, garment).Draw();
            else SmallPiece.Draw(sheet, garment);
            return sheet.Develop();
        }

        var entry = Entry(garment, what);
        if (what.StartsWith("repairs", StringComparison.Ordinal)) NeedlePicture.Mend(sheet, entry);
        else if (Text(entry, "kind") == "tucks") TuckPicture.Draw(sheet, entry);
        else if (Text(entry, "kind") is "lace" or "insertion" or "edging" or "embroidered-trim") LacePicture.Draw(sheet, entry);
        else NeedlePicture.Embroidery(sheet, entry);
        return sheet.Develop();
    }
}
