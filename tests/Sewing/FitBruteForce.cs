namespace HeirloomArchive.Sewing.Tests;

/// <summary>Every arrangement of a small request, tried one by one; whether it can be sewn is asked of the plan.</summary>
internal sealed class FitBruteForce(FitRequest request, int mostUnits, int mostTucks)
{
    public readonly record struct Try(int Tucks, int Width, int? Space, int Lead, int Trail);

    private readonly long unit = request.Finest.Nanometres;

    public List<FitArrangement> All() => [.. Tries(Ranges()).Where(t => FinishedOf(t) == request.Finished && ClothFits(t, request.Cloth)).Select(Arrangement)];

    /// <summary>The least amount out of its range and the value chosen, for each direction that has an answer.</summary>
    public Dictionary<FitChange, (long Distance, long Value)> Nearest()
    {
        var nearest = new Dictionary<FitChange, (long, long)>();
        var (n, w, s, e) = Ranges();
        Keep(FitChange.Finished, Tries((n, w, s, e)).Select(t => (Try: t, Finished: FinishedOf(t)))
            .Where(x => x.Finished.Nanometres >= unit && ClothFits(x.Try, request.Cloth))
            .Select(x => (Math.Abs((x.Finished - request.Finished).Nanometres), x.Finished.Nanometres)));
        Keep(FitChange.Tucks, Fitting((new(1, mostTucks), w, s, e)).Select(t => (Distance(t.Tucks, n), (long)t.Tucks)));
        Keep(FitChange.Width, Fitting((n, new(1, mostUnits), s, e)).Select(t => (Distance(t.Width, w), (long)t.Width)));
        Keep(FitChange.Space, Fitting((n, w, new(0, mostUnits), e)).Where(t => t.Space is not null).Select(t => (Distance(t.Space!.Value, s), (long)t.Space!.Value)));
        Keep(FitChange.Ends, Fitting((n, w, s, new(0, mostUnits))).Select(t => (Math.Max(Distance(t.Lead, e), Distance(t.Trail, e)), (long)t.Lead + t.Trail)));
        Keep(FitChange.Cloth, Tries((n, w, s, e)).Where(t => FinishedOf(t) == request.Finished && ClothFits(t, null)).Select(t => (ClothOf(t).Nanometres, ClothOf(t).Nanometres)));
        return nearest;

        IEnumerable<Try> Fitting((Range Tucks, Range Widths, Range Spaces, Range Ends) ranges) =>
            Tries(ranges).Where(t => FinishedOf(t) == request.Finished && ClothFits(t, request.Cloth));

        void Keep(FitChange change, IEnumerable<(long Distance, long Value)> found)
        {
            if (found.OrderBy(f => f.Distance).ThenBy(f => f.Value).Cast<(long, long)?>().FirstOrDefault() is { } least)
            {
                nearest[change] = least;
            }
        }
    }

    public readonly record struct Range(int From, int To);

    private (Range Tucks, Range Widths, Range Spaces, Range Ends) Ranges() =>
        (new(request.Tucks.From, request.Tucks.To), Inwards(request.Width), Inwards(request.Space), Inwards(request.Ends));

    private Range Inwards(LengthRange range)
    {
        int from = 0, to = 0;
        while (from * unit < range.From.Nanometres)
        {
            from++;
        }

        while ((to + 1) * unit <= range.To.Nanometres)
        {
            to++;
        }

        return new(from, to);
    }

    private static long Distance(int value, Range range) => value < range.From ? range.From - value : value > range.To ? value - range.To : 0;

    private IEnumerable<Try> Tries((Range Tucks, Range Widths, Range Spaces, Range Ends) ranges)
    {
        var middle = request.Lies is Lies.FromCentre or Lies.TowardsCentre;
        for (var n = ranges.Tucks.From; n <= ranges.Tucks.To; n++)
        {
            if (middle && n % 2 != 0)
            {
                continue;
            }

            var spaceless = n == 1 || (n == 2 && request.Centre is not null);
            for (var w = ranges.Widths.From; w <= ranges.Widths.To; w++)
            {
                for (var s = spaceless ? 0 : ranges.Spaces.From; s <= (spaceless ? 0 : ranges.Spaces.To); s++)
                {
                    for (var lead = ranges.Ends.From; lead <= ranges.Ends.To; lead++)
                    {
                        for (var trail = request.UnevenEnds ? ranges.Ends.From : lead; trail <= (request.UnevenEnds ? ranges.Ends.To : lead); trail++)
                        {
                            yield return new(n, w, spaceless ? null : s, lead, trail);
                        }
                    }
                }
            }
        }
    }

    private Length FinishedOf(Try t)
    {
        var parts = Of((t.Tucks * t.Width) + t.Lead + t.Trail);
        return request.Centre is { } centre
            ? parts + centre + Of((t.Tucks - 2) * (t.Space ?? 0))
            : parts + Of((t.Tucks - 1) * (t.Space ?? 0));
    }

    private Length ClothOf(Try t) =>
        FinishedOf(t) + (t.Tucks * (Of(2 * t.Width) + (request.TestStrip?.Correction ?? Length.Zero)));

    private bool ClothFits(Try t, Length? cloth)
    {
        if (ClothOf(t) > (cloth ?? Length.Longest))
        {
            return false;
        }

        try
        {
            var plan = TuckPlan.Make(request.RunOf(Arrangement(t)));
            return plan.Cloth == ClothOf(t) && plan.Finished == FinishedOf(t) ? true : throw new InvalidOperationException($"The plan of {t} differs.");
        }
        catch (FaultException)
        {
            return false;
        }
    }

    private FitArrangement Arrangement(Try t) =>
        new(t.Tucks, Of(t.Width), t.Space is { } s ? Of(s) : null, Of(t.Lead), Of(t.Trail), FinishedOf(t), ClothOf(t));

    private Length Of(long units) => Length.FromNanometres(units * unit);
}
