using System.Numerics;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Crochet: roses and leaves in relief on a ground of loops, or squares of filet.</summary>
internal sealed class CrochetMotifs(LaceBand band)
{
    private readonly Sheet sheet = band.Sheet;

    public void Draw(bool filet)
    {
        if (filet)
        {
            Filet();
            return;
        }

        for (var row = 0; row * 30 < band.High + 40; row++)
        {
            for (var x = -20f + row % 2 * 21; x < Sheet.Width + 40; x += 42)
            {
                var y = band.Top + row * 30;
                sheet.ThreadPath(Shapes.Arc(x, y, 21, 0, MathF.PI, 10), 3.2f);
                sheet.Cloth.Fill(Shapes.Oval(x, y + 24, 4, 4, 0, 10), 0.85f);
            }
        }

        for (var x = band.Repeat / 2; x < Sheet.Width + band.Repeat; x += band.Repeat)
        {
            Rose(x, (band.Top + band.Bottom) / 2, MathF.Min(band.Repeat, band.High) * 0.30f);
            var at = new Vector2(x + band.Repeat / 2, band.Top + band.High * 0.5f);
            foreach (var (dx, dy) in (ReadOnlySpan<(float, float)>)[(-0.2f, -0.3f), (0.2f, -0.3f), (-0.2f, 0.3f), (0.2f, 0.3f)])
            {
                var leaf = Shapes.Leaf(at, at + new Vector2(dx * band.Repeat, dy * band.High), band.Repeat * 0.13f);
                band.Solid(leaf, 0.9f, 5);
                sheet.Light.Stroke(at.X, at.Y, at.X + dx * band.Repeat * 0.9f, at.Y + dy * band.High * 0.9f, 3, 0.22f, Blend.Cut);
            }
        }
    }

    private void Rose(float x, float y, float size)
    {
        for (var ring = 3; ring >= 1; ring--)
        {
            var reach = size * ring / 3;
            var petals = 5 + ring;
            for (var k = 0; k < petals; k++)
            {
                var turn = 2 * MathF.PI * (k + ring * 0.4f) / petals;
                var (s, c) = MathF.SinCos(turn);
                var petal = Shapes.Oval(x + c * reach * 0.72f, y + s * reach * 0.72f, size * 0.17f, reach * 2f / petals + 4, turn, 20);
                sheet.Light.Fill(Shapes.Oval(x + c * reach * 0.72f + 3, y + s * reach * 0.72f + 5, size * 0.19f, reach * 2f / petals + 6, turn, 20), 0.11f, Blend.Cut);
                band.Solid(petal, 0.93f, 3.4f);
                sheet.Light.Fill(petal, 0.05f + 0.03f * (3 - ring), Blend.Lift);
            }
        }

        band.Solid(Shapes.Oval(x, y, size * 0.13f, size * 0.13f), 0.95f, 4);
        sheet.Light.Stroke(x, y, x, y, size * 0.08f, 0.3f, Blend.Cut);
    }

    private void Filet()
    {
        var cell = band.High / 24;
        string[] chart =
        [
            "........................", "..#..................#..", ".###......####......###.", "..#......##..##......#..", "........##....##........",
            "...##...#......#...##...", "..####..########..####..", ".##.###..######..###.##.", "..#..###.##..##.###..#..", "......##########.##.....",
            "....#..########..#......", "...###..######..###.....", "....#....####....#......", "..........##............", ".#..#..#..##..#..#..#..#", "########################",
        ];
        for (var row = 0; row < 25; row++) sheet.Thread(0, band.Top + row * cell, Sheet.Width, band.Top + row * cell, 3.2f, 0.85f);
        for (var column = 0; column * cell < Sheet.Width; column++)
        {
            var x = column * cell;
            sheet.Thread(x, band.Top, x, band.Bottom, 3.2f, 0.85f);
            for (var row = 0; row < chart.Length; row++)
            {
                if (chart[row][column % 24] != '#') continue;
                var y = band.Top + (row + 4) * cell;
                for (var k = 1; k < 4; k++) sheet.Thread(x + cell * k / 4, y, x + cell * k / 4, y + cell, cell * 0.2f);
            }
        }
    }
}
