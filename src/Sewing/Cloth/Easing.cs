using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>How much longer the outer line of a tuck is than the line it is sewn to, and whether the cloth will take that.</summary>
internal static class Easing
{
    /// <summary>Common practice for lawn and its like; no book gives a figure.</summary>
    public const decimal UsualPercent = 5;

    public static Ask Ask { get; } = Ask.Number("ease", "The cloth eases, in per cent", 0, 30, "5",
        "What your cloth takes up without a pucker. Left out: 5, as is common for lawn; try yours on a scrap.").Optional();

    /// <summary>What is to be eased over the line it is eased to, in per cent to two places.</summary>
    public static decimal Percent(Length ease, Length line) => decimal.Round(100m * ease.Nanometres / line.Nanometres, 2);

    /// <summary>Says the limit, and warns of tucks beyond it.</summary>
    /// <param name="answer">Of the sum.</param>
    /// <param name="asked">What was sent.</param>
    /// <param name="percents">Of each tuck from the hem upwards.</param>
    public static void Say(Answer answer, Asked asked, IReadOnlyList<decimal> percents)
    {
        var limit = asked.Number("ease", UsualPercent);
        var beyond = percents.Select((p, i) => (Tuck: i + 1, Percent: p)).Where(t => t.Percent > limit).ToList();
        answer.Figure("mostEase", "Most to ease in one tuck, per cent", percents.Max(), T($"this cloth is taken to ease {answer.Say(limit)} %"))
            .Figure("easesIn", "The cloth eases it in", beyond.Count == 0)
            .Note("How much a cloth eases is common practice, not a rule of a book: lawn about 5 in 100, soft nainsook or batiste a little more, firm linen or organdie less. Try one tuck on a scrap cut to the same curve.");
        if (beyond.Count > 0)
        {
            answer.Caution("will-not-ease",
                beyond.Count == 1
                    ? T($"Tuck {beyond[0].Tuck} from the hem has more to ease than the {answer.Say(limit)} % this cloth takes: it will pucker. Make the tucks narrower, set them lower, or cut each as a shaped piece and stitch that on.")
                    : T($"{beyond.Count} tucks, from tuck {beyond[0].Tuck} from the hem, have more to ease than the {answer.Say(limit)} % this cloth takes: it will pucker. Make the tucks narrower, set them lower, or cut each as a shaped piece and stitch that on."));
        }
    }
}
