using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary><see cref="FitSeveral"/> with its route and page.</summary>
internal static class SeveralSum
{
    /// <summary>Pairs whose every way is told.</summary>
    private const int MostTold = 10;

    public static Sum Sum { get; } = new()
    {
        Slug = "fit-several",
        Shelf = Shelf.Sizes,
        Title = "One tuck for several pieces",
        Lead = "One width of tuck and one space that fit the fronts, the back and the sleeves alike, each with a count and ends of its own.",
        Asks =
        [
            Ask.Rows("pieces", "Pieces", 1, 20, "Each piece that is tucked.",
                Ask.Text("name", "Piece", "front left"),
                Ask.Above("finished", "Finished width", "5 in", "Ends included."),
                Ask.Above("cloth", "Cloth there is", "9 in").Optional(),
                Ask.Whole("tucksFrom", "Tucks from", 1, TuckRun.MostInGroup, "5").Optional(),
                Ask.Whole("tucksTo", "Tucks to", 1, TuckRun.MostInGroup, "20").Optional()),
            SizeAsks.Range("width", "Width of a tuck", "1/16 in", "1/4 in", "From the fold to the stitching."),
            SizeAsks.Range("space", "Space between", "1/16 in", "1/2 in", "The plain cloth seen between two tucks."),
            SizeAsks.Range("ends", "Plain ends", "1/4 in", "1 in", "The plain cloth before the first tuck and after the last."),
            SizeAsks.Finest,
            SizeAsks.Lie,
            Ask.Plain("centre", "Plain centre", "1/2 in", "Only where the tucks lie from or towards the middle; left out, it is one of the spaces."),
            Ask.Flag("unevenEnds", "The two ends may differ"),
            Ask.Part("like", "Like the antique", "Then the nearest to its proportions comes first.",
                Ask.Whole("tucks", "Its tucks", 1, TuckRun.MostInGroup, "9"),
                Ask.Above("width", "Their width", "1/8 in"),
                Ask.Plain("space", "Their space", "1/4 in") with { Needed = true }),
        ],
        Example = """
            {"pieces":[{"name":"front left","finished":"5 in"},{"name":"front right","finished":"5 in"},{"name":"sleeve","finished":"8 1/2 in","cloth":"14 in"}],
             "width":{"from":"1/16 in","to":"1/4 in"},"space":{"from":"1/16 in","to":"1/2 in"},"ends":{"from":"1/4 in","to":"1 in"},
             "finest":"1/16 in","like":{"tucks":9,"width":"1/8 in","space":"1/4 in"}}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (request, pieces) = Read(asked);
        asked.Throw();
        var found = FitSeveral.Find(request, pieces);
        var best = found.Common.Count > 0 ? found.Common[0] : null;
        var answer = new Answer(asked.Unit)
            .Figure("fits", "One tuck serves all", found.Count > 0)
            .Figure("count", "Pairs of width and space that serve", found.Count)
            .Figure("width", "Width of the tucks", best?.Width)
            .Figure("space", "Space between", best?.Space);
        if (best is not null)
        {
            answer
                .Table("pairs", "Widths and spaces that serve every piece", [new("place", "No."), new("width", "Width"), new("space", "Space"), new("counts", "Tucks on each")],
                    found.Common.Select((c, i) => (IReadOnlyList<object?>)[i + 1, c.Width, c.Space, Counts(c, pieces)]))
                .Table("arrangements", T($"Every way of the first {Math.Min(MostTold, found.Common.Count)}"),
                    [new("place", "No."), new("piece", "Piece"), new("tucks", "Tucks"), new("width", "Width"), new("space", "Space"), new("lead", "Plain before"), new("trail", "Plain after"), new("finished", "Finished"), new("cloth", "Cloth")],
                    found.Common.Take(MostTold).SelectMany((c, i) => c.Ways.SelectMany((ways, piece) => ways.Select(a =>
                        (IReadOnlyList<object?>)[i + 1, pieces[piece].Name, a.Tucks, a.Width, a.Space, a.Lead, a.Trail, a.Finished, a.Cloth]))));
        }
        else
        {
            answer
                .Table("troubles", "Pieces that keep the others from it", [new("piece", "Piece"), new("reason", "Why")],
                    found.Troubles.Select(t => (IReadOnlyList<object?>)[t.Piece.Name, t.Reason]))
                .Table("nearest", "The nearest that fits each of them, one thing changed",
                    [new("piece", "Piece"), new("change", "What is changed"), new("tucks", "Tucks"), new("width", "Width"), new("space", "Space"), new("lead", "Plain before"), new("trail", "Plain after"), new("finished", "Finished"), new("cloth", "Cloth")],
                    found.Troubles.SelectMany(t => t.Nearest.Select(n => n.Arrangement is var a
                        ? (IReadOnlyList<object?>)[t.Piece.Name, SizeAsks.Changed(n.Change.ToString().ToLowerInvariant()), a.Tucks, a.Width, a.Space, a.Lead, a.Trail, a.Finished, a.Cloth] : [])));
        }

        answer.Note("Every count of every piece is looked at with every width and space, in whole numbers of the finest marking; what is listed fits exactly.");
        var drawn = (best ?? found.Serving)?.Ways ?? [.. pieces.Select(_ => (IReadOnlyList<FitArrangement>)[])];
        var runs = pieces.Select((p, i) => drawn[i].Count > 0
            ? (N(drawn[i][0].Tucks, $"{p.Name}: {drawn[i][0].Tucks} tuck", $"{p.Name}: {drawn[i][0].Tucks} tucks"), p.Finished, request.RunOf(drawn[i][0]))
            : (T($"{p.Name}: does not fit"), p.Finished, (TuckRun?)null)).ToList();
        return answer.Drawn(RunDrawing.Words(runs.Select(r => r.Item3), T($"{string.Join("; ", runs.Select(r => r.Item1))}, finished, at one scale.")), RunDrawing.Strips(runs, asked.Unit));
    }

    private static (FitRequest Request, List<FitPiece> Pieces) Read(Asked asked)
    {
        var finest = SizeAsks.FinestOf(asked);
        var like = asked.Part("like");
        var request = new FitRequest
        {
            Finished = finest,
            Tucks = new(1, 1),
            Width = SizeAsks.RangeOf(asked, "width", finest),
            Space = SizeAsks.RangeOf(asked, "space", Length.Zero),
            Ends = SizeAsks.RangeOf(asked, "ends", Length.Zero),
            Finest = finest,
            Lies = SizeAsks.LiesOf(asked),
            Centre = asked.LengthOrNull("centre"),
            UnevenEnds = asked.Flag("unevenEnds"),
            Like = like is null ? null : new(like.Whole("tucks"), like.Length("width"), like.Length("space")),
            Unit = asked.Unit,
        };
        return (request, [.. asked.Rows("pieces").Select(Piece)]);

        static FitPiece Piece(Asked row)
        {
            var tucks = new CountRange(row.Whole("tucksFrom", 1), row.Whole("tucksTo", TuckRun.MostInGroup));
            row.Check(tucks.From <= tucks.To, "tucksFrom", T($"From {tucks.From} to {tucks.To} tucks is no range: from must not be above to."));
            return new(row.Text("name"), row.Length("finished"), row.LengthOrNull("cloth"), tucks);
        }
    }

    /// <summary><c>front left 11 or 12; sleeve 19</c>.</summary>
    private static string Counts(CommonFit common, List<FitPiece> pieces) =>
        string.Join("; ", pieces.Zip(common.Ways, (piece, ways) => $"{piece.Name} {string.Join($" {T("or")} ", ways.Select(a => a.Tucks))}"));
}
