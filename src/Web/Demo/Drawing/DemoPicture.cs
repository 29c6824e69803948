using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Draws the demonstration's pictures: no photographs of invented pieces exist.</summary>
public static class DemoPicture
{
    private const string Behind = ", from behind", Raking = ", raking";

    /// <param name="garment">The garment as <c>GET /api/garments/{id}</c> answers it.</param>
    /// <param name="what">
    /// <c>whole</c>, <c>back</c>, its <c>cloth</c> with a rule beside, or the entry to show close to: <c>techniques[0]</c>,
    /// <c>repairs[1]</c>, <c>condition[0]</c>. With <c>, raking</c> the light comes from one side, with <c>, from behind</c> through it.
    /// </param>
    /// <returns>A PNG file of 900 × 1200 pixels, the same each time.</returns>
    public static byte[] Draw(JsonObject garment, string what)
    {
        var from = what.EndsWith(Behind, StringComparison.Ordinal) ? LightFrom.Behind : what.EndsWith(Raking, StringComparison.Ordinal) ? LightFrom.Side : LightFrom.Above;
        var shown = what.Split(',')[0];
        var number = Text(garment, "number") ?? "";
        var sheet = new Sheet(Chance.Seed(number + shown), Chance.Seed(number)) { From = from };
        switch (shown)
        {
            case "whole" when Cut.Of(Text(garment, "kind")) is { } cut: new WholePiece(sheet, cut, garment).Draw(); break;
            case "back" when Cut.Of(Text(garment, "kind")) is { } cut: new WholePiece(sheet, cut.FromBehind, garment, fromBehind: true).Draw(); break;
            case "whole" or "back" when new FlatPiece(sheet, garment, behind: shown == "back").Draw(): break;
            case "whole" or "back": SmallPiece.Draw(sheet, garment); break;
            case "cloth": ClothPicture.Draw(sheet, garment); break;
            default: Close(sheet, Entry(garment, shown), shown); break;
        }

        return sheet.Develop();
    }

    private static void Close(Sheet sheet, JsonObject entry, string what)
    {
        if (what.StartsWith("repairs", StringComparison.Ordinal)) NeedlePicture.Mend(sheet, entry);
        else if (what.StartsWith("condition", StringComparison.Ordinal)) DamagePicture.Draw(sheet, entry);
        else if (Text(entry, "kind") == "tucks") TuckPicture.Draw(sheet, entry);
        else if (Text(entry, "kind") is "lace" or "insertion" or "edging" or "embroidered-trim") LacePicture.Draw(sheet, entry);
        else if (!new SewnPicture(sheet, entry).Draw() && !WhiteworkPicture.Draw(sheet, entry)) NeedlePicture.Embroidery(sheet, entry);
    }
}
