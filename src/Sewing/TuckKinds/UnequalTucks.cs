using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>A run in which each tuck has a width of its own and stands its own way from the next.</summary>
internal static class UnequalTucks
{
    private static readonly string[] Ways = ["space", "stitchToStitch", "foldToFold"];

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "unequal",
        Shelf = Shelf.Tucks,
        Title = "Tucks each of their own width",
        Lead = "A run whose tucks and spaces all differ: every line of it, flat and sewn.",
        Asks =
        [
            Ask.Rows("tucks", "Tucks, from the start", 1, TuckRun.MostGroups, "Of a centre lie those of one half, from the middle outwards.",
                RunAsks.Width("1/4 in"),
                Ask.AnyLength("space", "Plain cloth to the next", "1/4 in", "One of the three; not for the last tuck.").Optional(),
                Ask.Above("stitchToStitch", "or stitching to stitching", "1/2 in").Optional(),
                Ask.Above("foldToFold", "or fold to fold, flat", "1 in").Optional()),
            RunAsks.LiesAsk(hanging: false),
            RunAsks.Lead, RunAsks.Trail, RunAsks.Centre, RunAsks.FinishedAtMost, RunAsks.ClothAtMost, RunAsks.Strip,
        ],
        Example = """
            {"tucks":[{"width":"1 in","space":"1/4 in"},{"width":"1/8 in","space":"1/8 in"},{"width":"1/8 in","stitchToStitch":"1/4 in"},{"width":"1/4 in"}],
             "lies":"towards-start","lead":"1/2 in","trail":"2 in"}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var rows = asked.Rows("tucks");
        var last = rows[^1];
        foreach (var way in Ways.Where(last.Has))
        {
            last.Refuse(way, T($"{last.Show(last.Length(way))} after the last tuck has no next to reach to: leave it out, and give what lies after it as trail."));
        }

        asked.Throw();
        var plan = RunAsks.Plan(asked, Lies.TowardsEnd,
            [.. rows.Select(r => new TuckGroup(1, r.Length("width"), default))],
            [.. rows.SkipLast(1).Select(RunAsks.ApartOf)],
            Field);
        Limit(asked, plan, "finishedAtMost", plan.Finished);
        Limit(asked, plan, "clothAtMost", plan.Cloth);
        asked.Throw();
        return new Answer(asked.Unit).Tell(plan).Spacings(plan)
            .Note("Each tuck takes up twice its width, whatever the others are.", "Baldt, Clothing for Women (1916), c. p. 400")
            .DrawnRun(plan);
    }

    /// <summary><c>groups[2].width</c> is <c>tucks[2].width</c>, <c>between[2]</c> the space of the third.</summary>
    private static string Field(string path) => path == "groups" ? "tucks"
        : path.StartsWith("groups[", StringComparison.Ordinal) ? "tucks" + path[6..]
        : path.StartsWith("between[", StringComparison.Ordinal) ? "tucks" + path[7..] + (path.EndsWith(']') ? ".space" : "")
        : path;

    private static void Limit(Asked asked, TuckPlan plan, string field, Length length)
    {
        if (asked.LengthOrNull(field) is not { } limit || length <= limit)
        {
            return;
        }

        var over = length - limit;
        var plain = plan.Spacings.Aggregate(Length.Zero, (sum, s) => s.Space > Length.Zero ? sum + s.Space : sum);
        var ofCloth = field == "clothAtMost";
        var told = ofCloth ? T($"{asked.Show(limit)} is too little: these tucks need {asked.Show(length)}, {asked.Show(over)} more.")
            : T($"{asked.Show(limit)} is too little: these tucks finish at {asked.Show(length)}, {asked.Show(over)} more.");
        var instead = plain >= over ? T($"The spaces together, now {asked.Show(plain)}, can be at most {asked.Show(plain - over)}.")
            : ofCloth ? T($"Even meeting they need {asked.Show(length - plain)}: take narrower tucks or fewer.")
            : T($"Even meeting they finish at {asked.Show(length - plain)}: take narrower tucks or fewer.");
        asked.Refuse(field, $"{told} {instead}");
    }
}
