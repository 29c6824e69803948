using System.Numerics;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>How laces look that have no mesh of their own, or another than bobbin net: plaits, tapes, knots, rings, wheels, stitches on net.</summary>
internal sealed class LaceLooks(LaceBand band)
{
    private readonly Sheet sheet = band.Sheet;

    /// <summary>Draws the look; false when it is one of those that <see cref="LaceBand"/> draws itself.</summary>
    public bool Draw(string look)
    {
        switch (look)
        {
            case "cluny" or "bedfordshire" or "plaited": Plaits(cross: false); break;
            case "maltese": Plaits(cross: true); break;
            case "tape" or "battenberg" or "branscombe" or "russian" or "bruges" or "duchesse": Tape(look is "battenberg" ? 26 : 15, mesh: false); break;
            case "princess": Tape(13, mesh: true); break;
            case "filet" or "filet-crochet": new CrochetMotifs(band).Draw(filet: true); break;
            case "netting": Netting(); break;
            case "reticella": Squares(); break;
            case "tatting" or "oya": Rings(); break;
            case "hairpin" or "braid-crochet": Loops(); break;
            case "knitted" or "raschel": Knitted(); break;
            case "teneriffe": Wheels(); break;
            case "macrame": Knots(); break;
            case "hollie-point": Hollie(); break;
            case "limerick" or "coggeshall" or "embroidered-net": OnNet(laid: false); break;
            case "carrickmacross" or "brussels-applique" or "oriental" or "normandy": OnNet(laid: true); break;
            default: return false;
        }

        return true;
    }

    private IEnumerable<float> Repeats()
    {
        for (var x = band.Repeat / 2; x < Sheet.Width + band.Repeat; x += band.Repeat) yield return x;
    }

    private float Middle => (band.Top + band.Bottom) / 2;

    // Plaits cross without any mesh; where they meet lie pointed leaves.
    private void Plaits(bool cross)
    {
        var high = band.High * 0.46f;
        foreach (var x in Repeats())
        {
            foreach (var side in (ReadOnlySpan<int>)[-1, 1])
            {
                for (var k = 0; k < 3; k++)
                {
                    var from = new Vector2(x + side * band.Repeat * (0.08f + 0.18f * k), Middle - high);
                    sheet.ThreadPath(Shapes.Smooth(from, new(x + side * band.Repeat * 0.5f, Middle), new(x + side * band.Repeat * (0.42f - 0.18f * k), Middle + high)), 4.6f);
                }
            }

            for (var k = 0; k < 8; k++)
            {
                var (s, c) = MathF.SinCos(MathF.PI * (k + 0.5f) / 4);
                var far = MathF.Min(high, band.Repeat * 0.42f);
                band.Solid(Shapes.Leaf(new(x + c * far * 0.16f, Middle + s * far * 0.16f), new(x + c * far * 0.86f, Middle + s * far * 0.86f), far * 0.26f), 0.92f, 3);
            }

            if (cross)
            {
                foreach (var (dx, dy) in (ReadOnlySpan<(float, float)>)[(1, 0), (0, 1)]) sheet.Cloth.Stroke(x - dx * 22, Middle - dy * 22, x + dx * 22, Middle + dy * 22, 14, 0.95f);
            }
            else band.Dot(x, Middle, 12);
        }
    }

    // One tape winds through the pattern; its hollows are filled with the needle.
    private void Tape(float wide, bool mesh)
    {
        if (mesh)
        {
            band.Threads(MathF.PI / 3, 10, 1.1f, 0.5f);
            band.Threads(-MathF.PI / 3, 10, 1.1f, 0.5f);
        }

        foreach (var x in Repeats())
        {
            float r = band.Repeat * 0.26f, far = band.High * 0.3f;
            foreach (var (cx, cy) in (ReadOnlySpan<(float, float)>)[(x, Middle - far * 0.75f), (x - band.Repeat * 0.25f, Middle + far * 0.5f), (x + band.Repeat * 0.25f, Middle + far * 0.5f)])
            {
                for (var k = 0; k < 8; k++)
                {
                    var (s, c) = MathF.SinCos(MathF.PI * k / 4);
                    sheet.Thread(cx, cy, cx + c * r * 0.8f, cy + s * far * 0.6f, 2.4f);
                }

                band.Dot(cx, cy, r * 0.13f);
                var ring = Shapes.Oval(cx, cy, r * 0.82f, far * 0.66f, points: 30);
                Span<Vector2> closed = [.. ring, ring[0]];
                sheet.Cloth.Path(closed, wide, 0.92f);
                sheet.Light.Path(closed, 1.5f, 0.2f, Blend.Cut);
            }
        }
    }

    private void Netting()
    {
        band.Threads(MathF.PI / 4, 30, 3.2f, 0.85f);
        band.Threads(-MathF.PI / 4, 30, 3.2f, 0.85f);
        for (var (y, row) = (band.Top, 0); y < band.Bottom; y += 21.2f, row++)
        {
            for (var x = row % 2 * 21.2f; x < Sheet.Width; x += 42.4f) sheet.Cloth.Fill(Shapes.Oval(x, y, 4.6f, 4.6f, points: 10), 0.9f);
        }
    }

    // Few threads left of the cloth, covered; in each square another star.
    private void Squares()
    {
        var side = band.High / 2;
        for (var k = 0; k <= 2; k++) sheet.Thread(0, band.Top + k * side, Sheet.Width, band.Top + k * side, 9);
        for (var (x, n) = (0f, 0); x < Sheet.Width; x += side, n++)
        {
            sheet.Thread(x, band.Top, x, band.Bottom, 9);
            for (var row = 0; row < 2; row++)
            {
                float cx = x + side / 2, cy = band.Top + (row + 0.5f) * side;
                for (var k = 0; k < 8; k++)
                {
                    var (s, c) = MathF.SinCos(MathF.PI * k / 4);
                    sheet.Thread(cx, cy, cx + c * side * 0.5f, cy + s * side * 0.5f, 3.2f);
                    if ((k + n + row) % 2 == 0) band.Solid(Shapes.Leaf(new(cx + c * 8, cy + s * 8), new(cx + c * side * 0.42f, cy + s * side * 0.42f), side * 0.12f), 0.9f, 2);
                }

                Span<Vector2> ring = Shapes.Arc(cx, cy, side * (n % 2 == row ? 0.3f : 0.42f), 0, 2 * MathF.PI, 26);
                sheet.ThreadPath(ring, 4.5f);
            }
        }
    }

    private void Rings()
    {
        var r = MathF.Min(band.Repeat * 0.2f, band.High * 0.2f);
        foreach (var x in Repeats())
        {
            foreach (var (dx, dy) in (ReadOnlySpan<(float, float)>)[(0, -0.18f), (-0.25f, 0.1f), (0.25f, 0.1f), (0, 0.3f)])
            {
                var (cx, cy) = (x + dx * band.Repeat, Middle + dy * band.High);
                sheet.ThreadPath(Shapes.Arc(cx, cy, r, 0, 2 * MathF.PI, 26), 8);
                for (var k = 0; k < 7; k++)
                {
                    var (s, c) = MathF.SinCos(2 * MathF.PI * k / 7);
                    sheet.ThreadPath(Shapes.Arc(cx + c * (r + 9), cy + s * (r + 9), 8, 0, 2 * MathF.PI, 12), 2.2f);
                }
            }

            sheet.ThreadPath(Shapes.Arc(x - band.Repeat / 2, band.Top + band.High * 0.16f, band.Repeat * 0.34f, 0.1f, MathF.PI - 0.1f, 24), 8);
        }
    }

    private void Loops()
    {
        for (var x = 12f; x < Sheet.Width; x += 16)
        {
            foreach (var up in (ReadOnlySpan<int>)[-1, 1])
            {
                sheet.ThreadPath(Shapes.Smooth(new(x, Middle), new(x - 8, Middle + up * band.High * 0.22f), new(x, Middle + up * band.High * 0.40f), new(x + 8, Middle + up * band.High * 0.22f), new(x, Middle)), 3);
            }
        }

        for (var x = 0f; x < Sheet.Width; x += 13) sheet.Cloth.Fill(Shapes.Oval(x, Middle, 9, 15, 0.5f), 0.9f);
    }

    private void Knitted()
    {
        for (var (y, row) = (band.Top, 0); y < band.Bottom; y += 17, row++)
        {
            for (var x = 0f; x < Sheet.Width + 12; x += 12)
            {
                var open = (int)(x / 12 + row) % 8 is 2 or 6;
                if (open) continue;
                sheet.Thread(x, y, x + 6, y + 14, 3.6f);
                sheet.Thread(x + 12, y, x + 6, y + 14, 3.6f);
            }
        }
    }

    private void Wheels()
    {
        var r = MathF.Min(band.Repeat, band.High) * 0.46f;
        foreach (var x in Repeats())
        {
            for (var k = 0; k < 32; k++)
            {
                var (s, c) = MathF.SinCos(2 * MathF.PI * k / 32);
                sheet.Thread(x + c * r * 0.1f, Middle + s * r * 0.1f, x + c * r, Middle + s * r, 2);
            }

            foreach (var ring in (ReadOnlySpan<float>)[0.14f, 0.32f, 0.36f, 0.68f, 0.97f]) sheet.ThreadPath(Shapes.Arc(x, Middle, r * ring, 0, 2 * MathF.PI, 40), ring > 0.9f ? 6 : 3.4f);
            for (var k = 0; k < 8; k++)
            {
                var (s, c) = MathF.SinCos(MathF.PI * k / 4);
                band.Solid(Shapes.Leaf(new(x + c * r * 0.4f, Middle + s * r * 0.4f), new(x + c * r * 0.92f, Middle + s * r * 0.92f), r * 0.16f), 0.9f, 2);
            }
        }
    }

    private void Knots()
    {
        for (var x = 6f; x < Sheet.Width; x += 11) sheet.Thread(x, band.Top, x, band.Bottom, 3, 0.75f);
        foreach (var x in Repeats())
        {
            foreach (var side in (ReadOnlySpan<int>)[-1, 1])
            {
                for (var k = 0; k < 14; k++)
                {
                    var at = new Vector2(x + side * k * band.Repeat / 28, band.Top + 30 + k * band.High * 0.045f);
                    foreach (var dy in (ReadOnlySpan<float>)[0, 34]) sheet.Cloth.Fill(Shapes.Oval(at.X, at.Y + dy, 11, 8, side * 0.7f), 0.92f);
                    sheet.Light.Stroke(at.X, at.Y + 8, at.X + 6 * side, at.Y + 12, 2, 0.2f, Blend.Cut);
                }
            }
        }
    }

    // Close rows of knots like cloth; the pattern is what was left out.
    private void Hollie()
    {
        for (var y = band.Top; y < band.Bottom; y += 9)
        {
            for (var x = (int)(y / 9) % 2 * 5; x < Sheet.Width; x += 10) sheet.Thread(x, y, x + 8, y + 3, 6, 0.85f);
        }

        foreach (var x in Repeats())
        {
            for (var k = 0; k < 26; k++)
            {
                var (s, c) = MathF.SinCos(2 * MathF.PI * k / 26);
                var far = band.High * (0.2f + 0.1f * MathF.Cos(k * 1.45f));
                sheet.Cloth.Fill(Shapes.Oval(x + c * far, Middle + s * far, 5.5f, 5.5f, points: 12), 0.95f, Blend.Cut);
            }
        }
    }

    // Machine net; on it chain stitch and running, or cloth laid on and outlined.
    private void OnNet(bool laid)
    {
        band.Threads(MathF.PI / 3, 12, 1.3f, 0.55f);
        band.Threads(-MathF.PI / 3, 12, 1.3f, 0.55f);
        band.Threads(0, 12, 1, 0.35f);
        foreach (var x in Repeats())
        {
            var size = MathF.Min(band.Repeat, band.High) * 0.25f;
            band.Flower(x, Middle - size * 0.2f, size, 6, laid ? 0.85f : 0.16f, laid ? 4 : 5.5f);
            foreach (var side in (ReadOnlySpan<int>)[-1, 1])
            {
                var stem = Shapes.Smooth(new(x, Middle + size), new(x + side * band.Repeat * 0.22f, Middle + band.High * 0.34f), new(x + side * band.Repeat * 0.46f, Middle + band.High * 0.1f), new(x + side * band.Repeat * 0.46f, Middle - band.High * 0.3f));
                sheet.ThreadPath(stem, 5.5f);
                for (var k = 1; k < 6; k++)
                {
                    var at = stem[stem.Length * k / 6];
                    band.Solid(Shapes.Leaf(at, at + new Vector2(-side * size * 0.5f, -size * 0.5f), size * 0.36f), laid ? 0.85f : 0.2f, 4);
                }
            }
        }
    }
}
