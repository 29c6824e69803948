using HeirloomArchive.Sewing.Fitting;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary>So many groups of so many tucks of one width and space, as a row of gaps and ends; in whole numbers of the finest marking.</summary>
/// <param name="Groups">How many.</param>
/// <param name="Tucks">In each.</param>
/// <param name="Space">Between the tucks of a group; of no meaning when each has one tuck.</param>
/// <param name="Row">The gaps and ends that make up the rest.</param>
internal readonly record struct GroupsRow(int Groups, int Tucks, long Space, FitRow Row)
{
    public long Width => Row.Width;
}

/// <summary>One arrangement in groups; its gap is of no meaning with one group.</summary>
internal readonly record struct GroupsPlace(GroupsRow Of, long Gap);

/// <summary>A request for groups in whole numbers of the finest marking, ranges drawn inwards.</summary>
internal sealed record GroupsGrid
{
    /// <summary>In nanometres, as finished and cloth are.</summary>
    public required long Unit { get; init; }

    public required long Finished { get; init; }

    public required long Cloth { get; init; }

    /// <summary>Both halves are alike: only even numbers of tucks serve.</summary>
    public required bool Mirrored { get; init; }

    public required Span Groups { get; init; }

    /// <summary>In each group.</summary>
    public required Span Tucks { get; init; }

    public required Span Widths { get; init; }

    public required Span Spaces { get; init; }

    public required Span Gaps { get; init; }

    public required Span Ends { get; init; }

    public static GroupsGrid Of(GroupsRequest request)
    {
        var unit = request.Finest.Nanometres;
        return new()
        {
            Unit = unit,
            Finished = request.Finished.Nanometres,
            Cloth = Math.Min((request.Cloth ?? Length.Longest).Nanometres, Length.Longest.Nanometres),
            Mirrored = request.Lies is Lies.FromCentre or Lies.TowardsCentre,
            Groups = new(request.Groups.From, request.Groups.To),
            Tucks = new(request.Tucks.From, request.Tucks.To),
            Widths = Span.Inwards(request.Width, unit),
            Spaces = Span.Inwards(request.Space, unit),
            Gaps = Span.Inwards(request.Gap, unit),
            Ends = Span.Inwards(request.Ends, unit),
        };
    }

    public bool Any => Rows().Any();

    public bool OnMarking => Finished % Unit == 0;

    public long ClothOf(GroupsRow row) => Finished + (2 * row.Row.Tucks * row.Width * Unit);

    /// <summary>Every count of groups and tucks, width and space that fits with some gap and ends, rising.</summary>
    /// <param name="narrowest">Only the first of each count, which takes the least cloth.</param>
    /// <exception cref="FaultException">More than <see cref="FitGroups.MostTried"/> would have to be tried.</exception>
    public IEnumerable<GroupsRow> Rows(bool narrowest = false)
    {
        var tried = 0;
        foreach (var (groups, tucks) in OnMarking ? Shapes() : [])
        {
            foreach (var row in Rows(groups, tucks))
            {
                if (++tried > FitGroups.MostTried)
                {
                    throw new FaultException("width", "Counts, widths and spaces make more than three million to try: narrow the ranges, or take a coarser marking.");
                }

                if (row.Row.Fitting().Count == 0)
                {
                    continue;
                }

                yield return row;
                if (narrowest)
                {
                    break;
                }
            }
        }
    }

    /// <summary>Every count of groups and of tucks in each for which there is a space and a gap where one is needed.</summary>
    public IEnumerable<(int Groups, int Tucks)> Shapes()
    {
        for (var groups = (int)Groups.From; groups <= Groups.To; groups++)
        {
            for (var tucks = (int)Tucks.From; tucks <= Tucks.To; tucks++)
            {
                if (!(Mirrored && int.IsOddInteger(groups * tucks)) && (groups == 1 || !Gaps.IsEmpty) && (tucks == 1 || !Spaces.IsEmpty) && !Ends.IsEmpty)
                {
                    yield return (groups, tucks);
                }
            }
        }
    }

    /// <summary>Those of one count that may fit.</summary>
    private IEnumerable<GroupsRow> Rows(int groups, int tucks)
    {
        var (whole, all, inside) = (Finished / Unit, groups * tucks, groups * (tucks - 1));
        var (least, most) = Outside(groups);
        var widths = Widths
            .AtMost(Span.Floor(Cloth - Finished, 2 * all * Unit))
            .AtMost(Span.Floor(whole - least - (inside == 0 ? 0 : inside * Spaces.From), all))
            .AtLeast(Span.Ceiling(whole - most - (inside == 0 ? 0 : inside * Spaces.To), all));
        for (var width = widths.From; width <= widths.To; width++)
        {
            var left = whole - (all * width);
            var spaces = inside == 0 ? new(0, 0) : Spaces.AtLeast(Span.Ceiling(left - most, inside)).AtMost(Span.Floor(left - least, inside));
            for (var space = spaces.From; space <= spaces.To; space++)
            {
                yield return Row(groups, tucks, width, space, left - (inside * space));
            }
        }
    }

    /// <summary>The least and the most that gaps and ends come to.</summary>
    private (long Least, long Most) Outside(int groups) => groups == 1
        ? (2 * Ends.From, 2 * Ends.To)
        : (((groups - 1) * Gaps.From) + (2 * Ends.From), ((groups - 1) * Gaps.To) + (2 * Ends.To));

    private GroupsRow Row(int groups, int tucks, long width, long space, long left) =>
        new(groups, tucks, space, new(groups * tucks, width, groups - 1, left, Gaps, Ends, Ends, false));

    /// <summary>The nearest finished widths below and above, in nanometres, that can be made of the cloth there is.</summary>
    public (long? Below, long? Above) Neighbours()
    {
        long? below = null, above = null;
        var (under, over, cloth) = (Span.Ceiling(Finished, Unit) - 1, Span.Floor(Finished, Unit) + 1, Span.Floor(Cloth, Unit));
        foreach (var (groups, tucks) in Shapes())
        {
            var (all, inside) = (groups * tucks, groups * (tucks - 1));
            var (least, most) = Outside(groups);
            var spaces = inside == 0 ? new(0, 0) : Spaces;

            // Of widths, and of spaces with one width, that stay short of it with all else at its most, only the greatest can come nearest.
            var widest = Math.Min(Span.Floor(under - most - (inside * spaces.To), all), Span.Floor(cloth - most - (inside * spaces.To), 3 * all));
            for (var width = Math.Max(Widths.From, Math.Min(widest, Widths.To)); width <= Widths.To; width++)
            {
                var ceiling = cloth - (2 * all * width);
                var bound = Math.Min(ceiling, under);
                if (Done((all * width) + (inside * spaces.From)))
                {
                    break;
                }

                var greatest = inside == 0 ? 0 : Span.Floor(bound - most - (all * width), inside);
                for (var space = Math.Max(spaces.From, Math.Min(greatest, spaces.To)); space <= spaces.To; space++)
                {
                    var fixedPart = (all * width) + (inside * space);
                    if (Done(fixedPart))
                    {
                        break;
                    }

                    var row = Row(groups, tucks, width, space, 0).Row;
                    if (row.MostUpTo(bound - fixedPart) is { } less && fixedPart + less >= 1 && !(below >= fixedPart + less))
                    {
                        below = fixedPart + less;
                    }

                    if (fixedPart + most >= over && row.LeastFrom(over - fixedPart) is { } more && fixedPart + more <= ceiling && !(above <= fixedPart + more))
                    {
                        above = fixedPart + more;
                    }
                }

                // With so much of tucks and spaces, or more, nothing comes nearer.
                bool Done(long fixedPart) => fixedPart + least > ceiling || above <= fixedPart + least || (below >= bound && (above == over || over > ceiling));
            }
        }

        return (below * Unit, above * Unit);
    }
}
