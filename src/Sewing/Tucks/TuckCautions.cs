namespace HeirloomArchive.Sewing;

/// <summary>What to know before sewing a run that can be sewn all the same.</summary>
internal static class TuckCautions
{
    public static List<TuckCaution> For(TuckRun run, TuckLine[] lines)
    {
        var cautions = new List<TuckCaution>();
        Hidden(run, lines, cautions);
        Strip(run, cautions);
        return cautions;
    }

    /// <summary>Stitching under the fold of a tuck that lies over it, and tucks of which nothing is seen.</summary>
    private static void Hidden(TuckRun run, TuckLine[] lines, List<TuckCaution> cautions)
    {
        List<int> stitching = [], whole = [];
        var reach = long.MinValue;
        for (var i = 0; i < lines.Length; i++)
        {
            reach = i > 0 && lines[i].Half != lines[i - 1].Half ? long.MinValue : reach;
            if (LiesTowardsEnd(lines[i]))
            {
                Cover(lines[i], lines[i].FinishedStitch.Nanometres, lines[i].FinishedFold.Nanometres);
            }
        }

        reach = long.MinValue;
        for (var i = lines.Length - 1; i >= 0; i--)
        {
            reach = i < lines.Length - 1 && lines[i].Half != lines[i + 1].Half ? long.MinValue : reach;
            if (!LiesTowardsEnd(lines[i]))
            {
                Cover(lines[i], -lines[i].FinishedStitch.Nanometres, -lines[i].FinishedFold.Nanometres);
            }
        }

        if (stitching.Count > 0)
        {
            cautions.Add(new("hidden-stitching", T($"Overlapping: the stitching of {Tucks(stitching)} is hidden under the neighbour that lies over it.")));
        }

        if (whole.Count > 0)
        {
            cautions.Add(new("hidden-tuck", T($"Nothing is seen of {Tucks(whole)}: hidden wholly under a neighbour. More space would show it.")));
        }

        if (run.Lies == Lies.TowardsCentre && run.Centre < Length.Zero)
        {
            cautions.Add(new("folds-overlap", T($"In the middle the two folds overlap by {(-run.Centre.Value).ToText(run.Unit)}: say which lies over which, and press it so.")));
        }

        void Cover(TuckLine tuck, long stitch, long fold)
        {
            if (stitch < reach)
            {
                (fold <= reach ? whole : stitching).Add(tuck.Tuck);
            }

            reach = Math.Max(reach, fold);
        }
    }

    private static bool LiesTowardsEnd(TuckLine line) => line.FinishedFold > line.FinishedStitch;

    private static void Strip(TuckRun run, List<TuckCaution> cautions)
    {
        if (run.TestStrip is not { } strip)
        {
            return;
        }

        var others = run.Groups.Select(g => g.Width).Where(w => w != strip.Width).Distinct().ToList();
        if (others.Count > 0)
        {
            cautions.Add(new("strip-other-width",
                T($"The strip was sewn with tucks of {strip.Width.ToText(run.Unit)}, the plan has {string.Join(", ", others.Select(w => w.ToText(run.Unit)))}: sew a strip of that width to be sure.")));
        }

        if (run.TwinNeedle)
        {
            return;
        }

        var most = Math.Abs(strip.Correction.Nanometres);
        if (run.Groups.Any(g => 2 * most > g.Width.Nanometres))
        {
            cautions.Add(new("strip-correction",
                T($"The strip's correction of {strip.Correction.ToText(run.Unit)} a tuck is more than half a tuck: count and measure the strip again.")));
        }

        if (strip.SewnWidth is { } sewn && sewn != strip.Width)
        {
            cautions.Add(new("strip-sewn-width",
                T($"The strip's tucks were marked {strip.Width.ToText(run.Unit)} and measured {sewn.ToText(run.Unit)} when sewn: the plan keeps to what was marked; sew on the line, or mark what is sewn.")));
        }
    }

    /// <summary><c>tuck 2</c>, <c>tucks 2 to 5, 8</c>.</summary>
    private static string Tucks(List<int> numbers)
    {
        numbers.Sort();
        var spans = new List<string>();
        for (int from = 0, to; from < numbers.Count; from = to + 1)
        {
            to = from;
            while (to + 1 < numbers.Count && numbers[to + 1] == numbers[to] + 1)
            {
                to++;
            }

            spans.Add(to == from ? $"{numbers[from]}" : T($"{numbers[from]} to {numbers[to]}"));
        }

        return N(numbers.Count, $"tuck {string.Join(", ", spans)}", $"tucks {string.Join(", ", spans)}");
    }
}
