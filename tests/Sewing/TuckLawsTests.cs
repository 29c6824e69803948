using CsCheck;

namespace HeirloomArchive.Sewing.Tests;

/// <summary>What holds of every run that can be planned.</summary>
public class TuckLawsTests
{
    private static Gen<Length> Sixteenths(int least, int most) => Gen.Int[least * 396_875 * 4, most * 396_875 * 4].Select(n => Length.FromNanometres(n));

    private static readonly Gen<TestStrip?> Strips = Gen.Select(Gen.Int[1, 12], Sixteenths(1, 4), Sixteenths(-1, 1), Gen.Int[0, 3], (tucks, width, correction, given) =>
        given == 0 ? null : new TestStrip(tucks, width, (tucks * ((2 * width) + correction)) + (20 * width), 20 * width));

    private static readonly Gen<TuckRun> Runs = Gen.Select(
        Gen.Select(Gen.Int[1, 6], Sixteenths(1, 8), Sixteenths(0, 8)).Array[1, 4],
        Sixteenths(-1, 16).Array[3], Sixteenths(2, 16), Sixteenths(2, 16), Sixteenths(0, 16), Gen.Int[0, 3], Strips,
        (groups, between, lead, trail, centre, lies, strip) => new TuckRun
        {
            Groups = [.. groups.Select(g => new TuckGroup(g.Item1, g.Item2, new(g.Item3)))],
            Between = [.. between.Take(groups.Length - 1).Select(b => new Spacing(b))],
            Lead = lies < 2 ? lead : null,
            Trail = trail,
            Centre = lies < 2 ? null : centre,
            Lies = (Lies)lies,
            TestStrip = strip,
        });

    /// <summary>Runs the plan refuses are none of this class's business.</summary>
    private static void Every(Action<TuckRun, TuckPlan> holds)
    {
        var planned = 0;
        Runs.Sample(run =>
        {
            TuckPlan plan;
            try
            {
                plan = TuckPlan.Make(run);
            }
            catch (FaultException)
            {
                return;
            }

            Interlocked.Increment(ref planned);
            holds(run, plan);
        }, iter: 2_000);
        Assert.True(planned > 500, $"Only {planned} runs could be planned.");
    }

    [Fact]
    public void Cloth_is_the_finished_width_and_what_the_tucks_take_up() => Every((run, plan) =>
    {
        var taken = plan.Lines.Aggregate(Length.Zero, (sum, line) => sum + (2 * line.Width) + (run.TestStrip?.Correction ?? Length.Zero));
        Assert.Equal(plan.Cloth, plan.Finished + taken);
        Assert.Equal(taken, plan.TakeUp);
    });

    [Fact]
    public void Flat_lines_never_fall_from_start_to_end() => Every((_, plan) =>
    {
        var lines = plan.Lines.SelectMany(l => new[] { l.FirstStitch, l.Fold, l.SecondStitch }).Prepend(Length.Zero).Append(plan.Cloth).ToList();
        Assert.All(lines.Zip(lines.Skip(1)), pair => Assert.True(pair.First <= pair.Second));
        Assert.All(plan.Lines, l => Assert.Equal((l.Width, l.Width), (l.Fold - l.FirstStitch, l.SecondStitch - l.Fold)));
    });

    [Fact]
    public void The_finished_width_is_what_is_seen() => Every((run, plan) =>
    {
        var half = run.Lies is Lies.FromCentre or Lies.TowardsCentre;
        var seen = plan.Lines.Aggregate(Length.Zero, (sum, line) => sum + line.Width) + plan.Spacings.Aggregate(Length.Zero, (sum, s) => sum + s.Space);
        Assert.Equal(plan.Finished, seen + run.Trail!.Value + (half ? run.Trail.Value : run.Lead!.Value));
    });

    [Fact]
    public void Mirrored_runs_mirror_with_unequal_widths_too() => Every((run, plan) =>
    {
        if (run.Lies is Lies.FromCentre or Lies.TowardsCentre)
        {
            Mirrors(plan, plan);
            return;
        }

        Mirrors(plan, TuckPlan.Make(run with
        {
            Groups = [.. run.Groups.Reverse()],
            Between = [.. run.Between.Reverse()],
            Lead = run.Trail,
            Trail = run.Lead,
            Lies = run.Lies == Lies.TowardsEnd ? Lies.TowardsStart : Lies.TowardsEnd,
        }));
    });

    private static void Mirrors(TuckPlan plan, TuckPlan other)
    {
        Assert.Equal((plan.Cloth, plan.Finished), (other.Cloth, other.Finished));
        foreach (var (a, b) in plan.Lines.Zip(other.Lines.Reverse()))
        {
            Assert.Equal((a.FirstStitch, a.Fold, a.SecondStitch), (plan.Cloth - b.SecondStitch, plan.Cloth - b.Fold, plan.Cloth - b.FirstStitch));
            Assert.Equal((a.FinishedStitch, a.FinishedFold), (plan.Finished - b.FinishedStitch, plan.Finished - b.FinishedFold));
        }

        Assert.Equal(plan.Spacings, other.Spacings.Reverse());
    }

    [Fact]
    public void A_spacing_answered_can_be_entered_again_and_means_the_same() => Every((run, plan) =>
    {
        if (run.Lies is Lies.FromCentre or Lies.TowardsCentre)
        {
            return;
        }

        var first = run.Groups.Select((_, g) => run.Groups.Take(g).Sum(x => x.Tucks)).ToList();
        foreach (var way in new Func<TuckSpacing, Spacing>[] { s => new(null, s.StitchToStitch), s => new(null, null, s.FoldToFold), s => new(s.Space, s.StitchToStitch, s.FoldToFold) })
        {
            var again = TuckPlan.Make(run with
            {
                Groups = [.. run.Groups.Select((g, i) => g.Tucks == 1 ? g : g with { Spacing = way(plan.Spacings[first[i]]) })],
                Between = [.. run.Between.Select((_, i) => way(plan.Spacings[first[i + 1] - 1]))],
            });
            Assert.Equal(plan.Lines, again.Lines);
        }
    });

    [Fact]
    public void In_the_middle_the_correction_counts_not_at_all_from_the_centre_and_twice_towards_it() => Every((run, plan) =>
    {
        if (run.Lies is not (Lies.FromCentre or Lies.TowardsCentre))
        {
            return;
        }

        var middle = plan.Spacings[(plan.Spacings.Count - 1) / 2];
        var width = run.Groups[0].Width;
        var correction = run.TestStrip?.Correction ?? Length.Zero;
        Assert.Equal(run.Centre, middle.Space);
        Assert.Equal(run.Centre + (run.Lies == Lies.FromCentre ? 0 : 2) * width, middle.StitchToStitch);
        Assert.Equal(run.Lies == Lies.FromCentre ? run.Centre + (2 * width) : run.Centre + (4 * width) + (2 * correction), middle.FoldToFold);
    });

    [Fact]
    public void A_strips_correction_is_rounded_once() => Gen.Select(Gen.Int[1, 1000], Gen.Long[1, 1_000_000_000], Gen.Long[1, 1_000_000_000]).Sample((tucks, a, b) =>
    {
        var strip = new TestStrip(tucks, Length.FromNanometres(7), Length.FromNanometres(a), Length.FromNanometres(b));
        Assert.Equal((long)Math.Round((decimal)(a - b) / tucks) - 14, strip.Correction.Nanometres);
    });
}
