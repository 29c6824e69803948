using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>The two scales of an old tucking attachment: tucks are as wide as the width mark in eighths of an inch, and the next crease lies the space mark in quarters from the stitching.</summary>
/// <param name="WidthMark">1 or more.</param>
/// <param name="SpaceMark">At least the width mark where tucks do not overlap.</param>
/// <remarks>A printed instruction sheet: width 2 and space 2 gives 1/4 in tucks with no space, width 2 and space 3 the same 1/4 in apart. The law that fits both is derived.</remarks>
public readonly record struct TuckerMarks(int WidthMark, int SpaceMark)
{
    internal const string Source = // texts
        "Instruction sheet of a treadle machine's tucking attachment: width 2 with space 2, and width 2 with space 3";

    /// <summary>Fold to stitching: the mark in eighths of an inch, exact.</summary>
    public Length Width => Length.FromSixtyFourthsOfInch(8 * WidthMark);

    /// <summary>The plain cloth seen: a quarter of an inch for each mark that space stands above width; below zero they overlap.</summary>
    public Length Space => Length.FromSixtyFourthsOfInch(16 * (SpaceMark - WidthMark));

    /// <summary>The marks that give a tuck and a space, or the nearest: the width first, then the space; halves upwards.</summary>
    /// <param name="width">Above zero.</param>
    /// <param name="space">The plain cloth seen.</param>
    public static TuckerMarks For(Length width, Length space)
    {
        var widthMark = Math.Max(1, Nearest(width, Length.FromSixtyFourthsOfInch(8)));
        return new(widthMark, widthMark + Math.Max(0, Nearest(space, Length.FromSixtyFourthsOfInch(16))));
    }

    private static int Nearest(Length length, Length mark) =>
        (int)Math.Clamp(Math.Floor((length.Nanometres + (mark.Nanometres / 2m)) / mark.Nanometres), int.MinValue / 64, int.MaxValue / 64);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "tucker-marks",
        Shelf = Shelf.Tucks,
        Title = "What an old tucking attachment was set to",
        Lead = "From the two marks of a tucking attachment to the tucks it makes. For the other way about see the notched gauge card.",
        Asks =
        [
            Ask.Whole("widthMark", "Width at", 1, 16, "2"),
            Ask.Whole("spaceMark", "Space at", 1, 32, "3"),
        ],
        Example = """{"widthMark":2,"spaceMark":3}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var marks = new TuckerMarks(asked.Whole("widthMark"), asked.Whole("spaceMark"));
        asked.Check(marks.Width + marks.Space > Length.Zero, "spaceMark", T($"{marks.SpaceMark} is too low: with the width at {marks.WidthMark} each tuck would be folded under the one before. It must be at least {(marks.WidthMark / 2) + 1}."));
        asked.Throw();
        var plan = TuckPlan.Make(new() { Groups = [new(3, marks.Width, new(marks.Space))], Trail = marks.Width, Lies = Lies.TowardsStart, Unit = asked.Unit });
        var answer = new Answer(asked.Unit)
            .Figure("width", "Tucks of", marks.Width)
            .Figure("space", "Spaces of", marks.Space, marks.Space == Length.Zero ? "the tucks meet" : marks.Space < Length.Zero ? "below 0: they overlap" : "")
            .Figure("nextCrease", "Next crease from the stitching", (2 * marks.Width) + marks.Space)
            .Figure("stitchToStitch", "Stitching to stitching, sewn", plan.Spacings[0].StitchToStitch)
            .Note("Width 2 and space 2 gives quarter-inch tucks with no space; width 2 and space 3 gives them a quarter of an inch apart. The scale between is worked out from these two: try yours on a scrap.", Source)
            .Note("Equal machine tucks at even eighths of an inch may have been made with one; it proves nothing by itself.");
        foreach (var caution in plan.Cautions)
        {
            answer.Caution(caution.Code, caution.Text);
        }

        return answer.DrawnRun(plan, "Three tucks as the attachment makes them.");
    }
}
