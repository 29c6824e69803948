using CsCheck;

namespace HeirloomArchive.Sewing.Tests;

/// <summary>Small requests of every kind against trying everything.</summary>
public class FitBruteForceTests
{
    private const int MostUnits = 26;

    private static readonly Length Unit = Length.FromSixtyFourthsOfInch(4);

    private static readonly Gen<(Lies? Lies, int? Centre)> GenLie = Gen.OneOf(
        Gen.Const<(Lies?, int?)>((null, null)),
        Gen.Const<(Lies?, int?)>((Lies.TowardsStart, null)),
        Gen.Bool.Select(from => ((Lies?)(from ? Lies.FromCentre : Lies.TowardsCentre), (int?)null)),
        Gen.Int[0, 6].Select(c => ((Lies?)Lies.FromCentre, (int?)c)),
        Gen.Int[-4, 6].Select(c => ((Lies?)Lies.TowardsCentre, (int?)c)));

    private static Gen<(int From, int To)> Range(int least, int most, int longest) =>
        Gen.Select(Gen.Int[least, most], Gen.Int[0, longest], (from, length) => (from, from + length));

    /// <summary>A strip whose correction is a quarter of the marking, or so far below zero that some arrangements can't be sewn.</summary>
    private static readonly Gen<TestStrip?> GenStrip = Gen.Int[-12, 6].Select(quarters => quarters > 4 ? null :
        new TestStrip(4, 4 * Unit, (44 * Unit) + Length.FromNanometres(Unit.Nanometres * quarters), 12 * Unit));

    private static readonly Gen<FitRequest> GenRequest = Gen.Select(
        Gen.Select(Gen.Int[1, 26], Gen.Int[0, 3]), Gen.Select(GenLie, Gen.Int[0, 9]),
        Range(1, 5, 3), Range(1, 3, 2), Range(0, 4, 2), Range(0, 5, 3), GenStrip, Gen.Select(Gen.Int[10, 60], Gen.Bool),
        (finished, lie, tucks, width, space, ends, strip, cloth) => new FitRequest
        {
            Finished = (finished.Item1 * Unit) + (finished.Item2 == 0 ? Length.FromNanometres(Unit.Nanometres / 4) : Length.Zero),
            Cloth = cloth.Item2 ? cloth.Item1 * Unit : null,
            Tucks = new(tucks.From, tucks.To),
            Width = new(width.From * Unit, width.To * Unit),
            Space = new(space.From * Unit, space.To * Unit),
            Ends = new(ends.From * Unit, ends.To * Unit),
            Finest = Unit,
            Lies = lie.Item1.Lies,
            Centre = lie.Item1.Centre * Unit,
            UnevenEnds = lie.Item1.Lies is null or Lies.TowardsStart && lie.Item2 > 5,
            TestStrip = strip,
        });

    [Fact]
    public void A_fit_finds_exactly_what_trying_everything_finds() => GenRequest.Sample(
        request =>
        {
            var all = new FitBruteForce(request, MostUnits, 30).All();
            var found = Fit.Find(request);
            Assert.Equal(all.Count, found.Count);
            Assert.Equal(all.Take(FitAnswer.MostListed), found.Arrangements);
            Assert.Equal(all.Count == 0, found.Reason is { Length: > 20 });
        },
        iter: 400,
        print: Print);

    [Fact]
    public void The_closest_to_an_antique_are_those_that_ordering_everything_puts_first() => Gen.Select(GenRequest, Gen.Int[1, 5], Gen.Int[1, 40], Gen.Int[0, 40]).Sample(
        (request, tucks, width, space) =>
        {
            var like = new Likeness(tucks, Length.FromMillimetres(width / 4m), tucks == 1 ? null : Length.FromMillimetres(space / 4m));
            var expected = new FitBruteForce(request, MostUnits, 30).All()
                .OrderBy(a => like.Space is null ? 0 : a.Space is { } s ? Apart(s, a.Width) : decimal.MaxValue)
                .ThenBy(a => Math.Abs(a.Tucks - like.Tucks)).ThenBy(a => Math.Abs((a.Width - like.Width).Nanometres)).ThenBy(a => a.Space)
                .ThenBy(a => Math.Abs((a.Lead - a.Trail).Nanometres)).ThenBy(a => a.Tucks).ThenBy(a => a.Width).ThenBy(a => a.Lead)
                .Take(FitAnswer.MostListed);
            Assert.Equal(expected, Fit.Find(request with { Like = like }).Arrangements);

            // Rounded: a third above and a third below are as far, whatever their last decimal.
            decimal Apart(Length space, Length width) => decimal.Round(Math.Abs((space.Millimetres / width.Millimetres) - (like.Space!.Value.Millimetres / like.Width.Millimetres)), 20);
        },
        iter: 400,
        print: x => Print(x.Item1));

    [Fact]
    public void The_nearest_in_each_direction_is_what_trying_everything_finds() => GenRequest.Sample(
        request =>
        {
            var found = Fit.Find(request);
            if (found.Fits)
            {
                Assert.Empty(found.Nearest);
                return;
            }

            var expected = new FitBruteForce(request, MostUnits, 30).Nearest();
            Assert.Equal(expected.Keys.Order(), found.Nearest.Select(n => n.Change));
            foreach (var (change, arrangement) in found.Nearest)
            {
                Assert.Equal(expected[change].Distance, Distance(request, change, arrangement));
                Assert.True(change == FitChange.Ends && request.UnevenEnds || expected[change].Value == Value(change, arrangement), $"{change}: {arrangement} is not the smaller of two as near");
                Assert.Contains(arrangement, new FitBruteForce(Changed(request, change, arrangement), MostUnits, 30).All());
            }
        },
        iter: 400,
        print: Print);

    private static FitRequest Changed(FitRequest request, FitChange change, FitArrangement a) => change switch
    {
        FitChange.Finished => request with { Finished = a.Finished },
        FitChange.Tucks => request with { Tucks = new(a.Tucks, a.Tucks) },
        FitChange.Width => request with { Width = new(a.Width, a.Width) },
        FitChange.Space => request with { Space = new(a.Space!.Value, a.Space.Value) },
        FitChange.Ends => request with { Ends = new(a.Lead < a.Trail ? a.Lead : a.Trail, a.Lead < a.Trail ? a.Trail : a.Lead) },
        _ => request with { Cloth = a.Cloth },
    };

    private static long Distance(FitRequest request, FitChange change, FitArrangement a) => change switch
    {
        FitChange.Finished => Math.Abs((a.Finished - request.Finished).Nanometres),
        FitChange.Tucks => Out(a.Tucks, request.Tucks.From, request.Tucks.To),
        FitChange.Width => Units(a.Width, request.Width),
        FitChange.Space => Units(a.Space!.Value, request.Space),
        FitChange.Ends => Math.Max(Units(a.Lead, request.Ends), Units(a.Trail, request.Ends)),
        _ => a.Cloth.Nanometres,
    };

    private static long Value(FitChange change, FitArrangement a) => change switch
    {
        FitChange.Finished => a.Finished.Nanometres,
        FitChange.Tucks => a.Tucks,
        FitChange.Width => a.Width.Nanometres / Unit.Nanometres,
        FitChange.Space => a.Space!.Value.Nanometres / Unit.Nanometres,
        FitChange.Ends => (a.Lead + a.Trail).Nanometres / Unit.Nanometres,
        _ => a.Cloth.Nanometres,
    };

    private static long Units(Length length, LengthRange range) =>
        Out(length.Nanometres, range.From.Nanometres, range.To.Nanometres) / Unit.Nanometres;

    private static long Out(long value, long from, long to) => value < from ? from - value : value > to ? value - to : 0;

    private static string Print(FitRequest r) =>
        $"{r.Finished.ToText(LengthUnit.Inches)} cloth {r.Cloth?.ToText(LengthUnit.Inches)} tucks {r.Tucks} width {r.Width} space {r.Space} ends {r.Ends} {r.Lies} centre {r.Centre} uneven {r.UnevenEnds} c {r.TestStrip?.Correction}";
}
