using System.Numerics;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Lace edging seen from afar, along a line.</summary>
internal static class Lace
{
    /// <param name="sheet">To draw on.</param>
    /// <param name="line">The edge of the cloth.</param>
    /// <param name="depth">In pixels; above 0 the lace lies to the right of the way the line runs (upwards of a line that runs to the right), below 0 to the left.</param>
    public static void Along(Sheet sheet, ReadOnlySpan<Vector2> line, float depth)
    {
        var wide = MathF.Abs(depth);
        var repeat = MathF.Max(12, wide * 0.95f);
        var (walked, lengths) = (0f, new float[line.Length]);
        for (var i = 1; i < line.Length; i++) lengths[i] = walked += Vector2.Distance(line[i - 1], line[i]);
        var count = Math.Max(1, (int)MathF.Round(walked / repeat));
        for (var k = 0; k < count; k++)
        {
            var (from, to) = (At(line, lengths, walked * k / count), At(line, lengths, walked * (k + 1) / count));
            var along = to - from;
            var out_ = Vector2.Normalize(new(along.Y, -along.X)) * wide * MathF.Sign(depth);
            var middle = (from + to) / 2;
            Vector2[] scallop = [from, .. Shapes.Smooth(from + out_ * 0.62f, from + along * 0.2f + out_ * 0.92f, middle + out_, to - along * 0.2f + out_ * 0.92f, to + out_ * 0.62f), to];
            sheet.Cloth.Fill(scallop, 0.30f);
            sheet.Cloth.Path(scallop.AsSpan(1, scallop.Length - 2), 2.6f, 0.85f);
            sheet.Cloth.Fill(Shapes.Oval(middle.X + out_.X * 0.5f, middle.Y + out_.Y * 0.5f, wide * 0.17f + 1, wide * 0.17f + 1, 0, 12), 0.8f);
            for (var mesh = 0; mesh < 4 && wide > 12; mesh++)
            {
                var t = mesh / 4f;
                sheet.Cloth.Path([from + along * t, from + along * (t + 0.25f) + out_ * 0.75f], 1.3f, 0.5f);
                sheet.Cloth.Path([from + along * (t + 0.25f), from + along * t + out_ * 0.75f], 1.3f, 0.5f);
            }

            sheet.Cloth.Stroke(from.X, from.Y, to.X, to.Y, 3.4f, 0.8f);
        }
    }

    private static Vector2 At(ReadOnlySpan<Vector2> line, float[] lengths, float distance)
    {
        var i = 1;
        while (i < line.Length - 1 && lengths[i] < distance) i++;
        var step = MathF.Max(0.001f, lengths[i] - lengths[i - 1]);
        return Vector2.Lerp(line[i - 1], line[i], Math.Clamp((distance - lengths[i - 1]) / step, 0, 1));
    }
}
