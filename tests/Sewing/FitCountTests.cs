using CsCheck;

namespace HeirloomArchive.Sewing.Tests;

/// <summary>Counts of wider ranges, too many to plan each, against adding up in a loop.</summary>
public class FitCountTests
{
    private static readonly Length[] Markings = [Length.FromSixtyFourthsOfInch(1), Length.FromSixtyFourthsOfInch(4), Length.FromMillimetres(0.25m)];

    private static Gen<(int From, int To)> Range(int least, int most, int longest) =>
        Gen.Select(Gen.Int[least, most], Gen.Int[0, longest], (from, length) => (from, from + length));

    private static readonly Gen<FitRequest> GenRequest = Gen.Select(
        Gen.Select(Gen.Int[20, 400], Gen.Int[0, 2], Gen.Bool, Gen.Bool), Range(1, 40, 60), Range(1, 12, 80), Range(0, 12, 30), Range(0, 30, 60), Gen.Int[0, 300],
        (one, tucks, width, space, ends, cloth) =>
        {
            var unit = Markings[one.Item2];
            return new FitRequest
            {
                Finished = one.Item1 * unit,
                Cloth = cloth > 250 ? null : (one.Item1 + (2 * cloth)) * unit,
                Tucks = new(tucks.From, tucks.To),
                Width = new(width.From * unit, width.To * unit),
                Space = new(space.From * unit, space.To * unit),
                Ends = new(ends.From * unit, ends.To * unit),
                Finest = unit,
                UnevenEnds = one.Item3,
                Lies = one.Item3 ? null : one.Item4 ? Lies.FromCentre : Lies.TowardsStart,
                Centre = !one.Item3 && one.Item4 && one.Item1 % 3 == 0 ? (cloth % 9) * unit : null,
            };
        });

    [Fact]
    public void The_count_is_what_adding_up_in_a_loop_finds() =>
        GenRequest.Sample(request => Assert.Equal(Looped(request), Fit.Find(request).Count), iter: 500, print: Print);

    [Fact]
    public void An_antique_changes_the_order_and_neither_the_count_nor_what_is_found() => GenRequest.Sample(
        request =>
        {
            var plain = Fit.Find(request);
            var like = Fit.Find(request with { Like = new(12, 3 * request.Finest, 5 * request.Finest) });
            Assert.Equal(plain.Count, like.Count);
            if (plain.Count <= FitAnswer.MostListed)
            {
                Assert.Equal(plain.Arrangements.ToHashSet(), like.Arrangements.ToHashSet());
            }
        },
        iter: 500,
        print: Print);

    /// <summary>Many widths at once are not walked through, one is; and a strip may forbid the narrowest.</summary>
    [Fact]
    public void A_range_of_widths_holds_what_its_widths_hold_one_by_one() => Gen.Select(GenRequest, Gen.Int[-40, 8], Gen.Bool).Sample(
        (request, quarters, towards) =>
        {
            var unit = request.Finest;
            var strip = new TestStrip(4, 20 * unit, (300 * unit) + Length.FromNanometres(unit.Nanometres * quarters), 140 * unit);
            var held = request with { TestStrip = strip, Lies = request.Lies is Lies.FromCentre && towards ? Lies.TowardsCentre : request.Lies };
            var one = 0L;
            for (var width = held.Width.From; width <= held.Width.To; width += unit)
            {
                one += Fit.Find(held with { Width = new(width, width) }).Count;
            }

            Assert.Equal(one, Fit.Find(held).Count);
        },
        iter: 150,
        print: x => Print(x.Item1));

    /// <summary>A width in a long bolt: any count and width that makes sense to nobody is answered all the same.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Six_hundred_metres_on_a_quarter_of_a_millimetre_are_counted(bool uneven)
    {
        var (metre, finest) = (Length.FromMillimetres(1000), Length.FromMillimetres(0.25m));
        var answer = Fit.Find(new()
        {
            Finished = 600 * metre,
            Tucks = new(3, 3),
            Width = new(finest, 600 * metre),
            Space = new(finest, finest),
            Ends = new(metre, 600 * metre),
            Finest = finest,
            UnevenEnds = uneven,
        });

        // Even: 3 w + 2 + 2 e = 2 400 000 with e from 4 000 and 3 x 2 w more cloth, at most 1 km: w even, 2 to 533 332.
        // Uneven: for each w from 1 the leads from 4 000 to what is left less 4 000.
        const long most = 266_666;
        long pairs = 0;
        for (var width = 1L; width <= most; width++)
        {
            pairs += 2_400_000 - (3 * width) - 2 - 8_000 + 1;
        }

        Assert.Equal(uneven ? pairs : most / 2, answer.Count);
    }

    private static long Looped(FitRequest request)
    {
        long unit = request.Finest.Nanometres, whole = (request.Finished - (request.Centre ?? Length.Zero)).Nanometres / unit, count = 0;
        var middle = request.Lies is Lies.FromCentre;
        for (var tucks = request.Tucks.From; tucks <= request.Tucks.To; tucks++)
        {
            var gaps = tucks - (request.Centre is null ? 1 : 2);
            for (var width = request.Width.From.Nanometres / unit; width <= request.Width.To.Nanometres / unit && (!middle || tucks % 2 == 0); width++)
            {
                if (request.Cloth is { } cloth && (request.Finished + (2 * tucks * Length.FromNanometres(width * unit))) > cloth)
                {
                    continue;
                }

                for (var space = request.Space.From.Nanometres / unit; space <= request.Space.To.Nanometres / unit; space++)
                {
                    for (var lead = request.Ends.From.Nanometres / unit; lead <= request.Ends.To.Nanometres / unit; lead++)
                    {
                        var trail = Length.FromNanometres((whole - (tucks * width) - (gaps * space) - lead) * unit);
                        count += trail >= request.Ends.From && trail <= request.Ends.To && (request.UnevenEnds || trail.Nanometres == lead * unit) ? 1 : 0;
                    }

                    if (gaps == 0)
                    {
                        break;
                    }
                }
            }
        }

        return count;
    }

    private static string Print(FitRequest r) =>
        $"{r.Finished} cloth {r.Cloth} tucks {r.Tucks} width {r.Width} space {r.Space} ends {r.Ends} on {r.Finest} {r.Lies} centre {r.Centre} uneven {r.UnevenEnds}";
}
