using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>The cloth close to, thread by thread, with a rule beside: as many threads to the inch as the record counts.</summary>
internal static class ClothPicture
{
    // Pixels a millimetre.
    private const float Scale = 16;

    private const float Usual = 90;

    public static void Draw(Sheet sheet, JsonObject garment)
    {
        var cloth = Entries(garment, "materials").FirstOrDefault();
        sheet.Weave(0.62f, Pitch(cloth, "warp"), Pitch(cloth, "weft"));
        Rule.Draw(sheet, Scale, across: true);
    }

    private static float Pitch(JsonObject? cloth, string way)
    {
        var inch = Number((cloth?["threadsPerInch"] as JsonObject)?[way]) ?? 2.54f * Number((cloth?["threadsPerCm"] as JsonObject)?[way]) ?? Usual;
        return Scale * 25.4f / inch;
    }
}
