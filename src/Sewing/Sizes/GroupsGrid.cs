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
            Widths = Inwards(request.Width),
            Spaces = Inwards(request.Space),
            Gaps = Inwards(request.Gap),
            Ends = Inwards(request.Ends),
        };

        Span Inwards(LengthRange range) => new(Span.Ceiling(range.From.Nanometres, unit), Span.Floor(range.To.Nanometres, unit));
    }

    public bool Any => Rows().Any();

    public bool OnMarking => Finished % Unit == 0;

    public long ClothOf(GroupsRow row) => Finished + (2 * row.Row.Tucks * row.Width * Unit);

    /// <summary>Every count of groups and tucks, width and space that fits with some gap and ends, rising.</summary>
    public IEnumerable<GroupsRow> Rows() => OnMarking ? Shapes().SelectMany(s => Rows(s.Groups, s.Tucks)) : [];

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
                var row = Row(groups, tucks, width, space, left - (inside * space));
                if (row.Row.Fitting().Count > 0)
                {
                    yield return row;
                }
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
        var (under, over) = (Span.Ceiling(Finished, Unit) - 1, Span.Floor(Finished, Unit) + 1);
        foreach (var (groups, tucks) in Shapes())
        {
            var (all, inside) = (groups * tucks, groups * (tucks - 1));
            var (least, most) = Outside(groups);
            for (var width = Widths.From; width <= Widths.To; width++)
            {
                var ceiling = Span.Floor(Cloth, Unit) - (2 * all * width);
                for (var space = inside == 0 ? 0 : Spaces.From; space <= (inside == 0 ? 0 : Spaces.To); space++)
                {
                    var fixedPart = (all * width) + (inside * space);
                    if (fixedPart + least > ceiling || (above is { } best && fixedPart + least >= best))
                    {
                        break;
                    }

                    var row = Row(groups, tucks, width, space, 0).Row;
                    if (row.MostUpTo(Math.Min(ceiling, under) - fixedPart) is { } less && fixedPart + less >= 1 && !(below >= fixedPart + less))
                    {
                        below = fixedPart + less;
                    }

                    if (fixedPart + most >= over && row.LeastFrom(over - fixedPart) is { } more && fixedPart + more <= ceiling && !(above <= fixedPart + more))
                    {
                        above = fixedPart + more;
                    }
                }
            }

            if (below == under && above == over)
            {
                break;
            }
        }

        return (below * Unit, above * Unit);
    }
}
