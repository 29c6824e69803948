using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>A run seen in a mirror: its end becomes its start, x becomes C - x on the flat cloth and F - x when sewn.</summary>
internal static class Mirror
{
    public static TuckPlan Of(TuckPlan plan, bool twinNeedle)
    {
        // What is called the finished stitching of a twin-needle tuck is its line nearer the start: in the mirror that is the other one.
        var taken = twinNeedle ? Length.FromNanometres(plan.TakeUp.Nanometres / plan.Lines.Count) : Length.Zero;
        Length Sewn(TuckLine line) => twinNeedle ? line.FinishedStitch + line.Width - taken : line.FinishedStitch;
        return plan with
        {
            Lines =
            [
                .. plan.Lines.Reverse().Select((line, i) => line with
                {
                    Tuck = i + 1,
                    FirstStitch = plan.Cloth - line.SecondStitch,
                    Fold = plan.Cloth - line.Fold,
                    SecondStitch = plan.Cloth - line.FirstStitch,
                    FinishedStitch = plan.Finished - Sewn(line),
                    FinishedFold = plan.Finished - line.FinishedFold,
                }),
            ],
            Spacings = [.. plan.Spacings.Reverse()],
        };
    }

    /// <summary>Which way tucks lie in the mirror.</summary>
    public static string? Lies(string? lies) => lies switch
    {
        "towards-end" => "towards-start",
        "towards-start" => "towards-end",
        _ => lies,
    };
}
