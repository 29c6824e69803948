using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary><see cref="FitGroups"/> with its route and page.</summary>
internal static class GroupsSum
{
    private static readonly Column[] Columns =
    [
        new("groups", "Groups"), new("tucks", "Tucks in each"), new("width", "Width"), new("space", "Space"), new("gap", "From group to group"),
        new("ends", "Plain ends"), new("finished", "Finished"), new("cloth", "Cloth"),
    ];

    public static Sum Sum { get; } = new()
    {
        Slug = "fit-groups",
        Shelf = Shelf.Sizes,
        Title = "Groups of tucks for a width",
        Lead = "Groups of tucks with plain cloth between them that fill a width exactly, nearest to the antique's proportions first.",
        Asks =
        [
            Ask.Above("finished", "Finished width", "12 in", "Ends included."),
            Ask.Above("cloth", "Cloth there is", "20 in").Optional(),
            SizeAsks.Counts("groups", "Groups", "6", TuckRun.MostGroups),
            SizeAsks.Counts("tucks", "Tucks in each group", "7", TuckRun.MostInGroup),
            SizeAsks.Range("width", "Width of a tuck", "1/8 in", "1/8 in", "From the fold to the stitching."),
            SizeAsks.Range("space", "Space in a group", "1/8 in", "1/4 in", "The plain cloth seen between two tucks of a group."),
            SizeAsks.Range("gap", "From group to group", "1/2 in", "2 in", "The plain cloth seen between two groups."),
            SizeAsks.Range("ends", "Plain ends", "1 in", "4 in", "The plain cloth before the first tuck and after the last."),
            SizeAsks.Finest,
            SizeAsks.Lie,
            Ask.Part("like", "Like the antique", "Then the nearest to its proportions comes first.",
                Ask.Whole("groups", "Its groups", 1, TuckRun.MostGroups, "3"),
                Ask.Whole("tucks", "Tucks in each", 1, TuckRun.MostInGroup, "5"),
                Ask.Above("width", "Their width", "1/8 in"),
                Ask.Plain("space", "Their space", "1/8 in"),
                Ask.Plain("gap", "From group to group", "1 in")),
        ],
        Example = """
            {"finished":"12 in","groups":{"from":2,"to":6},"tucks":{"from":3,"to":7},"width":{"from":"1/8 in","to":"1/8 in"},
             "space":{"from":"1/8 in","to":"1/4 in"},"gap":{"from":"1/2 in","to":"2 in"},"ends":{"from":"1 in","to":"4 in"},"finest":"1/16 in",
             "like":{"groups":3,"tucks":5,"width":"1/8 in","space":"1/8 in","gap":"1 in"}}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var request = Read(asked);
        asked.Throw();
        var found = FitGroups.Find(request);
        var answer = new Answer(asked.Unit)
            .Figure("fits", "Fits", found.Count > 0)
            .Figure("count", "Arrangements in all", found.Count)
            .Figure("reason", "Why not", found.Reason)
            .Table("arrangements", "What fits, at most 50", Columns, found.Arrangements.Select(a => Row(a, [])))
            .Table("nearest", "The nearest that fits, one thing changed", [new("change", "What is changed"), .. Columns], found.Nearest.Select(n => Row(n.Fit, [SizeAsks.Changed(n.Change)])))
            .Note("Many makers took an odd number of tucks in a group, three, five or seven, and a gap as wide as the group.", "Home and School Sewing (c. 1901), ch. XXI, Tucking");
        var drawn = found.Arrangements.Take(3).Select((a, i) => ($"{i + 1}: {Words(a)}", a))
            .Concat(found.Nearest.Take(3).Select(n => (T($"with another {SizeAsks.Changed(n.Change)}: {Words(n.Fit)}"), n.Fit))).ToList();
        var runs = drawn.Count > 0
            ? drawn.ConvertAll(d => (d.Item1, d.Item2.Finished, (TuckRun?)d.Item2.RunOf(request.Lies)))
            : [(T("nothing fits"), request.Finished, null)];
        return answer.Drawn(RunDrawing.Words(runs.Select(r => r.Item3), T($"{string.Join("; ", runs.Select(r => r.Item1))}, finished, at one scale.")), RunDrawing.Strips(runs, asked.Unit));

        string Words(GroupsFit fit) => fit.Groups == 1
            ? N(fit.Tucks, $"{fit.Tucks} tuck in one group", $"{fit.Tucks} tucks in one group")
            : T($"{fit.Groups} groups of {fit.Tucks}, {asked.Show(fit.Gap!.Value)} apart");
    }

    private static IReadOnlyList<object?> Row(GroupsFit fit, object?[] before) =>
        [.. before, fit.Groups, fit.Tucks, fit.Width, fit.Space, fit.Gap, fit.Ends, fit.Finished, fit.Cloth];

    private static GroupsRequest Read(Asked asked)
    {
        var finest = SizeAsks.FinestOf(asked);
        return new()
        {
            Finished = asked.Length("finished"),
            Cloth = asked.LengthOrNull("cloth"),
            Groups = SizeAsks.CountsOf(asked, "groups"),
            Tucks = SizeAsks.CountsOf(asked, "tucks"),
            Width = SizeAsks.RangeOf(asked, "width", finest),
            Space = SizeAsks.RangeOf(asked, "space", Length.Zero),
            Gap = SizeAsks.RangeOf(asked, "gap", Length.Zero),
            Ends = SizeAsks.RangeOf(asked, "ends", Length.Zero),
            Finest = finest,
            Lies = SizeAsks.LiesOf(asked),
            Like = asked.Part("like") is { } like
                ? new(like.Whole("groups"), like.Whole("tucks"), like.Length("width"), like.LengthOrNull("space"), like.LengthOrNull("gap")) : null,
            Unit = asked.Unit,
        };
    }
}
