using HeirloomArchive.Sewing.Fitting;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary>The antique whose groups are looked for.</summary>
/// <param name="Groups">How many.</param>
/// <param name="Tucks">In each.</param>
/// <param name="Width">Above zero.</param>
/// <param name="Space">Between the tucks of a group; null when each has one tuck.</param>
/// <param name="Gap">From group to group; null when there is one group.</param>
public sealed record GroupsLikeness(int Groups, int Tucks, Length Width, Length? Space, Length? Gap);

/// <summary>Equal groups of equal tucks are to fill a width exactly: groups × (tucks × width + (tucks - 1) × space) + (groups - 1) × gap + 2 × ends.</summary>
public sealed record GroupsRequest
{
    /// <summary>The width to fill, ends included; above zero.</summary>
    public required Length Finished { get; init; }

    /// <summary>The flat cloth there is; null is no limit.</summary>
    public Length? Cloth { get; init; }

    /// <summary>How many groups, 1 to 50.</summary>
    public required CountRange Groups { get; init; }

    /// <summary>How many tucks in each, 1 to 1 000.</summary>
    public required CountRange Tucks { get; init; }

    /// <summary>Fold to stitching line; from one finest marking up.</summary>
    public required LengthRange Width { get; init; }

    /// <summary>The plain cloth seen between two tucks of a group; from zero up.</summary>
    public required LengthRange Space { get; init; }

    /// <summary>The plain cloth seen between two groups; from zero up.</summary>
    public required LengthRange Gap { get; init; }

    /// <summary>The plain cloth at each end; from zero up.</summary>
    public required LengthRange Ends { get; init; }

    /// <summary>As for <see cref="FitRequest.Finest"/>.</summary>
    public required Length Finest { get; init; }

    /// <summary>Whose proportions to look for; null lists by groups, tucks, width, space, gap, rising.</summary>
    public GroupsLikeness? Like { get; init; }

    /// <summary>Which way the tucks lie. From or towards the middle both halves are alike, so that an odd number of tucks in all can't serve.</summary>
    public Lies Lies { get; init; }

    /// <summary>The unit in which lengths are shown.</summary>
    public LengthUnit Unit { get; init; }
}

/// <summary>Equal groups that fill the width exactly.</summary>
/// <param name="Groups">How many.</param>
/// <param name="Tucks">In each.</param>
/// <param name="Width">Of each tuck.</param>
/// <param name="Space">Between the tucks of a group; null when each has one tuck.</param>
/// <param name="Gap">From group to group; null when there is one.</param>
/// <param name="Ends">The plain cloth at each end.</param>
/// <param name="Finished">The width they fill.</param>
/// <param name="Cloth">The flat cloth they are sewn from.</param>
public sealed record GroupsFit(int Groups, int Tucks, Length Width, Length? Space, Length? Gap, Length Ends, Length Finished, Length Cloth)
{
    /// <summary>The run that sews it, ready for <see cref="TuckPlan.Make"/>.</summary>
    /// <param name="lies">From or towards the middle the groups are halved: in the middle is a gap, or the space within the middle group.</param>
    public TuckRun RunOf(Lies lies)
    {
        var whole = new TuckGroup(Tucks, Width, new(Space));
        if (lies is Lies.TowardsEnd or Lies.TowardsStart)
        {
            return new() { Groups = [.. Enumerable.Repeat(whole, Groups)], Between = [.. Enumerable.Repeat(new Spacing(Gap), Groups - 1)], Lead = Ends, Trail = Ends, Lies = lies };
        }

        var halved = int.IsOddInteger(Groups);
        IReadOnlyList<TuckGroup> half = [.. halved ? [whole with { Tucks = Tucks / 2 }] : Array.Empty<TuckGroup>(), .. Enumerable.Repeat(whole, Groups / 2)];
        return new() { Groups = half, Between = [.. Enumerable.Repeat(new Spacing(Gap), half.Count - 1)], Trail = Ends, Centre = halved ? Space : Gap, Lies = lies };
    }
}

/// <summary>What fills the width, or why nothing does.</summary>
/// <param name="Count">How many arrangements, listed or not.</param>
/// <param name="Arrangements">The first 50 in their order.</param>
/// <param name="Nearest">When none fits: at most one for each of finished, groups, tucks, space, gap, width, ends, cloth; that one thing changed by the least amount that serves.</param>
/// <param name="Reason">When none fits: the bound that fails, in words; else null.</param>
public sealed record GroupsFound(long Count, IReadOnlyList<GroupsFit> Arrangements, IReadOnlyList<(string Change, GroupsFit Fit)> Nearest, string? Reason);

/// <summary>Which equal groups of equal tucks fill a width exactly. Whole numbers throughout.</summary>
/// <remarks>
/// Closeness to an antique, in this order: how far space : width lies from the antique's (those without a space last), how far gap : width
/// (those without a gap last), how far the groups, the tucks, the width; then groups, tucks, width, space, gap, rising.
/// </remarks>
public static class FitGroups
{
    /// <summary>Most counts, widths and spaces that are walked through; gaps and ends are counted, not walked.</summary>
    public const int MostTried = 3_000_000;

    /// <summary>Finds, counts and ranks; when nothing fits, says why and gives the nearest.</summary>
    /// <exception cref="FaultException">The request makes no sense, or its ranges are too wide together; kind <see cref="FaultKind.Senseless"/>.</exception>
    public static GroupsFound Find(GroupsRequest request)
    {
        Check(request);
        var grid = GroupsGrid.Of(request);
        var count = grid.Rows().Sum(row => row.Row.Count);
        return count > 0
            ? new(count, [.. First(grid, request.Like, FitAnswer.MostListed)], [], null)
            : new(0, [], Nearest(grid, request.Like), Reason(grid, request));
    }

    private static void Check(GroupsRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        FitChecks.Check(new()
        {
            Finished = request.Finished,
            Cloth = request.Cloth,
            Tucks = request.Tucks,
            Width = request.Width,
            Space = request.Space,
            Ends = request.Ends,
            Finest = request.Finest,
            Unit = request.Unit,
        });
        if (request.Groups.From < 1 || request.Groups.To > TuckRun.MostGroups || request.Groups.From > request.Groups.To)
        {
            throw new FaultException("groups", T($"From {request.Groups.From} to {request.Groups.To} groups is no range: 1 to {TuckRun.MostGroups}, from not above to."));
        }

        if (request.Gap.From < Length.Zero || request.Gap.From > request.Gap.To)
        {
            throw new FaultException("gap", T($"From {request.Gap.From.ToText(request.Unit)} to {request.Gap.To.ToText(request.Unit)} is no range: 0 or more, from not above to."));
        }
    }

    private static IEnumerable<GroupsFit> First(GroupsGrid grid, GroupsLikeness? like, int most)
    {
        return (like is null ? Rising() : Closest(like)).Take(most).Select(Fit);

        IEnumerable<GroupsPlace> Rising()
        {
            foreach (var row in grid.Rows())
            {
                var gaps = row.Row.Fitting();
                for (var i = 0L; i < gaps.Count; i++)
                {
                    yield return new(row, gaps[i]);
                }
            }
        }

        // In a row from the antique's own gap outwards, until it has nothing worth keeping.
        IReadOnlyList<GroupsPlace> Closest(GroupsLikeness wanted)
        {
            var kept = new Best<GroupsPlace>(new GroupsCloseness(wanted, grid.Unit), most);
            foreach (var row in grid.Rows())
            {
                var gaps = row.Row.Fitting();
                var middle = wanted.Gap is { } gap ? gaps.Below((long)Int128.Min(long.MaxValue / 2, (Int128)gap.Nanometres * row.Width), wanted.Width.Nanometres) : 0;
                for (var i = middle; i < gaps.Count && kept.Add(new(row, gaps[i])); i++)
                {
                }

                for (var i = middle - 1; i >= 0 && kept.Add(new(row, gaps[i])); i--)
                {
                }
            }

            return kept.Items;
        }

        GroupsFit Fit(GroupsPlace place) => new(
            place.Of.Groups, place.Of.Tucks, Of(place.Of.Width),
            place.Of.Tucks == 1 ? null : Of(place.Of.Space),
            place.Of.Groups == 1 ? null : Of(place.Gap),
            Of(place.Of.Row.Leads(place.Gap).From),
            Length.FromNanometres(grid.Finished), Length.FromNanometres(grid.ClothOf(place.Of)));

        Length Of(long count) => Length.FromNanometres(count * grid.Unit);
    }

    private static List<(string Change, GroupsFit Fit)> Nearest(GroupsGrid grid, GroupsLikeness? like)
    {
        var most = Span.Ceiling(grid.Finished, grid.Unit);
        (string Change, GroupsGrid? Grid)[] changed =
        [
            ("finished", FitFinished.Nearer(grid.Neighbours(), grid.Finished) is { } width ? grid with { Finished = width } : null),
            ("groups", Widening.Least(grid.Groups, new(1, TuckRun.MostGroups), s => grid with { Groups = s }, g => g.Any)),
            ("tucks", Widening.Least(grid.Tucks, new(1, TuckRun.MostInGroup), s => grid with { Tucks = s }, g => g.Any)),
            ("space", Widening.Least(grid.Spaces, new(0, most), s => grid with { Spaces = s }, g => g.Any)),
            ("gap", Widening.Least(grid.Gaps, new(0, most), s => grid with { Gaps = s }, g => g.Any)),
            ("width", Widening.Least(grid.Widths, new(1, most), s => grid with { Widths = s }, g => g.Any)),
            ("ends", Widening.Least(grid.Ends, new(0, most), s => grid with { Ends = s }, g => g.Any)),
            ("cloth", LeastCloth(grid) is { } cloth ? grid with { Cloth = cloth } : null),
        ];
        return [.. changed.Where(c => c.Grid is not null).Select(c => (c.Change, First(c.Grid!, like, 1).First()))];
    }

    private static long? LeastCloth(GroupsGrid grid)
    {
        var unlimited = grid with { Cloth = Length.Longest.Nanometres };
        return unlimited.Rows(narrowest: true).Select(row => (long?)unlimited.ClothOf(row)).Min();
    }

    private static string Reason(GroupsGrid grid, GroupsRequest request)
    {
        var empty = new[] { (grid.Widths, T("width")), (grid.Tucks.To > 1 ? grid.Spaces : default, T("space")), (grid.Groups.To > 1 ? grid.Gaps : default, T("gap")), (grid.Ends, T("plain end")) };
        if (Array.Find(empty, e => e.Item1.IsEmpty) is { Item2: not null } none)
        {
            return T($"No whole number of {Text(grid.Unit)} lies in the range of the {none.Item2}: there is none to choose.");
        }

        if (!grid.Shapes().Any())
        {
            return T("A run that lies from or towards its middle has as many tucks in each half, and these counts come to odd numbers only.");
        }

        if (!grid.OnMarking)
        {
            return T($"{Text(grid.Finished)} is not a whole number of {Text(grid.Unit)}, and whatever is made of whole widths, spaces, gaps and ends is.");
        }

        if (LeastCloth(grid) is { } cloth)
        {
            return T($"Not enough cloth: the least that any arrangement of {Text(grid.Finished)} needs is {Text(cloth)}, and there are {Text(grid.Cloth)}.");
        }

        var (below, above) = (grid with { Cloth = Length.Longest.Nanometres }).Neighbours();
        return (below, above) switch
        {
            ({ } most, null) => T($"Too little: the most that these ranges make up is {Text(most)}, short of {Text(grid.Finished)}."),
            (null, { } least) => T($"Too much: the least that these ranges make up is {Text(least)}, beyond {Text(grid.Finished)}."),
            ({ } less, { } more) => T($"In whole numbers of {Text(grid.Unit)} these ranges add up to {Text(less)} or {Text(more)}, and to nothing between."),
            _ => T($"These ranges make up no width at all on {Text(grid.Unit)}."),
        };

        string Text(long nanometres) => FitReason.Exactly(nanometres, request.Unit);
    }
}

/// <summary>Closeness as <see cref="FitGroups"/> documents it; fractions are compared crosswise, in whole numbers.</summary>
internal sealed class GroupsCloseness(GroupsLikeness like, long unit) : IComparer<GroupsPlace>
{
    private readonly long width = like.Width.Nanometres;

    public int Compare(GroupsPlace x, GroupsPlace y)
    {
        var order = Apart(like.Space, x.Of.Tucks > 1, x.Of.Space, x.Of.Width, y.Of.Tucks > 1, y.Of.Space, y.Of.Width);
        order = order != 0 ? order : Apart(like.Gap, x.Of.Groups > 1, x.Gap, x.Of.Width, y.Of.Groups > 1, y.Gap, y.Of.Width);
        return order != 0 ? order : Rest(x).CompareTo(Rest(y));
    }

    private int Apart(Length? wanted, bool any, long value, long over, bool anyOther, long other, long under) =>
        wanted is not { } length ? 0
        : !any || !anyOther ? anyOther.CompareTo(any)
        : (Out(length, value, over) * under).CompareTo(Out(length, other, under) * over);

    /// <summary>How far a proportion lies from the antique's, times its width and the antique's.</summary>
    private Int128 Out(Length wanted, long value, long over) => Int128.Abs(((Int128)value * width) - ((Int128)wanted.Nanometres * over));

    private (int, int, long, (int, int, long, long, long)) Rest(GroupsPlace place) => (
        Math.Abs(place.Of.Groups - like.Groups), Math.Abs(place.Of.Tucks - like.Tucks), Math.Abs((place.Of.Width * unit) - width),
        (place.Of.Groups, place.Of.Tucks, place.Of.Width, place.Of.Space, place.Gap));
}
