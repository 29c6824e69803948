using System.Numerics;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Outlines, in pixels.</summary>
internal static class Shapes
{
    public static Vector2[] Box(float x, float y, float width, float height) =>
        [new(x, y), new(x + width, y), new(x + width, y + height), new(x, y + height)];

    public static Vector2[] Oval(float x, float y, float rx, float ry, float turn = 0, int points = 28)
    {
        var outline = new Vector2[points];
        var (sin, cos) = MathF.SinCos(turn);
        for (var i = 0; i < points; i++)
        {
            var (s, c) = MathF.SinCos(2 * MathF.PI * i / points);
            outline[i] = new(x + rx * c * cos - ry * s * sin, y + rx * c * sin + ry * s * cos);
        }

        return outline;
    }

    /// <summary>A leaf from its stalk to its tip.</summary>
    public static Vector2[] Leaf(Vector2 stalk, Vector2 tip, float width)
    {
        var along = tip - stalk;
        var side = Vector2.Normalize(new(-along.Y, along.X)) * width / 2;
        var outline = new Vector2[24];
        for (var i = 0; i < 12; i++)
        {
            var t = i / 11f;
            var swell = side * MathF.Sin(MathF.PI * MathF.Pow(t, 0.85f));
            outline[i] = stalk + along * t + swell;
            outline[23 - i] = stalk + along * t - swell;
        }

        return outline;
    }

    public static Vector2[] Arc(float x, float y, float radius, float from, float to, int points = 20)
    {
        var line = new Vector2[points];
        for (var i = 0; i < points; i++)
        {
            var (s, c) = MathF.SinCos(from + (to - from) * i / (points - 1));
            line[i] = new(x + radius * c, y + radius * s);
        }

        return line;
    }

    /// <summary>A smooth line through the points (Catmull-Rom); a point given twice is a corner.</summary>
    public static Vector2[] Smooth(params ReadOnlySpan<Vector2> through)
    {
        var line = new List<Vector2>();
        for (var i = 0; i < through.Length - 1; i++)
        {
            var (a, b) = (through[i], through[i + 1]);
            if (a == b) continue;
            var before = i > 0 ? through[i - 1] : a;
            var after = i + 2 < through.Length ? through[i + 2] : b;
            for (var k = 0; k < 14; k++) line.Add(Between(before, a, b, after, k / 14f));
        }

        line.Add(through[^1]);
        return [.. line];
    }

    /// <summary>The right half of an outline, from top to bottom, with its mirror image about <paramref name="middle"/>.</summary>
    public static Vector2[] Both(ReadOnlySpan<Vector2> right, float middle)
    {
        var all = new Vector2[right.Length * 2];
        for (var i = 0; i < right.Length; i++)
        {
            all[i] = right[i];
            all[^(i + 1)] = new(2 * middle - right[i].X, right[i].Y);
        }

        return all;
    }

    private static Vector2 Between(Vector2 before, Vector2 a, Vector2 b, Vector2 after, float t) =>
        (2 * a + (b - before) * t + (2 * before - 5 * a + 4 * b - after) * (t * t) + (3 * a - before - 3 * b + after) * (t * t * t)) / 2;
}
