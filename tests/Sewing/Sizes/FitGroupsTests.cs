using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Sewing.Sizes;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Tests.Sizes;

public class FitGroupsTests
{
    private const int MostUnits = 30;

    private static readonly Length Unit = Length.FromSixtyFourthsOfInch(4);

    private static Gen<(int From, int To)> Range(int least, int most, int longest) =>
        Gen.Select(Gen.Int[least, most], Gen.Int[0, longest], (from, length) => (from, from + length));

    private static readonly Gen<GroupsRequest> GenRequest = Gen.Select(
        Gen.Select(Gen.Int[3, 30], Gen.Int[0, 20], Gen.Int[0, 7], Gen.Int[0, 3]), Range(1, 3, 2), Range(1, 3, 2), Range(1, 2, 2), Range(0, 2, 2), Range(1, 4, 3), Range(0, 3, 2),
        (one, groups, tucks, width, space, gap, ends) => new GroupsRequest
        {
            Finished = (one.Item1 * Unit) + (one.Item3 == 0 ? Length.FromNanometres(1) : Length.Zero),
            Cloth = one.Item2 > 15 ? null : (one.Item1 + (2 * one.Item2)) * Unit,
            Groups = new(groups.From, groups.To),
            Tucks = new(tucks.From, tucks.To),
            Width = new(width.From * Unit, width.To * Unit),
            Space = new(space.From * Unit, space.To * Unit),
            Gap = new(gap.From * Unit, gap.To * Unit),
            Ends = new(ends.From * Unit, ends.To * Unit),
            Finest = Unit,
            Lies = (Lies)one.Item4,
        });

    [Fact]
    public void Groups_found_are_what_trying_everything_finds() => GenRequest.Sample(request =>
    {
        var all = Tried(request).ToList();
        var found = FitGroups.Find(request);
        Assert.Equal(all.Count, found.Count);
        Assert.Equal(all.Take(FitAnswer.MostListed), found.Arrangements);
        Assert.Equal(all.Count == 0, found.Reason is { Length: > 20 });
        Assert.All(found.Arrangements, a =>
        {
            var plan = TuckPlan.Make(a.RunOf(request.Lies));
            Assert.Equal((a.Finished, a.Cloth, a.Groups * a.Tucks), (plan.Finished, plan.Cloth, plan.Lines.Count));
        });
    }, iter: 300);

    [Fact]
    public void The_closest_to_an_antique_are_those_that_ordering_everything_puts_first() => Gen.Select(GenRequest, Gen.Int[1, 3], Gen.Int[1, 9], Gen.Int[0, 9]).Sample((request, count, width, space) =>
    {
        var like = new GroupsLikeness(count, count + 1, Length.FromMillimetres(width), Length.FromMillimetres(space), Length.FromMillimetres(2 * space));
        var expected = Tried(request)
            .OrderBy(a => a.Space is { } s ? Apart(s, a.Width, (decimal)space / width) : decimal.MaxValue)
            .ThenBy(a => a.Gap is { } g ? Apart(g, a.Width, 2m * space / width) : decimal.MaxValue)
            .ThenBy(a => Math.Abs(a.Groups - count)).ThenBy(a => Math.Abs(a.Tucks - count - 1)).ThenBy(a => Math.Abs((a.Width - like.Width).Nanometres))
            .Take(FitAnswer.MostListed);
        Assert.Equal(expected, FitGroups.Find(request with { Like = like }).Arrangements);

        // Rounded: a third above and a third below are as far, whatever their last decimal.
        static decimal Apart(Length length, Length over, decimal wanted) => decimal.Round(Math.Abs((length.Millimetres / over.Millimetres) - wanted), 20);
    }, iter: 300);

    [Fact]
    public void The_nearest_really_fit_and_nothing_nearer_does() => GenRequest.Sample(request =>
    {
        var found = FitGroups.Find(request);
        foreach (var (change, fit) in found.Nearest)
        {
            Assert.Contains(fit, Tried(Changed(request, change, fit)));
            var nearer = change switch
            {
                "finished" => Nearer(Math.Abs((fit.Finished - request.Finished).Nanometres)).Any(f => Tried(request with { Finished = f }).Any()),
                "cloth" => Tried(request with { Cloth = fit.Cloth - Length.FromNanometres(1) }).Any(),
                _ => Tried(Opened(request, change, Out(request, change, fit) - 1)).Any(),
            };
            Assert.False(nearer, $"something nearer than {change} {fit} fits");
        }

        if (found.Count == 0)
        {
            var without = new[] { "groups", "tucks", "space", "gap", "width", "ends" }.Except(found.Nearest.Select(n => n.Change)).ToList();
            Assert.All(without, change => Assert.Empty(Tried(Opened(request, change, MostUnits))));
            Assert.Equal(Tried(request with { Cloth = null }).Any(), found.Nearest.Any(n => n.Change == "cloth"));
            Assert.Equal(Nearer(long.MaxValue).Any(f => Tried(request with { Finished = f }).Any()), found.Nearest.Any(n => n.Change == "finished"));
        }

        IEnumerable<Length> Nearer(long distance) => Enumerable.Range(1, 2 * MostUnits).Select(n => n * Unit).Where(f => Math.Abs((f - request.Finished).Nanometres) < distance);
    }, iter: 150);

    /// <summary>Ranges that make sense to nobody are answered, or refused as too wide, and do not hang.</summary>
    [Theory]
    [InlineData("1 in", null, false)] // ends alone are wider than the piece
    [InlineData("39000 in", "1 in", false)] // no cloth to speak of
    [InlineData("999999.9 mm", null, true)] // off the marking
    public async Task Ranges_as_wide_as_they_go_do_not_hang(string finished, string? cloth, bool like)
    {
        var (bolt, end) = (Json.L("1000 m"), Json.L("2 in"));
        var finding = Task.Run(() => FitGroups.Find(new()
        {
            Finished = Json.L(finished),
            Cloth = cloth is null ? null : Json.L(cloth),
            Groups = new(1, 50),
            Tucks = new(1, 1000),
            Width = new(Json.L("1/64 in"), bolt),
            Space = new(Length.Zero, bolt),
            Gap = new(Length.Zero, bolt),
            Ends = new(end, finished == "1 in" ? end : bolt),
            Finest = Json.L("1/64 in"),
            Like = like ? new(3, 5, Json.L("1/8 in"), Json.L("1/8 in"), Json.L("1 in")) : null,
        }), TestContext.Current.CancellationToken);
        var ended = await Task.WhenAny(finding, Task.Delay(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken));
        Assert.Same(finding, ended);
        try
        {
            Assert.NotEmpty((await finding).Nearest);
        }
        catch (FaultException tooWide)
        {
            Assert.False(tooWide.Unreadable);
        }
    }

    [Fact]
    public void A_skirt_of_three_clusters_is_filled()
    {
        var answer = AllSums.Find("fit-groups")!.Of(JsonNode.Parse(AllSums.Find("fit-groups")!.Example)).ToJson();
        Assert.True((bool)answer["fits"]!);
        var first = answer["arrangements"]![0]!;
        Assert.Equal((3, 5, "1/8 in", "1 in"), ((int)first["groups"]!, (int)first["tucks"]!, first.Text("space"), first.Text("gap")));
    }

    [Fact]
    public void Too_little_says_the_most_there_can_be()
    {
        var answer = AllSums.Find("fit-groups")!.Of(JsonNode.Parse(AllSums.Find("fit-groups")!.Example.Replace("\"12 in\"", "\"90 in\"", StringComparison.Ordinal))).ToJson();
        Assert.False((bool)answer["fits"]!);
        Assert.Equal("Too little: the most that these ranges make up is 32 1/4 in, short of 90 in.", (string?)answer["reason"]);
    }

    private static GroupsRequest Changed(GroupsRequest r, string change, GroupsFit f) => change switch
    {
        "finished" => r with { Finished = f.Finished },
        "groups" => r with { Groups = new(f.Groups, f.Groups) },
        "tucks" => r with { Tucks = new(f.Tucks, f.Tucks) },
        "space" => r with { Space = new(f.Space!.Value, f.Space.Value) },
        "gap" => r with { Gap = new(f.Gap!.Value, f.Gap.Value) },
        "width" => r with { Width = new(f.Width, f.Width) },
        "ends" => r with { Ends = new(f.Ends, f.Ends) },
        _ => r with { Cloth = f.Cloth },
    };

    private static int Out(GroupsRequest r, string change, GroupsFit f) => change switch
    {
        "groups" => Beyond(f.Groups, r.Groups.From, r.Groups.To),
        "tucks" => Beyond(f.Tucks, r.Tucks.From, r.Tucks.To),
        "space" => Units(f.Space!.Value, r.Space),
        "gap" => Units(f.Gap!.Value, r.Gap),
        "width" => Units(f.Width, r.Width),
        _ => Units(f.Ends, r.Ends),
    };

    private static GroupsRequest Opened(GroupsRequest r, string change, int by)
    {
        return change switch
        {
            "groups" => r with { Groups = new(Math.Max(1, r.Groups.From - by), r.Groups.To + by) },
            "tucks" => r with { Tucks = new(Math.Max(1, r.Tucks.From - by), r.Tucks.To + by) },
            "space" => r with { Space = Wider(r.Space, Length.Zero) },
            "gap" => r with { Gap = Wider(r.Gap, Length.Zero) },
            "width" => r with { Width = Wider(r.Width, Unit) },
            _ => r with { Ends = Wider(r.Ends, Length.Zero) },
        };

        LengthRange Wider(LengthRange range, Length least) => new(range.From - (by * Unit) < least ? least : range.From - (by * Unit), range.To + (by * Unit));
    }

    private static int Units(Length length, LengthRange range) => Beyond((int)(length.Nanometres / Unit.Nanometres), (int)(range.From.Nanometres / Unit.Nanometres), (int)(range.To.Nanometres / Unit.Nanometres));

    private static int Beyond(int value, int from, int to) => value < from ? from - value : value > to ? value - to : 0;

    private static IEnumerable<GroupsFit> Tried(GroupsRequest r)
    {
        for (var groups = r.Groups.From; groups <= r.Groups.To; groups++)
        {
            for (var tucks = r.Tucks.From; tucks <= r.Tucks.To; tucks++)
            {
                for (var width = r.Width.From; width <= r.Width.To; width += Unit)
                {
                    for (var space = tucks == 1 ? Length.Zero : r.Space.From; space <= (tucks == 1 ? Length.Zero : r.Space.To); space += Unit)
                    {
                        for (var gap = groups == 1 ? Length.Zero : r.Gap.From; gap <= (groups == 1 ? Length.Zero : r.Gap.To); gap += Unit)
                        {
                            for (var ends = r.Ends.From; ends <= r.Ends.To; ends += Unit)
                            {
                                var finished = (groups * ((tucks * width) + ((tucks - 1) * space))) + ((groups - 1) * gap) + (2 * ends);
                                var cloth = finished + (2 * groups * tucks * width);
                                if (finished == r.Finished && (r.Lies is Lies.TowardsEnd or Lies.TowardsStart || groups * tucks % 2 == 0) && (r.Cloth is null || cloth <= r.Cloth))
                                {
                                    yield return new(groups, tucks, width, tucks == 1 ? null : space, groups == 1 ? null : gap, ends, finished, cloth);
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
