using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Lace or embroidered trimming close to: a band, one edge or both joined to cloth.</summary>
internal static class LacePicture
{
    /// <param name="sheet">To draw on.</param>
    /// <param name="technique">Of kind <c>lace</c>, <c>insertion</c>, <c>edging</c> or <c>embroidered-trim</c>.</param>
    public static void Draw(Sheet sheet, JsonObject technique)
    {
        var look = Text(technique, "lace") ?? Text(technique, "trim") ?? "torchon";
        var known = Millimetres(technique["width"]);
        var wide = known > 0 ? known : 25;
        var scale = Math.Clamp(500 / wide, 4, 34);
        var high = MathF.Min(760, wide * scale);
        var inserted = Text(technique, "form") is "insertion" or "beading" or "allover";
        var top = inserted ? (Sheet.Height - 120 - high) / 2 : 300;
        var repeat = Millimetres(technique["repeat"]) * scale;
        if (repeat < 60) repeat = high * 0.72f;
        repeat = Sheet.Width / MathF.Max(1, MathF.Round(Sheet.Width / repeat));
        var band = new LaceBand(sheet, top, top + high, repeat, scallops: !inserted);
        if (Text(technique, "trim") is not null) EmbroideredBand.Draw(band, eyelets: look != "embroidered-beading");
        else band.Draw(look);
        Cloth(sheet, 0, top, above: true);
        if (inserted) Cloth(sheet, top + high, Sheet.Height, above: false);
        Rule.Draw(sheet, scale, across: true);
    }

    // The cloth that holds the lace, its edge rolled and whipped.
    private static void Cloth(Sheet sheet, float from, float to, bool above)
    {
        var (warp, weft) = (4.2f, 4.4f);
        for (var y = (int)from; y < (int)to; y++)
        {
            for (var x = 0; x < Sheet.Width; x++)
            {
                var thread = MathF.Cos(x * 2 * MathF.PI / warp) + MathF.Cos(y * 2 * MathF.PI / weft);
                sheet.Cloth.Touch(x, y, 0.70f + 0.06f * thread + 0.035f * sheet.Chance.Grain(x / 4, 0) + 0.035f * sheet.Chance.Grain(1, y / 4), Blend.Lay);
            }
        }

        var edge = above ? to : from;
        var inward = above ? -1 : 1;
        for (var d = 0; d < 18; d++)
        {
            for (var x = 0; x < Sheet.Width; x++)
            {
                var y = (int)(edge + inward * d);
                sheet.Cloth.Touch(x, y, 0.75f, Blend.Lay);
                sheet.Light.Touch(x, y, d < 9 ? 0.04f : 0.10f * (d - 9) / 9, d < 9 ? Blend.Lift : Blend.Cut);
            }
        }

        for (float x = -10; x < Sheet.Width; x += 15 * sheet.Chance.Between(0.85f, 1.15f))
        {
            sheet.Thread(x, edge - inward * 7, x + 9, edge + inward * 19, 2.6f);
        }
    }
}
