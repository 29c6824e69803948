namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>The paper rule that lies beside a detail: blocks of 10 mm, every other one dark.</summary>
internal static class Rule
{
    /// <param name="sheet">To draw on.</param>
    /// <param name="scale">Pixels a millimetre.</param>
    /// <param name="across">Whether it lies along the foot of the sheet, else along its right side.</param>
    public static void Draw(Sheet sheet, float scale, bool across)
    {
        var paper = sheet.Dye(238, 231, 214);
        var ink = sheet.Dye(58, 54, 62);
        const float deep = 44;
        var block = 10 * scale;
        var count = Math.Clamp((int)((across ? Sheet.Width : Sheet.Height) * 0.62f / block), 1, 12);
        var length = block * count;
        float x = across ? 60 : Sheet.Width - 60 - deep, y = across ? Sheet.Height - 60 - deep : Sheet.Height - 60 - length;
        var (w, h) = across ? (length, deep) : (deep, length);
        var shape = new Plane(Sheet.Width, Sheet.Height);
        shape.Fill(Shapes.Box(x - 8, y - 8, w + 16, h + 16), 1);
        sheet.Shadow(shape, 4, 6, 6, 0.4f);
        // The paper lies on the cloth and hides what was shaded beneath it.
        for (var i = 0; i < shape.Values.Length; i++) sheet.Light.Values[i] += (1 - sheet.Light.Values[i]) * shape.Values[i];
        paper.Fill(Shapes.Box(x - 8, y - 8, w + 16, h + 16), 1);
        for (var i = 0; i < count; i += 2)
        {
            ink.Fill(across ? Shapes.Box(x + i * block, y + deep * 0.55f, block, deep * 0.45f) : Shapes.Box(x + deep * 0.55f, y + i * block, deep * 0.45f, block), 0.9f);
        }

        for (var mm = 0; scale >= 5 && mm <= 10; mm++)
        {
            var high = mm % 5 == 0 ? 18f : 10f;
            if (across) ink.Stroke(x + mm * scale, y + 2, x + mm * scale, y + high, 1.6f, 0.9f);
            else ink.Stroke(x + 2, y + mm * scale, x + high, y + mm * scale, 1.6f, 0.9f);
        }
    }
}
