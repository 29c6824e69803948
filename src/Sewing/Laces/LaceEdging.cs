using System.ComponentModel;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>A mark that brings lace and edge together.</summary>
/// <param name="Place">Where on the edge, in words.</param>
/// <param name="Edge">From the start of the edge.</param>
/// <param name="Lace">From the cut end of the lace.</param>
public sealed record EdgeMark([Localizable(true)] string Place, Length Edge, Length Lace);

/// <summary>Lace put on an edge straight or gathered, its corners eased round with twice its width. Rounded once to the nanometre.</summary>
/// <param name="Sides">The edge from corner to corner.</param>
/// <param name="Width">Of the lace.</param>
/// <param name="Ratio">Lace for each length of edge, corners not counted: 1 is straight.</param>
/// <param name="Round">True when the end meets the start: at a corner when there are several sides.</param>
/// <param name="Ends">Kept at each end.</param>
/// <remarks>McGlauflin, Handicraft for Girls (c. 1910), and Hapgood, School Needlework: twice the width at a corner; a gathered lace keeps its fullness beside that.</remarks>
public sealed record LaceEdging(IReadOnlyList<Length> Sides, Length Width, decimal Ratio, bool Round, Length Ends)
{
    private static readonly string[] Eighths = // texts
        ["start", "1/8", "1/4", "3/8", "half", "5/8", "3/4", "7/8", "end"];

    /// <summary>Half and half again for fullness.</summary>
    public const decimal UsualRatio = 1.5m;

    /// <summary>The whole edge.</summary>
    public Length Edge => Sides.Aggregate(Length.Zero, (a, b) => a + b);

    /// <summary>Corners between sides; a single side that closes has none.</summary>
    public int Corners => Sides.Count == 1 ? 0 : Sides.Count - (Round ? 0 : 1);

    /// <summary>What all corners need.</summary>
    public Length AtCorners => 2 * Corners * Width;

    /// <summary>The length to cut.</summary>
    public Length Lace => Edge.Times(Ratio) + AtCorners + (2 * Ends);

    /// <summary>Eighths of a single side; of several the middle and the corner of each. A corner's lace lies half on each side of its mark.</summary>
    public IReadOnlyList<EdgeMark> Marks => Sides.Count == 1
        ? [.. Eighths.Select((name, i) => new EdgeMark(name, (i * Edge).DividedBy(8), Ends + (i * Edge.Times(Ratio)).DividedBy(8)))]
        : AtSides();

    private List<EdgeMark> AtSides()
    {
        var marks = new List<EdgeMark> { new("start", Length.Zero, Ends) };
        var edge = Length.Zero;
        var corners = Round ? Width : Length.Zero;
        foreach (var (side, i) in Sides.Select((s, i) => (s, i + 1)))
        {
            var middle = edge + side.DividedBy(2);
            marks.Add(new(T($"middle of side {i}"), middle, Ends + corners + middle.Times(Ratio)));
            edge += side;
            var last = i == Sides.Count;
            corners += last && !Round ? Length.Zero : Width;
            marks.Add(new(last ? "end" : T($"corner {i}"), edge, Ends + corners + edge.Times(Ratio)));
            corners += last ? Length.Zero : Width;
        }

        return marks;
    }
}
