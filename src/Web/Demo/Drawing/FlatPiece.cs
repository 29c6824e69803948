using System.Numerics;
using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Whole pieces of shapes of their own: squares and points of cloth, caps, capes, suits, pages of specimens.</summary>
internal sealed class FlatPiece(Sheet sheet, JsonObject garment, bool behind)
{
    private const float Middle = Sheet.Width / 2f;

    /// <summary>Draws the piece; false when its kind is none of these.</summary>
    public bool Draw()
    {
        switch (Text(garment, "kind"))
        {
            case "bonnet": Bonnet(); break;
            case "boudoir-cap": Round(); break;
            case "combinations": Combinations(); break;
            case "romper": Romper(); break;
            case "fichu": Fichu(); break;
            case "handkerchief": Square(); break;
            case "apron": Apron(); break;
            case "nightdress-case": Case(); break;
            case "veil": Veil(); break;
            case "carrying-cape": Cape(); break;
            case "bib": Bib(); break;
            case "stamped-piece": Stamped(); break;
            case "sampler": Specimens(); break;
            case "lace-length": Card(); break;
            default: return false;
        }

        return true;
    }

    private static Vector2 P(int side, float x, float y) => new(Middle + side * x, y);

    private void Bonnet()
    {
        foreach (var dx in (ReadOnlySpan<float>)[0, 46]) sheet.Cloth.Path(Shapes.Smooth(new(370 + dx, 760), new(350 + dx, 900), new(400 + dx, 1010), new(370 + dx * 2, 1110)), 20, 0.72f);
        SmallPiece.Lay(sheet, Shapes.Smooth(new(560, 760), new(700, 800), new(760, 900), new(760, 900), new(600, 900), new(520, 800)), 0.7f);
        SmallPiece.Lay(sheet, Shapes.Smooth(new(330, 780), new(250, 620), new(260, 430), new(360, 300), new(540, 290), new(690, 400), new(720, 580), new(670, 770), new(670, 770), new(330, 780)), 0.8f);
        for (var k = 0; k < 9; k++)
        {
            var line = Shapes.Smooth(new(330 + k * 12, 776), new(262 + k * 16, 610), new(280 + k * 18, 420), new(368 + k * 17, 310));
            sheet.Cloth.Path(line, 7, 0.7f);
            sheet.Light.Path([.. line.Select(p => p + new Vector2(5, 2))], 3, 0.2f, Blend.Cut);
        }

        foreach (var k in (ReadOnlySpan<int>)[0, 1]) sheet.Cloth.Path(Shapes.Smooth(new(520 + k * 44, 300), new(640 + k * 24, 430 + k * 10), new(650 + k * 20, 640), new(600 + k * 30, 770)), 4, 0.8f);
        for (var y = 330f; y < 760; y += 26) sheet.Cloth.Fill(Shapes.Oval(562 + 90 * MathF.Sin((y - 300) / 160), y, 6, 6), 0.95f, Blend.Cut);
        Lace.Along(sheet, Shapes.Smooth(new(330, 784), new(246, 620), new(256, 428), new(358, 294)), 50);
    }

    private void Round()
    {
        var ring = Shapes.Oval(Middle, 580, 300, 290, 0, 60);
        SmallPiece.Lay(sheet, ring, 0.5f);
        for (var k = 0; k < 60; k++)
        {
            var (s, c) = MathF.SinCos(2 * MathF.PI * k / 60);
            sheet.Light.Stroke(Middle + c * 80, 580 + s * 76, Middle + c * 296, 580 + s * 286, 5, k % 2 == 0 ? 0.12f : 0.06f, Blend.Cut);
        }

        for (var y = 330; y < 830; y += 34)
        {
            for (var x = 190 + y % 3 * 10; x < 720; x += 36)
            {
                if ((x - 450) * (x - 450) + (y - 580) * (y - 580) < 210 * 210) sheet.Cloth.Fill(Shapes.Oval(x, y, 4.5f, 4.5f, points: 10), 0.9f);
            }
        }

        Span<Vector2> band = [.. Shapes.Oval(Middle, 580, 240, 230, 0, 60), new(Middle + 240, 580)];
        sheet.Cloth.Path(band, 34, 0.55f);
        for (var k = 0; k < 48; k++)
        {
            var (s, c) = MathF.SinCos(2 * MathF.PI * k / 48);
            if (k % 3 != 0) sheet.Cloth.Fill(Shapes.Oval(Middle + c * 240, 580 + s * 230, 8, 8, points: 8), 0.9f);
        }

        Lace.Along(sheet, [.. ring, ring[0]], 52);
        var rose = sheet.Dye(212, 178, 186);
        for (var k = 0; k < 5; k++) rose.Fill(Shapes.Oval(232 + 22 * MathF.Cos(k * 1.26f), 470 + 22 * MathF.Sin(k * 1.26f), 20, 14, k), 0.85f);
    }

    private void Combinations()
    {
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            var half = Shapes.Smooth(P(side, 0, 190), P(side, 66, 176), P(side, 66, 176), P(side, 92, 120), P(side, 128, 128), P(side, 128, 128), P(side, 140, 250), P(side, 152, 330), P(side, 116, 460), P(side, 168, 640), P(side, 230, 960), P(side, 230, 960), P(side, 62, 980), P(side, 62, 980), P(side, 40, 760), P(side, 0, 690), P(side, 0, 190));
            SmallPiece.Lay(sheet, half, 0.78f);
            for (var k = 0; k < 3; k++) SmallPiece.Tuck(sheet, P(side, 64, 930 - k * 16), P(side, 226, 912 - k * 16), 5);
            Lace.Along(sheet, [P(side, 230, 960), P(side, 62, 980)], 40 * side);
            if (!behind) for (var k = 0; k < 2; k++) sheet.Light.Stroke(Middle + side * (40 + k * 34), 330, Middle + side * (48 + k * 26), 470, 3, 0.24f, Blend.Cut);
            Lace.Along(sheet, Shapes.Smooth(P(side, 128, 128), P(side, 138, 230), P(side, 150, 320)), -14 * side);
        }

        sheet.Cloth.Stroke(Middle, 196, Middle, 690, 20, 0.7f);
        if (behind) return;
        for (var y = 220f; y < 640; y += 52) sheet.Cloth.Fill(Shapes.Oval(Middle, y, 8, 8), 1);
    }

    private void Romper()
    {
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            SmallPiece.Lay(sheet, Shapes.Smooth(P(side, 0, 320), P(side, 96, 320), P(side, 96, 320), P(side, 110, 220), P(side, 166, 226), P(side, 166, 226), P(side, 172, 420), P(side, 196, 600), P(side, 286, 830), P(side, 270, 920), P(side, 270, 920), P(side, 70, 940), P(side, 70, 940), P(side, 30, 850), P(side, 0, 840), P(side, 0, 320)), 0.8f);
            for (var k = 0; k < 8; k++) sheet.Light.Stroke(Middle + side * (84 + k * 24), 930, Middle + side * (110 + k * 20), 820 - k % 3 * 20, 6, 0.12f, Blend.Cut);
            if (behind) continue;
            var duck = Shapes.Smooth(P(side, 60, 650), P(side, 110, 610), P(side, 160, 610), P(side, 176, 570), P(side, 200, 590), P(side, 180, 660), P(side, 110, 690), P(side, 60, 650));
            sheet.Dye(96, 122, 164).Path([.. duck, duck[0]], 4, 0.9f);
            sheet.Cloth.Fill(duck, 0.5f);
        }

        sheet.Dye(96, 122, 164).Path([P(-1, 96, 320), P(1, 96, 320)], 5, 0.9f);
        if (!behind) return;
        sheet.Dye(70, 74, 84).Stroke(Middle, 322, Middle, 620, 9, 0.9f);
        sheet.Dye(196, 198, 204).Fill(Shapes.Box(Middle - 6, 316, 12, 26), 0.95f);
    }

    private void Fichu()
    {
        Vector2[] outline = [.. Shapes.Smooth(new(70, 300), new(450, 240), new(830, 300), new(830, 300), new(640, 640), new(450, 1020), new(450, 1020), new(260, 640), new(70, 300))];
        Net(outline);
        foreach (var (x, y) in (ReadOnlySpan<(float, float)>)[(450, 820), (330, 560), (570, 560), (450, 420), (240, 380), (660, 380)]) Spray(x, y, 44);
        Lace.Along(sheet, outline.AsSpan(28, outline.Length - 28), 40);
    }

    private void Veil()
    {
        Vector2[] outline = [.. Shapes.Smooth(new(120, 120), new(450, 90), new(780, 120), new(780, 120), new(810, 600), new(760, 1120), new(760, 1120), new(450, 1160), new(140, 1120), new(140, 1120), new(90, 600), new(120, 120))];
        Net(outline);
        for (var (y, row) = (200f, 0); y < 1100; y += 110, row++) for (var x = 190 + row % 2 * 60; x < 740; x += 130) Spray(x, y, y > 900 ? 40 : 17);
        Lace.Along(sheet, [new(140, 1120), new(450, 1160), new(760, 1120)], -34);
    }

    // Net so thin that the ground shows through.
    private void Net(ReadOnlySpan<Vector2> outline)
    {
        SmallPiece.Lay(sheet, outline, 0.34f);
        var shape = new Plane(Sheet.Width, Sheet.Height);
        shape.Fill(outline, 1);
        sheet.Cloth.Clip = shape;
        for (var x = -1200f; x < 1300; x += 11)
        {
            sheet.Cloth.Stroke(x, 0, x + 700, 1200, 1.2f, 0.3f);
            sheet.Cloth.Stroke(x, 1200, x + 700, 0, 1.2f, 0.3f);
        }

        sheet.Cloth.Clip = null;
    }

    private void Spray(float x, float y, float size)
    {
        for (var k = 0; k < 5; k++)
        {
            var (s, c) = MathF.SinCos(2 * MathF.PI * k / 5 - 1.57f);
            sheet.Cloth.Fill(Shapes.Oval(x + c * size * 0.6f, y + s * size * 0.6f, size * 0.42f, size * 0.26f, MathF.Atan2(s, c)), 0.85f);
        }

        sheet.ThreadPath(Shapes.Smooth(new(x, y + size * 0.5f), new(x + size * 0.3f, y + size), new(x, y + size * 1.6f)), MathF.Max(2, size * 0.08f));
    }

    private void Square()
    {
        SmallPiece.Lay(sheet, Shapes.Box(130, 280, 640, 640), 0.62f);
        foreach (var inset in (ReadOnlySpan<float>)[44, 62])
        {
            var box = Shapes.Box(130 + inset, 280 + inset, 640 - 2 * inset, 640 - 2 * inset);
            sheet.Cloth.Path([.. box, box[0]], 10, 0.85f, Blend.Cut);
            for (var t = inset + 6; t < 640 - inset; t += 9)
            {
                foreach (var far in (ReadOnlySpan<float>)[inset, 640 - inset])
                {
                    sheet.Cloth.Stroke(130 + t, 280 + far - 5, 130 + t, 280 + far + 5, 2.4f, 0.8f);
                    sheet.Cloth.Stroke(130 + far - 5, 280 + t, 130 + far + 5, 280 + t, 2.4f, 0.8f);
                }
            }
        }

        sheet.Cloth.Fill(Shapes.Box(600, 750, 120, 120), 0.9f, Blend.Cut);
        for (var k = 0; k < 16; k++)
        {
            var (s, c) = MathF.SinCos(MathF.PI * k / 8);
            sheet.Thread(660, 810, 660 + c * 58, 810 + s * 58, 3);
        }

        foreach (var r in (ReadOnlySpan<float>)[20, 40, 57]) sheet.ThreadPath(Shapes.Arc(660, 810, r, 0, 2 * MathF.PI, 30), 4);
        var edge = Shapes.Box(130, 280, 640, 640);
        for (var i = 0; i < 4; i++) Lace.Along(sheet, [edge[i], edge[(i + 1) % 4]], 22);
    }

    private void Apron()
    {
        SmallPiece.Lay(sheet, Shapes.Box(320, 150, 260, 250), 0.8f);
        foreach (var side in (ReadOnlySpan<int>)[-1, 1]) SmallPiece.Lay(sheet, Shapes.Smooth(P(side, 100, 160), P(side, 150, 90), P(side, 190, 110), P(side, 190, 110), P(side, 176, 260), P(side, 126, 390)), 0.66f);
        SmallPiece.Lay(sheet, Shapes.Smooth(new(290, 410), new(610, 410), new(610, 410), new(760, 700), new(770, 980), new(770, 980), new(130, 980), new(130, 980), new(140, 700), new(290, 410)), 0.76f);
        SmallPiece.Lay(sheet, Shapes.Box(190, 390, 520, 34), 0.9f);
        foreach (var side in (ReadOnlySpan<int>)[-1, 1]) sheet.Cloth.Path(Shapes.Smooth(P(side, 260, 408), P(side, 320, 460), P(side, 300, 560), P(side, 350, 640)), 22, 0.7f);
        for (var k = 0; k < 6; k++) sheet.Light.Stroke(330 + k * 48, 430, 260 + k * 76, 700 + k % 2 * 120, 8, 0.08f, Blend.Cut);
        for (var x = 160f; x < 740; x += 62) { sheet.Cloth.Fill(Shapes.Box(x, 830, 40, 40), 0.9f, Blend.Cut); sheet.Cloth.Fill(Shapes.Box(x + 15, 830, 10, 40), 0.9f); sheet.Cloth.Fill(Shapes.Box(x, 845, 40, 10), 0.9f); }
        EmbroideredBand.Hole(sheet, Shapes.Oval(Middle, 270, 44, 44), 8);
        for (var x = 134f; x < 770; x += 7) sheet.Thread(x, 980, x + sheet.Chance.Between(-6, 6), 1050, 2.6f, 0.8f);
    }

    private void Case()
    {
        SmallPiece.Lay(sheet, Shapes.Box(130, 330, 640, 500), 0.88f);
        SmallPiece.Lay(sheet, Shapes.Smooth(new(130, 330), new(770, 330), new(770, 330), new(640, 560), new(450, 680), new(260, 560), new(130, 330)), 0.7f);
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            for (var k = 0; k < 5; k++) EmbroideredBand.Satin(sheet, P(side, 20 + k * 40, 560 - k * 34), P(side, 74 + k * 40, 500 - k * 26 + k % 2 * 40), 26);
        }

        Spray(Middle, 560, 64);
        for (var x = 130f; x < 770; x += 8) sheet.Thread(x, 830, x + sheet.Chance.Between(-9, 9), 910, 4, 0.8f);
        foreach (var side in (ReadOnlySpan<int>)[-1, 1]) for (var y = 334f; y < 830; y += 8) sheet.Thread(Middle + side * 320, y, Middle + side * 392, y + sheet.Chance.Between(-9, 9), 4, 0.8f);
        sheet.Dye(228, 222, 214).Fill(Shapes.Oval(Middle, 652, 13, 13), 0.95f);
    }

    private void Cape()
    {
        SmallPiece.Lay(sheet, Shapes.Smooth(new(360, 150), new(540, 150), new(540, 150), new(760, 620), new(820, 1060), new(820, 1060), new(450, 1130), new(80, 1060), new(80, 1060), new(140, 620), new(360, 150)), 0.8f);
        SmallPiece.Lay(sheet, Shapes.Smooth(new(360, 150), new(540, 150), new(540, 150), new(690, 400), new(720, 590), new(720, 590), new(450, 640), new(180, 590), new(180, 590), new(210, 400), new(360, 150)), 0.66f);
        foreach (var (y, wide, sag) in (ReadOnlySpan<(float, float, float)>)[(540, 250, 44), (1000, 340, 60)])
        {
            var line = Enumerable.Range(0, 120).Select(k => { var t = k / 59.5f - 1; return new Vector2(Middle + t * wide + 14 * MathF.Sin(k * 0.9f), y + sag * (1 - t * t) + 20 * MathF.Cos(k * 0.9f)); }).ToArray();
            sheet.ThreadPath(line, 6);
        }

        if (behind) sheet.Light.Stroke(Middle, 640, Middle, 1110, 3, 0.16f, Blend.Cut);
        else
        {
            sheet.Light.Stroke(Middle, 160, Middle, 1120, 4, 0.34f, Blend.Cut);
            foreach (var side in (ReadOnlySpan<int>)[-1, 1]) sheet.ThreadPath(Shapes.Smooth(P(side, 4, 160), P(side, 30, 280), P(side, 16, 400)), 11);
        }

        for (var t = -0.96f; t < 1; t += 0.04f) sheet.Thread(Middle + t * 272, 590 + 48 * (1 - t * t), Middle + t * 276, 636 + 50 * (1 - t * t), 4, 0.8f);
    }

    private void Bib()
    {
        SmallPiece.Lay(sheet, Shapes.Smooth(new(330, 300), new(360, 420), new(450, 460), new(540, 420), new(570, 300), new(570, 300), new(690, 330), new(720, 560), new(640, 800), new(450, 890), new(260, 800), new(180, 560), new(210, 330), new(330, 300)), 0.82f);
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            var scroll = Shapes.Arc(Middle + side * 110, 600, 80, 0.4f, 5.6f, 40);
            sheet.Light.Path([.. scroll.Select(p => p + new Vector2(4, 6))], 9, 0.2f, Blend.Cut);
            sheet.Cloth.Path(scroll, 9, 0.5f);
            for (var k = 0; k < 4; k++) sheet.Light.Fill(Shapes.Oval(Middle + side * (30 + k % 2 * 34), 700 + k / 2 * 34, 15, 14), 0.14f, Blend.Cut);
        }

        sheet.Cloth.Path(Shapes.Smooth(new(330, 304), new(300, 220), new(340, 150), new(310, 70)), 13, 0.75f);
        Lace.Along(sheet, Shapes.Smooth(new(690, 330), new(720, 560), new(640, 800), new(450, 890), new(260, 800), new(180, 560), new(210, 330)), -40);
    }

    private void Stamped()
    {
        SmallPiece.Lay(sheet, Shapes.Box(70, 150, 760, 860), 0.76f);
        var blue = sheet.Dye(96, 120, 178);
        foreach (var r in (ReadOnlySpan<float>)[200, 330]) blue.Path(Shapes.Arc(Middle, 330, r, 0.1f, MathF.PI - 0.1f, 50), 3, 0.7f);
        for (var k = 0; k <= 14; k++)
        {
            var (s, c) = MathF.SinCos(0.2f + k * (MathF.PI - 0.4f) / 14);
            var at = new Vector2(Middle + c * 265, 330 + s * 265);
            if (k > 10) EmbroideredBand.Hole(sheet, Shapes.Oval(at.X, at.Y, 13, 13), 6);
            else blue.Path([.. Shapes.Oval(at.X, at.Y, 15, 15), new(at.X + 15, at.Y)], 2.4f, 0.7f);
            var tip = new Vector2(Middle + c * 312, 330 + s * 312);
            if (k > 11) EmbroideredBand.Satin(sheet, at + (tip - at) * 0.4f, tip, 15);
            else blue.Path([.. Shapes.Leaf(at + (tip - at) * 0.4f, tip, 17)], 2, 0.7f);
        }

        blue.Stroke(200, 930, 520, 930, 3, 0.5f);
    }

    // Specimens on a page: a small square of cloth for each of the first techniques, each in another manner.
    private void Specimens()
    {
        sheet.Dye(186, 182, 170).Fill(Shapes.Box(50, 60, 800, 1090), 0.55f);
        for (var n = 0; n < 12; n++)
        {
            float x = 96 + n % 3 * 246, y = 104 + n / 3 * 262;
            SmallPiece.Lay(sheet, Shapes.Box(x, y, 212, 212), 0.84f);
            for (var k = 1; k < 7; k++)
            {
                var at = 30f * k;
                switch (n % 6)
                {
                    case 0: SmallPiece.Tuck(sheet, new(x + 6, y + at), new(x + 206, y + at), 7); break;
                    case 1: for (var d = 8f; d < 200; d += 16) sheet.Thread(x + d, y + at, x + d + 9, y + at + (k % 2 == 0 ? 9 : 0), 3); break;
                    case 2 when k is 2 or 5: for (var d = 30f; d < 180; d += 40) EmbroideredBand.Hole(sheet, Shapes.Oval(x + d, y + at, 11, 11), 5); break;
                    case 3: sheet.Light.Stroke(x + at, y + 8, x + at, y + 204, 6, 0.16f, Blend.Cut); break;
                    case 4 when k < 4: for (var d = 20f; d < 190; d += 34) { sheet.Thread(x + d, y + at * 2, x + d + 22, y + at * 2 + 22, 4); sheet.Thread(x + d + 22, y + at * 2, x + d, y + at * 2 + 22, 4); } break;
                    case 5 when k == 3: sheet.Cloth.Stroke(x + 20, y + 106, x + 190, y + 106, 20, 0.9f, Blend.Cut); for (var d = 22f; d < 190; d += 12) sheet.Thread(x + d, y + 94, x + d + 6, y + 118, 2.6f); break;
                }
            }
        }
    }

    // Lengths of lace and trimming on a card, each with its paper number.
    private void Card()
    {
        var looks = Entries(garment, "techniques").Where(t => Text(t, "kind") is "lace" or "embroidered-trim").Take(5).ToList();
        var paper = sheet.Dye(236, 228, 208);
        var ink = sheet.Dye(70, 62, 66);
        for (var n = 0; n < looks.Count; n++)
        {
            var top = 40f + n * 228;
            var band = new LaceBand(sheet, top, top + 160, 128, scallops: Text(looks[n], "form") is "edging" or "flouncing" or null);
            if (Text(looks[n], "lace") is { } lace) band.Draw(lace);
            else EmbroideredBand.Draw(band, eyelets: n % 2 == 0);
            paper.Fill(Shapes.Box(30, top + 172, 120, 38), 0.92f);
            for (var k = 0; k <= n; k++) ink.Stroke(48 + k * 16, top + 180, 48 + k * 16, top + 202, 3, 0.8f);
        }
    }
}
