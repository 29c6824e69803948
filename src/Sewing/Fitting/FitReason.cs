namespace HeirloomArchive.Sewing.Fitting;

/// <summary>Why nothing fits: the bound that fails, in words.</summary>
internal static class FitReason
{
    public static string Of(FitGrid grid, FitRequest request)
    {
        // What adds up, whatever cloth it takes; and that whether its lines cross in the middle or not.
        var endless = grid with { Correction = 0, Cloth = 4 * Length.Longest.Nanometres };
        var sums = endless with { Lies = grid.LiesFromMiddle ? Lies.FromCentre : grid.Lies };
        return Marking() ?? Cloth() ?? Strip() ?? Sewn() ?? Bounds() ?? Gap();

        string? Marking() =>
            grid.Widths.IsEmpty ? Nothing(T("width"), request.Width)
            : grid.Spaces.IsEmpty && grid.Tucks.To > (grid.Centre is null ? 1 : 2) ? Nothing(T("space"), request.Space)
            : grid.Ends.IsEmpty ? Nothing(T("plain end"), request.Ends)
            : !grid.Counts().Any() ? T($"A run that lies from or towards its centre has as many tucks in each half, and no even number lies between {grid.Tucks.From} and {grid.Tucks.To}.")
            : grid.OnMarking ? null
            : grid.Centre is null ? T($"{Text(grid.Finished)} is not a whole number of {Text(grid.Unit)}, and whatever is made of whole widths, spaces and ends is.")
            : T($"{Text(grid.Finished)} less the centre of {Text(grid.Centre.Value)} is not a whole number of {Text(grid.Unit)}, and whatever is made of whole widths, spaces and ends is.");

        string? Cloth() =>
            FitNeighbours.LeastCloth(grid) is { } least ? T($"Not enough cloth: the least that any arrangement of {Text(grid.Finished)} needs is {Text(least)}, and there are {Text(grid.Cloth)}.") : null;

        string? Strip() =>
            grid.Correction != 0 && (grid with { Correction = 0, Cloth = Length.Longest.Nanometres }).Any
                ? T($"With the strip's correction of {Text(grid.Correction)} a tuck, whatever adds up to {Text(grid.Finished)} would make lines cross or leave no cloth outside the last.")
                : null;

        string? Sewn() =>
            endless.Any ? T($"Whatever adds up to {Text(grid.Finished)} needs more than 1 km of cloth: lengths here go up to 1 km.")
            : grid.Centre is { } centre && sums.Any ? T($"With a centre of {Text(centre)} the lines in the middle would cross in whatever adds up to {Text(grid.Finished)}: the tucks must be wider, or the centre more.")
            : null;

        string? Bounds()
        {
            var (few, many) = (grid.Counts().First(), grid.Counts().Last());
            var (least, most) = (Finished(few, grid.Widths.From, grid.Spaces.From, grid.Ends.From), Finished(many, grid.Widths.To, grid.Spaces.To, grid.Ends.To));
            return most < grid.Finished ? T($"Too little: {Parts(T("at most"), many, grid.Widths.To, grid.Spaces.To, grid.Ends.To)} finish at {Text(most)}, short of {Text(grid.Finished)}.")
                : least > grid.Finished ? T($"Too much: {Parts(T("at least"), few, grid.Widths.From, grid.Spaces.From, grid.Ends.From)} finish at {Text(least)}, beyond {Text(grid.Finished)}.")
                : null;
        }

        string Gap()
        {
            var (below, above) = FitFinished.Neighbours(sums);
            var near = below is { } less && above is { } more ? T($"{Text(less)} or {Text(more)}") : (below ?? above) is { } one ? Text(one) : "";
            return T($"Whole numbers of {Text(grid.Unit)} in these ranges add up to {near}, and to nothing between: {Text(grid.Finished)} can't be made.");
        }

        string Nothing(string what, LengthRange range) =>
            T($"No whole number of {Text(grid.Unit)} lies between {range.From.ToText(request.Unit)} and {range.To.ToText(request.Unit)}: there is no {what} to choose.");

        string Parts(string bound, int tucks, long width, long space, long end) => grid.Gaps(tucks) == 0
            ? T($"{bound} {tucks} of {Text(width * grid.Unit)} with ends of {Text(end * grid.Unit)}")
            : T($"{bound} {tucks} of {Text(width * grid.Unit)} with spaces of {Text(space * grid.Unit)} and ends of {Text(end * grid.Unit)}");

        long Finished(int tucks, long width, long space, long end) =>
            (grid.Centre ?? 0) + (((tucks * width) + (grid.Gaps(tucks) * space) + (2 * end)) * grid.Unit);

        string Text(long nanometres) => Exactly(nanometres, request.Unit);
    }

    /// <summary>A length in the unit of the request, or in the other one where only that is exact (a marking of 0.25 mm for a width in inches).</summary>
    public static string Exactly(long nanometres, LengthUnit unit)
    {
        var texts = new[] { unit, LengthUnit.Millimetres, LengthUnit.Inches }.Select(Length.FromNanometres(nanometres).ToText).ToList();
        return texts.Find(t => t[0] != '≈') ?? texts[0];
    }
}
