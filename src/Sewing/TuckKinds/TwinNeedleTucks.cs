using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Pin tucks raised by a twin needle: no fold, and what each takes up comes from a strip only.</summary>
internal static class TwinNeedleTucks
{
    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "twin-needle",
        Shelf = Shelf.Tucks,
        Title = "Twin-needle pin tucks",
        Lead = "Raised pin tucks sewn with two needles at once: the lines to follow on the flat cloth, and the cloth they need, by a strip you have sewn.",
        Asks =
        [
            RunAsks.Tucks("10"),
            Ask.Above("gap", "Gap of the needles", "2 mm"),
            Ask.Above("foldToFold", "Line to line", "6 mm", "From the line one tuck follows to the next, on the flat cloth; at least the gap.").Optional(),
            RunAsks.Lead, RunAsks.Trail, RunAsks.FinishedAtMost, RunAsks.ClothAtMost, RunAsks.Strip with { Needed = true },
        ],
        Example = """
            {"tucks":10,"gap":"2 mm","foldToFold":"6 mm","lead":"20 mm","trail":"20 mm","testStrip":{"tucks":10,"width":"2 mm","flat":"120 mm","finished":"112 mm"}}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (tucks, gap) = (asked.Whole("tucks"), asked.Length("gap"));
        var strip = RunAsks.StripOf(asked)!;
        var plan = RunAsks.Make(asked, new()
        {
            Groups = [new(tucks, gap, new(null, null, asked.LengthOrNull("foldToFold")))],
            Lead = asked.LengthOrNull("lead"),
            Trail = asked.LengthOrNull("trail"),
            TestStrip = strip,
            TwinNeedle = true,
            Unit = asked.Unit,
        }, Field);
        Limit(asked, plan, "finishedAtMost", plan.Finished, asked.Length("foldToFold") - strip.TakenUp);
        Limit(asked, plan, "clothAtMost", plan.Cloth, asked.Length("foldToFold"));
        asked.Throw();
        return new Answer(asked.Unit).Tell(plan)
            .Figure("takenUpEach", "Each takes up", strip.TakenUp, "by the strip").Spacings(plan)
            .Note("No fold is made: both lines are sewn at once and the tension, or a cord, raises the cloth between. Nothing but a strip sewn with the same needle, cord, tension and cloth tells what it takes up. Common practice.")
            .Caution("twin-needle", "A twin needle is wider than the foot's slit may allow: turn the wheel by hand for one whole stitch first, for a needle that strikes the plate breaks and flies.")
            .DrawnRun(plan);
    }

    private static void Limit(Asked asked, TuckPlan plan, string field, Length length, Length step)
    {
        if (asked.LengthOrNull(field) is { } limit && length > limit)
        {
            var fewer = step > Length.Zero ? plan.Lines.Count - (((length - limit).Nanometres + step.Nanometres - 1) / step.Nanometres) : 0;
            var told = field == "clothAtMost" ? N(
                plan.Lines.Count,
                $"{asked.Show(limit)} is too little: {plan.Lines.Count} tuck needs {asked.Show(length)}.",
                $"{asked.Show(limit)} is too little: {plan.Lines.Count} tucks need {asked.Show(length)}.")
                : N(
                plan.Lines.Count,
                $"{asked.Show(limit)} is too little: {plan.Lines.Count} tuck finishes at {asked.Show(length)}.",
                $"{asked.Show(limit)} is too little: {plan.Lines.Count} tucks finish at {asked.Show(length)}.");
            asked.Refuse(field, fewer > 0 ? $"{told} {T($"There can be at most {fewer}.")}" : told);
        }
    }

    private static string Field(string path) => path.StartsWith('g') ? path.EndsWith("width", StringComparison.Ordinal) ? "gap" : path.EndsWith("tucks", StringComparison.Ordinal) ? "tucks" : "foldToFold" : path;
}
