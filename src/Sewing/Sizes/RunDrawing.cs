using HeirloomArchive.Sewing.Drawing;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary>Finished runs drawn below one another at one scale.</summary>
internal static class RunDrawing
{
    /// <summary>Beyond so many tucks in a drawing only the cloth is drawn, and said to be so.</summary>
    private const int MostTucks = 700;

    /// <summary>A strip for each run, all at the scale at which the widest fills the page.</summary>
    /// <param name="runs">What is written over each, and the run; null for one that can't be sewn.</param>
    /// <param name="unit">In which lengths are written.</param>
    public static IEnumerable<Panel> Strips(IReadOnlyList<(string Caption, Length Finished, TuckRun? Run)> runs, LengthUnit unit)
    {
        var scale = new Sketch(1).ScaleFor(runs.Max(r => r.Finished));
        var tucks = runs.Sum(r => r.Run?.Groups.Sum(g => g.Tucks) ?? 0);
        foreach (var (caption, finished, run) in runs)
        {
            var sketch = new Sketch(31);
            var width = finished.Mm() * scale;
            sketch.Text(Sketch.Margin, 6, caption, Ink.Caption, 2.8, Anchor.Start).Box(Sketch.Margin, 9, width, 12, Ink.Cloth);
            foreach (var line in run is null || tucks > MostTucks ? [] : TuckPlan.Make(run).Lines)
            {
                var (stitch, fold) = (X(line.FinishedStitch), X(line.FinishedFold));
                sketch.Box(Math.Min(stitch, fold), 9, Math.Abs(fold - stitch), 12, Ink.Tuck)
                    .Line(stitch, 9, stitch, 21, Ink.Stitching).Line(fold, 9, fold, 21, tucks > 60 ? Ink.FoldFine : Ink.Fold);
            }

            yield return sketch.Across(Sketch.Margin, Sketch.Margin + width, 27, finished.ToText(unit)).Panel();

            double X(Length length) => Sketch.Margin + (length.Mm() * scale);
        }
    }

    /// <summary>What goes with a drawing that shows the cloth only.</summary>
    public static string Words(IEnumerable<TuckRun?> runs, string shows) =>
        runs.Sum(r => r?.Groups.Sum(g => g.Tucks) ?? 0) > MostTucks ? $"{shows} {T("Too many tucks to draw each: only the cloth is shown.")}" : shows;
}
