using HeirloomArchive.Sewing;

namespace HeirloomArchive.Outside.Tests;

/// <summary>
/// Thirteen plans with the depths and spaces that the books give (read), worked out by hand in fractions (derived); the lengths of cloth are ours.
/// Finished block: lowest fold to top stitching. Flat run: first stitching line to last. Fold step: crease to crease on the flat cloth.
/// </summary>
public class TuckTableTests
{
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("McGlauflin, Handicraft for Girls: her cluster", 3, "1/8", "1/8", "1/4", "3/4", "5/8", "1 1/4", "1/2", "8", "7 1/4")]
    [InlineData("Patton, Home and School Sewing: space half the tuck", 5, "1/4", "1/8", "3/8", "2 1/2", "1 3/4", "4", "7/8", "30", "27 1/2")]
    [InlineData("Patton, the same rule", 7, "1/8", "1/16", "3/16", "1 3/4", "1 1/4", "2 7/8", "7/16", "20", "18 1/4")]
    [InlineData("Krolik, Hand Sewing Lessons, Model 6", 3, "1/2", "0", "1/2", "3", "1 1/2", "4", "1 1/2", "6", "3")]
    [InlineData("Woolman no. 34: very narrow, space equal", 5, "1/16", "1/16", "1/8", "5/8", "9/16", "1 1/8", "1/4", "12", "11 3/8")]
    [InlineData("Woolman no. 34: fold reaching the sewing below", 9, "1/16", "0", "1/16", "1 1/8", "9/16", "1 5/8", "3/16", "10", "8 7/8")]
    [InlineData("Woolman no. 34: wide, one third", 3, "1", "1/3", "1 1/3", "6", "3 2/3", "8 2/3", "3 1/3", "36", "30")]
    [InlineData("Woolman no. 34: wide, one half", 3, "1", "1/2", "1 1/2", "6", "4", "9", "3 1/2", "36", "30")]
    [InlineData("New Zealand Herald, 9 April 1924: space equal to the tuck", 4, "3/8", "3/8", "3/4", "3", "2 5/8", "5 1/4", "1 1/2", "24", "21")]
    [InlineData("Butterick 1921 p. 98: pin tucks an inch apart", 5, "1/16", "1", "1 1/16", "5/8", "4 5/16", "4 7/8", "1 3/16", "18", "17 3/8")]
    [InlineData("Butterick 1921 p. 97: nun's tucks", 2, "2", "1", "3", "8", "5", "11", "7", "40", "32")]
    [InlineData("A tucker's printed scale: set 2 and 2", 6, "1/4", "0", "1/4", "3", "1 1/2", "4 1/4", "3/4", "27", "24")]
    [InlineData("The Workwoman's Guide: 10 nails of cloth", 11, "3/16", "3/16", "3/8", "4 1/8", "3 15/16", "7 7/8", "3/4", "22 1/2", "18 3/8")]
    public void A_plan_from_the_books_comes_out_as_worked_by_hand(
        string source, int count, string depth, string space, string pitch, string takeUp, string block, string flatRun, string foldStep, string cloth, string finished)
    {
        foreach (var lies in new[] { Lies.TowardsStart, Lies.TowardsEnd })
        {
            var plan = TuckPlan.Make(new()
            {
                Groups = [new(count, In(depth), new(In(space)))],
                Trail = In(finished) - In(block),
                Lies = lies,
            });
            var (first, last) = (plan.Lines[0], plan.Lines[^1]);
            // Thirds of an inch are rounded on entry, to the nanometre each.
            void Near(string inches, Length length) => Assert.True(Math.Abs((length - In(inches)).Nanometres) <= (space == "1/3" ? 3 : 0), $"{source}, {lies}: {length} is not {inches} in");
            Near(takeUp, plan.TakeUp);
            Near(cloth, plan.Cloth);
            Near(finished, plan.Finished);
            Near(flatRun, last.SecondStitch - first.FirstStitch);
            Near(block, lies == Lies.TowardsStart ? last.FinishedStitch - first.FinishedFold : last.FinishedFold - first.FinishedStitch);
            Assert.All(plan.Spacings, s => Near(pitch, s.StitchToStitch));
            Assert.All(plan.Spacings, s => Near(foldStep, s.FoldToFold));
        }
    }

    private static Length In(string inches) => Asking.Read(inches + " in");
}
