using System.ComponentModel;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>What the trade calls a tuck of some width, and how far apart each book sets it.</summary>
public static class TuckNames
{
    /// <summary>Below this a tuck is a pin tuck: 1/8 in. A modern teaching sheet says "usually under 1/8 in"; some books say about 1/16 in.</summary>
    public static Length PinBelow { get; } = Length.FromSixtyFourthsOfInch(8);

    /// <summary>The usual depths of tucks: 1/16 in to about 2 in (Woolman, no. 34). Others are unusual, not impossible.</summary>
    public static (Length Least, Length Most) UsualWidths { get; } = (Length.FromSixtyFourthsOfInch(4), Length.FromSixtyFourthsOfInch(128));

    /// <summary><c>pin</c>, <c>plain</c> or <c>nuns</c> by the width alone.</summary>
    /// <param name="width">Above zero.</param>
    public static string Of(Length width) => width < PinBelow ? "pin" : width >= NunsTucks.Least ? "nuns" : "plain";

    /// <summary><c>spaced</c>, <c>blind</c> where each fold meets the stitching of the next, or <c>overlapping</c>.</summary>
    /// <param name="space">The plain cloth seen.</param>
    public static string Apart(Length space) => space > Length.Zero ? "spaced" : space == Length.Zero ? "blind" : "overlapping";

    /// <summary>The space each book calls usual for a tuck; they disagree. Rounded once to the nanometre.</summary>
    /// <param name="width">Above zero.</param>
    public static IReadOnlyList<UsualSpace> UsualSpaces(Length width) =>
    [
        new("Half the tuck, for ordinary muslin.", width.DividedBy(2), width.DividedBy(2), "Patton, Home and School Sewing (c. 1901), ch. XXI"),
        width < PinBelow
            ? new("Very narrow tucks may have a space as wide as they are; in groups the fold often reaches the sewing below.", Length.Zero, width, "Woolman, A Sewing Course for Teachers, no. 34")
            : new("Wide tucks leave one third to one half of their depth.", width.DividedBy(3), width.DividedBy(2), "Woolman, A Sewing Course for Teachers, no. 34"),
        new("Generally as wide as the tuck.", width, width, "New Zealand Herald, 9 April 1924, p. 16"),
    ];

    /// <summary>A tuck's group: lowest fold to top stitching, nw + (n-1)s; the next group stands as far off as this is wide (Patton).</summary>
    /// <param name="tucks">1 or more.</param>
    /// <param name="width">Above zero.</param>
    /// <param name="space">The plain cloth seen.</param>
    public static Length GroupWidth(int tucks, Length width, Length space) => (tucks * width) + ((tucks - 1) * space);

    /// <summary>How many tucks go into a width or a length of cloth: the most n with n × step less one space not above it; 0 when not even one does.</summary>
    /// <param name="room">There is.</param>
    /// <param name="each">What each takes of it without its space: w finished, 3w less the space below it on the cloth; above zero with the space.</param>
    /// <param name="space">Between two.</param>
    public static long Most(Length room, Length each, Length space) =>
        room < each ? 0 : (room + space).Nanometres / (each + space).Nanometres;
}

/// <summary>The space one book calls usual.</summary>
/// <param name="Says">In our words.</param>
/// <param name="Least">For this width.</param>
/// <param name="Most">For this width.</param>
/// <param name="Source">The book.</param>
public sealed record UsualSpace([Localizable(true)] string Says, Length Least, Length Most, [Localizable(true)] string Source)
{
    /// <summary>True when a space is what this book calls usual.</summary>
    public bool Takes(Length space) => space >= Least && space <= Most;
}
