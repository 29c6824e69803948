using HeirloomArchive.Sewing.Drawing;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Worksheets.Drawing;

/// <summary>
/// The picture of a run, drawn from the stored plan: the flat cloth with every line numbered, in as many strips as the
/// numbers need, then the same piece sewn. Tuck 3 has its fold on line 3, its stitching on lines 3a and 3b.
/// </summary>
internal sealed class Diagram
{
    private const double Margin = 4, CaptionHeight = 6.5, ClothTop = 8, ClothHeight = 17;

    /// <summary>Scales a person can say; between them a drawing would only look odd.</summary>
    private static readonly double[] Scales =
        [1 / 10d, 1 / 8d, 1 / 6d, 1 / 5d, 1 / 4d, 1 / 3d, 1 / 2.5, 1 / 2d, 1 / 1.5, 1, 1.5, 2, 3, 4, 5, 6, 8, 10];

    /// <summary>Above this many strips a picture serves nobody; then only some of the lines carry their number.</summary>
    private const int MostStrips = 120;

    private readonly double width;
    private readonly bool onPaper;
    private readonly IReadOnlyList<DrawnTuck> lines;
    private readonly IReadOnlyList<DrawnInsertion> insertions;
    private readonly double cloth, finished, before, after;
    private readonly JsonObject datum;

    private Diagram(JsonObject result, double width, bool onPaper)
    {
        this.width = width;
        this.onPaper = onPaper;
        lines = DrawnTuck.All(result);
        insertions = DrawnInsertion.All(result);
        var whole = result["plan"] ?? result;
        cloth = whole["cloth"].Mm();
        finished = whole["finished"].Mm();
        before = result["piece"]!["startEdge"].Mm();
        after = result["piece"]!["endEdge"].Mm();
        datum = result["datum"]!.AsObject();
    }

    /// <summary>The strips of a worksheet's diagram, each <paramref name="width"/> mm wide.</summary>
    /// <param name="result">The worksheet's.</param>
    /// <param name="width">In mm.</param>
    /// <param name="onPaper">Whether those are millimetres of paper. A page stretches them to its own width, so there no scale is told.</param>
    public static IReadOnlyList<Panel> Panels(JsonObject result, double width, bool onPaper)
    {
        var diagram = new Diagram(result, width, onPaper);
        return [.. diagram.Flat(), diagram.Sewn()];
    }

    private double Room => width - (2 * Margin);

    private IEnumerable<Panel> Flat()
    {
        var length = before + cloth + after;
        var pitch = 1.0 + (1.35 * ((lines.Count > 0 ? lines[^1].Tuck : 1).ToString(System.Globalization.CultureInfo.InvariantCulture).Length + 1));
        var needed = pitch / NarrowestStep();
        var fits = Room / length;
        double scale;
        var every = 1;
        if (needed <= fits)
        {
            scale = Scales.LastOrDefault(s => s <= Math.Min(fits, 1) && s >= needed, Math.Min(fits, Math.Max(1, needed)));
        }
        else
        {
            scale = Scales.FirstOrDefault(s => s >= needed, needed);
            if (length * scale / Room > MostStrips)
            {
                scale = MostStrips * Room / length;
                every = (int)Math.Ceiling(needed / scale);
            }
        }

        var edges = Strips(length, Room / scale);
        for (var i = 0; i + 1 < edges.Count; i++)
        {
            yield return FlatStrip(edges[i], edges[i + 1], scale, every, i + 1, edges.Count - 1);
        }
    }

    private double NarrowestStep()
    {
        var step = double.MaxValue;
        for (var i = 0; i + 1 < lines.Count; i++)
        {
            step = Math.Min(step, lines[i + 1].Fold - lines[i].Fold);
            step = Math.Min(step, lines[i + 1].First - lines[i].First);
            step = Math.Min(step, lines[i + 1].Second - lines[i].Second);
        }

        return step;
    }

    /// <summary>Where the strips begin and end on the cloth: between two tucks where that can be.</summary>
    private List<double> Strips(double length, double most)
    {
        List<double> edges = [-before];
        var end = -before + length;
        while (end - edges[^1] > most + 1e-6)
        {
            var limit = edges[^1] + most;
            var cut = limit;
            for (var i = lines.Count - 2; i >= 0; i--)
            {
                var between = (lines[i].Second + lines[i + 1].First) / 2;
                if (between <= limit && between > edges[^1] + (most / 3))
                {
                    cut = between;
                    break;
                }
            }

            edges.Add(cut);
        }

        edges.Add(end);
        return edges;
    }

    private Panel FlatStrip(double from, double to, double scale, int every, int strip, int strips)
    {
        const double height = CaptionHeight + ClothTop + ClothHeight + 11;
        const double top = CaptionHeight + ClothTop, bottom = top + ClothHeight;
        double X(double at) => Margin + ((at - from) * scale);
        bool Here(double at) => at >= from - 1e-9 && at <= to + 1e-9;
        List<Shape> shapes =
        [
            new Box(0, 0, width, height, Ink.Ground),
            new Label(Margin, 4.6, strips == 1 ? T("The flat cloth") : T($"The flat cloth, strip {strip} of {strips}"), Ink.Caption, 2.8, Anchor.Start),
            new Label(width - Margin, 4.6, ScaleText(scale), Ink.Caption, 2.8, Anchor.End),
            new Box(X(from), top, (to - from) * scale, ClothHeight, Ink.Cloth),
        ];
        foreach (var (a, b) in new[] { (-before, 0d), (cloth, cloth + after) })
        {
            if (b > a && b > from && a < to)
            {
                shapes.Add(new Box(X(Math.Max(a, from)), top, (Math.Min(b, to) - Math.Max(a, from)) * scale, ClothHeight, Ink.Allowance));
            }
        }

        foreach (var line in lines.Where(l => l.Second > from && l.First < to))
        {
            var (a, b) = (Math.Max(line.First, from), Math.Min(line.Second, to));
            shapes.Add(new Box(X(a), top, (b - a) * scale, ClothHeight, Ink.TakenUp));
        }

        foreach (var laid in insertions.Where(i => i.LaidOn && i.To > from && i.From < to))
        {
            var (a, b) = (Math.Max(laid.From, from), Math.Min(laid.To, to));
            shapes.Add(new Box(X(a), top + 2, (b - a) * scale, ClothHeight - 4, Ink.Lace));
        }

        foreach (var at in new[] { -before, cloth + after }.Where(Here))
        {
            shapes.Add(new Stroke(X(at), top, X(at), bottom, Ink.CutEdge));
        }

        AddDatum(shapes, datum["flat"].Mm(), X, Here, top - 7, bottom + 1.2);
        foreach (var insertion in insertions)
        {
            AddLine(shapes, insertion.From, insertion.LaidOn ? Ink.FoldFine : Ink.CutEdge, insertion.LaidOn ? $"{insertion.Name}a" : T($"{insertion.Name} cut"), bottom + 4.2);
            if (insertion.LaidOn)
            {
                AddLine(shapes, insertion.To, Ink.FoldFine, $"{insertion.Name}b", bottom + 7.8);
            }
        }

        foreach (var line in lines)
        {
            var numbered = (line.Tuck - 1) % every == 0;
            AddLine(shapes, line.First, Ink.Stitching, numbered ? $"{line.Tuck}a" : null, bottom + 4.2);
            AddLine(shapes, line.Second, Ink.Stitching, numbered ? $"{line.Tuck}b" : null, bottom + 7.8);
            AddLine(shapes, line.Fold, line.TwinNeedle ? Ink.FoldFine : Ink.Fold, numbered ? $"{line.Tuck}" : null, top - 1.6);
        }

        return new Panel(width, height, shapes);

        void AddLine(List<Shape> into, double at, Ink ink, string? number, double baseline)
        {
            if (!Here(at))
            {
                return;
            }

            into.Add(new Stroke(X(at), top, X(at), bottom, ink));
            if (number is not null)
            {
                into.Add(new Label(X(at), baseline, number, baseline < top ? Ink.Number : Ink.StitchNumber));
            }
        }
    }

    private Panel Sewn()
    {
        const double height = CaptionHeight + ClothTop + ClothHeight + 4;
        const double top = CaptionHeight + ClothTop, bottom = top + ClothHeight;
        var fits = finished > 0 ? Room / finished : 1;
        var scale = Scales.LastOrDefault(s => s <= Math.Min(fits, 1), Math.Min(fits, 1));
        double X(double at) => Margin + (at * scale);
        List<Shape> shapes =
        [
            new Box(0, 0, width, height, Ink.Ground),
            new Label(Margin, 4.6, T("Sewn and pressed"), Ink.Caption, 2.8, Anchor.Start),
            new Label(width - Margin, 4.6, ScaleText(scale), Ink.Caption, 2.8, Anchor.End),
            new Box(X(0), top, finished * scale, ClothHeight, Ink.Cloth),
        ];
        foreach (var insertion in insertions)
        {
            shapes.Add(new Box(X(insertion.SewnFrom), top, (insertion.SewnTo - insertion.SewnFrom) * scale, ClothHeight, Ink.Lace));
            shapes.Add(new Label(X((insertion.SewnFrom + insertion.SewnTo) / 2), top - 1.6, insertion.Name, Ink.Number));
        }

        AddDatum(shapes, datum["finished"].Mm(), X, _ => true, top - 7, bottom + 1.2);

        // Where lines would run together in print, the folds alone are drawn, finely.
        var crowded = lines.Zip(lines.Skip(1)).Where(n => Math.Abs(n.Second.SewnFold - n.First.SewnFold) * scale < 2)
            .SelectMany(n => (int[])[n.First.Tuck, n.Second.Tuck]).ToHashSet();

        // A tuck lies over its neighbour on the side it is pressed to: draw the covered one first.
        var onTop = lines.Where(l => l.SewnFold >= l.SewnStitch).Reverse().Concat(lines.Where(l => l.SewnFold < l.SewnStitch));
        foreach (var line in onTop)
        {
            if (line.TwinNeedle)
            {
                shapes.Add(new Box(X(line.SewnStitch), top, Math.Max(0, line.SewnSecond - line.SewnStitch) * scale, ClothHeight, Ink.Tuck));
                shapes.Add(new Stroke(X(line.SewnStitch), top, X(line.SewnStitch), bottom, Ink.Stitching));
                shapes.Add(new Stroke(X(line.SewnSecond), top, X(line.SewnSecond), bottom, Ink.Stitching));
                continue;
            }

            var (a, b) = (Math.Min(line.SewnStitch, line.SewnFold), Math.Max(line.SewnStitch, line.SewnFold));
            var dense = crowded.Contains(line.Tuck);
            shapes.Add(new Box(X(a), top, (b - a) * scale, ClothHeight, Ink.Tuck));
            if (!dense)
            {
                shapes.Add(new Stroke(X(line.SewnStitch), top, X(line.SewnStitch), bottom, Ink.Stitching));
            }

            shapes.Add(new Stroke(X(line.SewnFold), top, X(line.SewnFold), bottom, dense ? Ink.FoldFine : Ink.Fold));
        }

        var last = double.MinValue;
        foreach (var line in lines.OrderBy(l => l.SewnFold))
        {
            if (X(line.SewnFold) - last >= 1.2 + (1.3 * $"{line.Tuck}".Length))
            {
                last = X(line.SewnFold);
                shapes.Add(new Label(last, top - 1.6, $"{line.Tuck}", Ink.Number));
            }
        }

        return new Panel(width, height, shapes);
    }

    /// <summary>The line that all is measured from, with its name on the side where there is room for it.</summary>
    private void AddDatum(List<Shape> shapes, double at, Func<double, double> x, Func<double, bool> here, double top, double bottom)
    {
        if (!here(at))
        {
            return;
        }

        var toRight = x(at) < width - 60;
        shapes.Add(new Stroke(x(at), top, x(at), bottom, Ink.Datum));
        shapes.Add(new Label(x(at) + (toRight ? 1 : -1), top + 2, T($"measured from {datum["text"].Text()}"), Ink.Datum, 2.3, toRight ? Anchor.Start : Anchor.End));
    }

    private string ScaleText(double scale) =>
        !onPaper ? T("not at true size")
        : scale == 1 ? T("true size")
        : scale < 1 ? T($"scale 1 : {(1 / scale).Invariant("0.##")}")
        : T($"scale {scale.Invariant("0.##")} : 1");
}
