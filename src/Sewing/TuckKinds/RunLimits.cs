using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Holds a run to the width and the cloth there are, and says what would be possible.</summary>
public static class RunLimits
{
    /// <summary>The most that each space can be for a run to come down to a limit, on the finest marking she can read; may be below zero.</summary>
    /// <param name="length">What the run comes to: its finished width, or its cloth.</param>
    /// <param name="limit">What there is.</param>
    /// <param name="space">Each space as it is now.</param>
    /// <param name="spaces">How many there are, 1 or more.</param>
    /// <param name="finest">The marking it is drawn down to, above zero.</param>
    public static Length MostSpace(Length length, Length limit, Length space, int spaces, Length finest)
    {
        var most = FloorOf(spaces * space.Nanometres - (length - limit).Nanometres, spaces);
        return Length.FromNanometres(FloorOf(most, finest.Nanometres) * finest.Nanometres);
    }

    /// <summary>Refuses a run of equal spacings that is wider than <c>finishedAtMost</c> or needs more than <c>clothAtMost</c>.</summary>
    /// <param name="asked">What was sent, with its spacing in one of the three meanings.</param>
    /// <param name="plan">Of the run.</param>
    /// <param name="spaces">How many spacings come from that field.</param>
    internal static void Check(Asked asked, TuckPlan plan, int spaces)
    {
        var way = new[] { "space", "stitchToStitch", "foldToFold" }.FirstOrDefault(asked.Has, "space");
        var given = asked.Length(way);
        Hold("finishedAtMost", plan.Finished);
        Hold("clothAtMost", plan.Cloth);
        asked.Throw();

        void Hold(string field, Length length)
        {
            if (asked.LengthOrNull(field) is not { } limit || length <= limit)
            {
                return;
            }

            var tucks = N(plan.Lines.Count, $"{plan.Lines.Count} tuck of {Widths(asked, plan)}", $"{plan.Lines.Count} tucks of {Widths(asked, plan)}");
            var ofCloth = field == "clothAtMost";
            List<string> told =
            [
                ofCloth ? T($"{asked.Show(limit)} is too little: {tucks} need {asked.Show(length)}, {asked.Show(length - limit)} more.")
                    : T($"{asked.Show(limit)} is too little: {tucks} finish at {asked.Show(length)}, {asked.Show(length - limit)} more."),
            ];
            if (spaces > 0)
            {
                var most = MostSpace(length, limit, given, spaces, Finest(asked.Unit));
                told.Add(Apart(plan).Min(s => s.Space) + most >= given
                    ? T($"With {tucks} the {way} can be at most {asked.Show(most)} here.") : T("Even meeting they do not fit."));
            }

            if (Fewer(plan, length - limit, ofCloth) is > 0 and var fewer)
            {
                told.Add(T($"With this {way} there can be at most {fewer}."));
            }

            asked.Refuse(field, string.Join(' ', told));
        }
    }

    /// <summary>The spacings that come from the field: all but the one in the middle of a centre lie.</summary>
    private static IEnumerable<TuckSpacing> Apart(TuckPlan plan) => plan.Spacings.Where((_, i) => plan.Lines[i].Half == plan.Lines[i + 1].Half);

    /// <summary>How many tucks are left when enough of them are taken away; 0 where they are not all alike, or where fewer of them come to no less.</summary>
    private static long Fewer(TuckPlan plan, Length over, bool ofCloth)
    {
        if (plan.Spacings.Count == 0 || plan.Lines.Any(l => l.Width != plan.Lines[0].Width || l.Half is not null))
        {
            return 0;
        }

        var step = ofCloth ? plan.Spacings[0].FoldToFold : plan.Spacings[0].StitchToStitch;
        return step > Length.Zero ? Math.Max(0, plan.Lines.Count + FloorOf(-over.Nanometres, step.Nanometres)) : 0;
    }

    private static string Widths(Asked asked, TuckPlan plan)
    {
        var (least, most) = (plan.Lines.Min(l => l.Width), plan.Lines.Max(l => l.Width));
        return least == most ? asked.Show(least) : T($"{asked.Show(least)} to {asked.Show(most)}");
    }

    private static Length Finest(LengthUnit unit) => unit == LengthUnit.Inches ? Length.FromSixtyFourthsOfInch(1) : Length.FromNanometres(250_000);

    private static long FloorOf(long number, long by) => (number / by) - (number % by < 0 ? 1 : 0);
}
