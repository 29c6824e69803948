using HeirloomArchive.Sewing.Fitting;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary>One of several pieces that carry the same tuck and space.</summary>
/// <param name="Name">What she calls it: <c>front left</c>.</param>
/// <param name="Finished">The width to fill, above zero.</param>
/// <param name="Cloth">The flat cloth there is for it; null is no limit.</param>
/// <param name="Tucks">How many tucks it may carry.</param>
public sealed record FitPiece(string Name, Length Finished, Length? Cloth, CountRange Tucks);

/// <summary>A width and a space that serve every piece.</summary>
/// <param name="Width">Fold to stitching line.</param>
/// <param name="Space">The plain cloth seen between two.</param>
/// <param name="Ways">For each piece, in the order asked, every count it can carry with its ends; the one to be chosen first.</param>
public sealed record CommonFit(Length Width, Length Space, IReadOnlyList<IReadOnlyList<FitArrangement>> Ways);

/// <summary>A piece that keeps the others from one tuck and space.</summary>
/// <param name="Piece">Which.</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="Nearest">The nearest that fits it in each direction, as <see cref="Fit"/> gives them.</param>
public sealed record PieceTrouble(FitPiece Piece, string Reason, IReadOnlyList<FitNearest> Nearest);

/// <summary>One width and one space for several pieces: fronts, back and sleeves of one garment, solved at once.</summary>
/// <remarks>
/// Each piece is held to what <see cref="Fit"/> holds it to. Order with <c>like</c>: how far space : width lies from the antique's, how far the width,
/// the smaller space; without it by width, then space, rising. Within a piece the count nearest the antique's comes first, else the smaller.
/// </remarks>
public static class FitSeveral
{
    /// <summary>Most widths times spaces that are tried.</summary>
    public const int MostPairs = 1_000_000;

    /// <summary>Most that are listed.</summary>
    public const int MostListed = 50;

    /// <summary>What came of it. <c>Troubles</c> has an entry for each piece that fails, alone or beside the others; none when there is a common fit.</summary>
    /// <param name="Count">How many pairs of width and space serve every piece, listed or not.</param>
    /// <param name="Common">The first 50 in their order.</param>
    /// <param name="Serving">When none serves all: the pair that serves most pieces, its ways empty for a piece it does not serve; null when none serves any.</param>
    /// <param name="Troubles">When none serves all.</param>
    public sealed record Found(long Count, IReadOnlyList<CommonFit> Common, CommonFit? Serving, IReadOnlyList<PieceTrouble> Troubles);

    /// <summary>Solves all the pieces at once.</summary>
    /// <param name="shared">What the pieces share; its finished width, cloth and count are each piece's own.</param>
    /// <param name="pieces">One or more.</param>
    /// <exception cref="FaultException">A request makes no sense, or more than <see cref="MostPairs"/> would have to be tried.</exception>
    public static Found Find(FitRequest shared, IReadOnlyList<FitPiece> pieces)
    {
        ArgumentNullException.ThrowIfNull(shared);
        ArgumentNullException.ThrowIfNull(pieces);
        var requests = pieces.Select(p => shared with { Finished = p.Finished, Cloth = p.Cloth, Tucks = p.Tucks }).ToList();
        requests.ForEach(FitChecks.Check);
        var grids = requests.ConvertAll(FitGrid.Of);
        var (widths, spaces) = (grids[0].Widths, grids[0].Spaces);
        NotEmpty(widths, "width", shared.Width);
        NotEmpty(spaces, "space", shared.Space);
        NotEmpty(grids[0].Ends, "ends", shared.Ends);
        if ((Int128)(widths.To - widths.From + 1) * (spaces.To - spaces.From + 1) > MostPairs)
        {
            throw new FaultException("width", "Widths and spaces make more than a million pairs to try: narrow one of the two ranges, or take a coarser marking.");
        }

        var (common, serving, served) = (new List<Pair>(), (Pair?)null, 0);
        var order = Order(shared);
        for (var width = widths.From; width <= widths.To; width++)
        {
            for (var space = spaces.From; space <= spaces.To; space++)
            {
                var pair = new Pair(width, space);
                var serves = grids.Count(g => g.RowsWith(pair.Width, pair.Space).Any());
                if (serves == grids.Count)
                {
                    common.Add(pair);
                }
                else if (serves > served || (serves == served && serves > 0 && order.Compare(pair, serving!.Value) < 0))
                {
                    (serving, served) = (pair, serves);
                }
            }
        }

        return common.Count > 0
            ? new(common.Count, [.. common.Order(order).Take(MostListed).Select(p => Of(grids, p, shared.Like))], null, [])
            : new(0, [], serving is { } best ? Of(grids, best, shared.Like) : null, Troubles(requests, pieces, serving));

        void NotEmpty(Span span, string field, LengthRange range)
        {
            if (span.IsEmpty)
            {
                throw new FaultException(field, T($"No whole number of {shared.Finest.ToText(shared.Unit)} lies between {range.From.ToText(shared.Unit)} and {range.To.ToText(shared.Unit)}: widen the range or take a finer marking."));
            }
        }
    }

    private static CommonFit Of(List<FitGrid> grids, Pair pair, Likeness? like) => new(
        Length.FromNanometres(pair.Width * grids[0].Unit),
        Length.FromNanometres(pair.Space * grids[0].Unit),
        grids.ConvertAll(grid => (IReadOnlyList<FitArrangement>)[.. grid.RowsWith(pair.Width, pair.Space)
            .Select(row => FitRanking.Arrangement(grid, new(row, pair.Space, row.EvenestLead(row.Gaps == 0 ? 0 : pair.Space))))
            .OrderBy(a => like is null ? 0 : Math.Abs(a.Tucks - like.Tucks)).ThenBy(a => a.Tucks)]));

    /// <summary>Those that fail alone; when each serves alone, those that the pair which serves most leaves out, held to that pair.</summary>
    private static List<PieceTrouble> Troubles(List<FitRequest> requests, IReadOnlyList<FitPiece> pieces, Pair? serving)
    {
        var alone = Of(requests, (_, answer) => answer.Reason!);
        if (alone.Count > 0 || serving is not { } pair)
        {
            return alone;
        }

        var finest = requests[0].Finest;
        var held = requests.ConvertAll(r => r with { Width = new(pair.Width * finest, pair.Width * finest), Space = new(pair.Space * finest, pair.Space * finest) });
        return Of(held, (request, answer) => T($"It has fits of its own, but none with the {Text(request, pair.Width)} tucks and {Text(request, pair.Space)} spaces that serve most of the others. {answer.Reason}"));

        List<PieceTrouble> Of(List<FitRequest> asked, Func<FitRequest, FitAnswer, string> reason) =>
            [.. asked.Zip(pieces, (request, piece) => (Request: request, Piece: piece, Answer: Fit.Find(request)))
                .Where(x => !x.Answer.Fits).Select(x => new PieceTrouble(x.Piece, reason(x.Request, x.Answer), x.Answer.Nearest))];

        static string Text(FitRequest request, long count) => (count * request.Finest).ToText(request.Unit);
    }

    private static Comparer<Pair> Order(FitRequest shared)
    {
        if (shared.Like is not { } like)
        {
            return Comparer<Pair>.Create((x, y) => (x.Width, x.Space).CompareTo((y.Width, y.Space)));
        }

        var (width, space, unit) = (like.Width.Nanometres, like.Space?.Nanometres, shared.Finest.Nanometres);
        return Comparer<Pair>.Create((x, y) =>
        {
            var order = (Apart(x) * y.Width).CompareTo(Apart(y) * x.Width);
            return order != 0 ? order : Rest(x).CompareTo(Rest(y));
        });

        Int128 Apart(Pair pair) => space is { } wanted ? Int128.Abs(((Int128)pair.Space * width) - ((Int128)wanted * pair.Width)) : 0;

        (long, long, long) Rest(Pair pair) => (Math.Abs((pair.Width * unit) - width), pair.Space, pair.Width);
    }

    /// <summary>In finest markings.</summary>
    private readonly record struct Pair(long Width, long Space);
}
