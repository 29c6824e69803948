namespace HeirloomArchive.Sewing.Fitting;

/// <summary>The first so many arrangements in their order, without making all of them.</summary>
internal static class FitRanking
{
    public static List<FitArrangement> First(FitGrid grid, FitRequest request, int most)
    {
        var places = request.Like is { } like ? Closest(grid, like, most) : Rising(grid).Take(most);
        return [.. places.Select(p => Arrangement(grid, p))];
    }

    public static FitArrangement Arrangement(FitGrid grid, FitPlace place) => new(
        place.Row.Tucks,
        Of(place.Row.Width * grid.Unit),
        place.Row.Gaps == 0 ? null : Of(place.Space * grid.Unit),
        Of(place.Lead * grid.Unit),
        Of(place.Row.TrailOf(place.Space, place.Lead) * grid.Unit),
        Of(grid.Finished),
        Of(grid.ClothOf(place.Row.Tucks, place.Row.Width)));

    private static Length Of(long nanometres) => Length.FromNanometres(nanometres);

    /// <summary>By tucks, width, space, lead.</summary>
    private static IEnumerable<FitPlace> Rising(FitGrid grid)
    {
        foreach (var row in grid.Rows())
        {
            var spaces = row.Fitting();
            for (var i = 0L; i < spaces.Count; i++)
            {
                var leads = row.Leads(spaces[i]);
                for (var lead = leads.From; lead <= leads.To; lead++)
                {
                    yield return new(row, spaces[i], lead);
                }
            }
        }
    }

    /// <summary>
    /// By closeness: from the antique's own count outwards until all that is kept has its very proportion and a nearer count;
    /// in a row from its own proportion outwards, up and down, until the row has nothing worth keeping.
    /// </summary>
    private static IEnumerable<FitPlace> Closest(FitGrid grid, Likeness like, int most)
    {
        var closeness = new FitCloseness(like, grid.Unit);
        var kept = new Best<FitPlace>(closeness, most);
        foreach (var row in grid.Counts().OrderBy(closeness.CountsApart).TakeWhile(tucks => !Settled(tucks)).SelectMany(grid.Rows))
        {
            var spaces = row.Fitting();
            var middle = like.Space is { } space ? spaces.Below(space.Nanometres * row.Width, like.Width.Nanometres) : 0;
            for (var i = middle; i < spaces.Count && KeepEnds(row, spaces[i]); i++)
            {
            }

            for (var i = middle - 1; i >= 0 && KeepEnds(row, spaces[i]); i--)
            {
            }
        }

        return kept.Items;

        // No arrangement of so many tucks, or of a count as far off, can be among the best.
        bool Settled(int tucks) => kept.Worst is { } worst && closeness.Exact(worst) && closeness.CountsApart(worst.Row.Tucks) < closeness.CountsApart(tucks);

        // From even ends outwards; false when not even the evenest are worth keeping.
        bool KeepEnds(FitRow row, long space)
        {
            var (leads, even) = (row.Leads(space), row.EvenestLead(space));
            var any = false;
            for (var lead = even; lead >= leads.From && kept.Add(new(row, space, lead)); lead--)
            {
                any = true;
            }

            for (var lead = even + 1; lead <= leads.To && kept.Add(new(row, space, lead)); lead++)
            {
                any = true;
            }

            return any;
        }
    }
}

/// <summary>One arrangement: its row, its space (of no meaning in a row without gaps) and its lead.</summary>
internal readonly record struct FitPlace(FitRow Row, long Space, long Lead)
{
    public long Unevenness => Math.Abs(Lead - Row.TrailOf(Space, Lead));
}

/// <summary>Closeness to an antique as <see cref="Fit"/> documents it; fractions are compared crosswise, in whole numbers.</summary>
internal sealed class FitCloseness(Likeness like, long unit) : IComparer<FitPlace>
{
    private readonly long width = like.Width.Nanometres;
    private readonly long? space = like.Space?.Nanometres;

    public int Compare(FitPlace x, FitPlace y)
    {
        var (a, over) = Proportion(x);
        var (b, under) = Proportion(y);
        var order = ((Int128)a * under).CompareTo((Int128)b * over);
        return order != 0 ? order : Rest(x).CompareTo(Rest(y));
    }

    /// <summary>How far a count lies from the antique's.</summary>
    public int CountsApart(int tucks) => Math.Abs(tucks - like.Tucks);

    /// <summary>Whether it has the antique's very proportion.</summary>
    public bool Exact(FitPlace place) => Proportion(place).Numerator == 0;

    /// <summary>How far space : width lies from the antique's, as a fraction; without a space it is beyond all.</summary>
    private (long Numerator, long Denominator) Proportion(FitPlace place) =>
        space is not { } wanted ? (0, 1)
        : place.Row.Gaps == 0 ? (1, 0)
        : (Math.Abs((place.Space * width) - (wanted * place.Row.Width)), place.Row.Width);

    private (int, long, long, long, int, long, long) Rest(FitPlace place) => (
        CountsApart(place.Row.Tucks), Math.Abs((place.Row.Width * unit) - width), place.Space, place.Unevenness,
        place.Row.Tucks, place.Row.Width, place.Lead);
}
