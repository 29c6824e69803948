using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Sewing.Sizes;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Tests.Sizes;

public class FitSeveralTests
{
    private static readonly Length Unit = Length.FromSixtyFourthsOfInch(4);

    private static JsonObject Of(string request) => AllSums.Find("fit-several")!.Of(JsonNode.Parse(request)).ToJson();

    private static Gen<(int From, int To)> Range(int least, int most, int longest) =>
        Gen.Select(Gen.Int[least, most], Gen.Int[0, longest], (from, length) => (from, from + length));

    private static readonly Gen<(FitRequest Shared, FitPiece[] Pieces)> GenSeveral = Gen.Select(
        Range(1, 3, 3), Range(0, 3, 4), Range(0, 4, 6), Gen.Int[0, 4],
        Gen.Select(Gen.Int[5, 60], Gen.Int[0, 90], Range(1, 6, 8), (finished, cloth, tucks) => new FitPiece("piece", finished * Unit, cloth > 70 ? null : (finished + cloth) * Unit, new(tucks.From, tucks.To))).Array[1, 4],
        Gen.Bool,
        (width, space, ends, lie, pieces, like) => (new FitRequest
        {
            Finished = Unit,
            Tucks = new(1, 1),
            Width = new(width.From * Unit, width.To * Unit),
            Space = new(space.From * Unit, space.To * Unit),
            Ends = new(ends.From * Unit, ends.To * Unit),
            Finest = Unit,
            UnevenEnds = lie == 1,
            Lies = lie == 2 ? Lies.TowardsStart : lie == 3 ? Lies.FromCentre : lie == 4 ? Lies.TowardsCentre : null,
            Centre = lie == 3 ? 2 * Unit : null,
            Like = like ? new(5, Length.FromMillimetres(3), Length.FromMillimetres(5)) : null,
        }, pieces));

    [Fact]
    public void What_serves_every_piece_is_what_each_piece_alone_says_serves_it() => GenSeveral.Sample(x =>
    {
        var found = FitSeveral.Find(x.Shared, x.Pieces);
        var expected = new List<(Length, Length)>();
        for (var width = x.Shared.Width.From; width <= x.Shared.Width.To; width += Unit)
        {
            for (var space = x.Shared.Space.From; space <= x.Shared.Space.To; space += Unit)
            {
                if (x.Pieces.All(p => Fit.Find(Held(x.Shared, p, width, space)).Fits))
                {
                    expected.Add((width, space));
                }
            }
        }

        Assert.Equal(expected.Count, found.Count);
        Assert.Equal(expected.ToHashSet(), found.Common.Select(c => (c.Width, c.Space)).ToHashSet());
        if (x.Shared.Like is null)
        {
            Assert.Equal(expected, found.Common.Select(c => (c.Width, c.Space)));
        }

        foreach (var common in found.Common)
        {
            foreach (var (piece, ways) in x.Pieces.Zip(common.Ways))
            {
                var alone = Fit.Find(Held(x.Shared, piece, common.Width, common.Space)).Arrangements;
                Assert.Equal(alone.Select(a => a.Tucks).Distinct().Order(), ways.Select(a => a.Tucks).Order());
                Assert.True(alone.Count == FitAnswer.MostListed || ways.All(alone.Contains));
            }
        }

        Assert.Equal(found.Count == 0, found.Troubles.Count > 0);
    }, iter: 120);

    private static FitRequest Held(FitRequest shared, FitPiece piece, Length width, Length space) => shared with
    {
        Finished = piece.Finished,
        Cloth = piece.Cloth,
        Tucks = piece.Tucks,
        Width = new(width, width),
        Space = new(space, space),
    };

    [Fact]
    public void Fronts_and_a_sleeve_share_the_antiques_proportion()
    {
        var answer = Of(AllSums.Find("fit-several")!.Example);
        Assert.True((bool)answer["fits"]!);
        Assert.Equal(2 * (decimal)answer["width"]!["mm"]!, (decimal)answer["space"]!["mm"]!);
        foreach (var row in answer["arrangements"]!.AsArray())
        {
            var (tucks, space) = ((int)row!["tucks"]!, row["space"] is { } s ? (decimal)s["mm"]! : 0);
            Assert.Equal((decimal)row["finished"]!["mm"]!, (tucks * (decimal)row["width"]!["mm"]!) + ((tucks - 1) * space) + (decimal)row["lead"]!["mm"]! + (decimal)row["trail"]!["mm"]!);
            Assert.Equal((decimal)row["cloth"]!["mm"]!, (decimal)row["finished"]!["mm"]! + (2 * tucks * (decimal)row["width"]!["mm"]!));
        }
    }

    [Fact]
    public void The_piece_that_fails_is_named_with_its_reason_and_its_nearest()
    {
        var answer = Of("""
            {"pieces":[{"name":"front","finished":"5 in"},{"name":"sleeve","finished":"8 in","cloth":"8 1/4 in"}],
             "width":{"from":"1/8 in","to":"1/4 in"},"space":{"from":"1/8 in","to":"1/2 in"},"ends":{"from":"1/4 in","to":"1 in"}}
            """);
        Assert.False((bool)answer["fits"]!);
        var trouble = Assert.Single(answer["troubles"]!.AsArray());
        Assert.Equal("sleeve", (string?)trouble!["piece"]);
        Assert.StartsWith("Not enough cloth", (string?)trouble["reason"], StringComparison.Ordinal);
        Assert.Contains(answer["nearest"]!.AsArray(), n => (string?)n!["change"] == "cloth" && (decimal)n["cloth"]!["mm"]! > 8.25m * 25.4m);
    }

    [Fact]
    public void Pieces_that_fit_alone_and_not_together_are_told_by_the_pair_that_serves_most()
    {
        var answer = Of("""
            {"pieces":[{"name":"left","finished":"2 in","tucksFrom":4,"tucksTo":4},{"name":"right","finished":"2 in","tucksFrom":4,"tucksTo":4},{"name":"cuff","finished":"2 1/16 in","tucksFrom":4,"tucksTo":4}],
             "width":{"from":"1/8 in","to":"1/8 in"},"space":{"from":"3/8 in","to":"7/16 in"},"ends":{"from":"1/8 in","to":"3/16 in"}}
            """);
        Assert.False((bool)answer["fits"]!);
        Assert.Equal("cuff", (string?)Assert.Single(answer["troubles"]!.AsArray())!["piece"]);
        Assert.Contains("serve most of the others", (string?)answer["troubles"]![0]!["reason"], StringComparison.Ordinal);
        Assert.Contains(answer["nearest"]!.AsArray(), n => (string?)n!["change"] == "finished");
    }

    [Theory]
    [InlineData("\"to\":\"1/4 in\"", "\"to\":\"1/32 in\"", "width.from")]
    [InlineData("\"from\":\"1/16 in\",\"to\":\"1/4 in\"", "\"from\":\"1/64 in\",\"to\":\"1/4 in\"", "width.from")]
    [InlineData("\"from\":\"1/4 in\",\"to\":\"1 in\"", "\"from\":\"5/64 in\",\"to\":\"7/64 in\"", "ends")]
    [InlineData("\"to\":\"1/2 in\"", "\"to\":\"900 m\"", "width")]
    [InlineData("\"finest\":\"1/16 in\"", "\"finest\":\"1/16 in\",\"centre\":\"1 in\"", "centre")]
    [InlineData("\"cloth\":\"14 in\"", "\"tucksFrom\":9,\"tucksTo\":3", "pieces[2].tucksFrom")]
    public void What_makes_no_sense_is_named(string part, string instead, string path)
    {
        var refused = Assert.Throws<FaultException>(() => Of(AllSums.Find("fit-several")!.Example.Replace(part, instead, StringComparison.Ordinal)));
        Assert.False(refused.Unreadable);
        Assert.Equal(path, refused.Faults[0].Path);
    }
}
