namespace HeirloomArchive.Worksheets.Drawing;

/// <summary>How a thing that is drawn at true size and longer than the paper is cut into pieces, to be pasted together by their register marks.</summary>
internal static class TrueSize
{
    /// <summary>What two pieces show alike, in mm of cloth.</summary>
    public const double Overlap = 15;

    /// <summary>The height one piece of the folding rule takes on the page, in mm.</summary>
    public const double PieceHeight = 56;

    /// <summary>Longer than this a rule is not printed unasked, in mm.</summary>
    public const double LongestUnasked = 3000;

    /// <summary>More pages than these are never printed.</summary>
    public const int MostPages = 100;

    /// <summary>From where to where each piece goes, in mm.</summary>
    /// <param name="length">Of the whole.</param>
    /// <param name="room">The most that one piece can show; more than the overlap.</param>
    public static IReadOnlyList<(double From, double To)> Pieces(double length, double room)
    {
        List<(double, double)> pieces = [];
        for (var from = 0.0; ; from += room - Overlap)
        {
            pieces.Add((from, Math.Min(length, from + room)));
            if (from + room >= length - 1e-9)
            {
                return pieces;
            }
        }
    }

    /// <summary>The register marks of a piece, at a third and two thirds of each overlap: where on the whole, in mm, and the number of the joint, from 1.</summary>
    public static IEnumerable<(double At, int Joint)> RegisterMarks(IReadOnlyList<(double From, double To)> pieces, int index) =>
        new[] { index, index + 1 }.Where(joint => joint > 0 && joint < pieces.Count)
            .SelectMany(joint => new[] { Overlap / 3, Overlap * 2 / 3 }.Select(within => (pieces[joint].From + within, joint)));

    /// <summary>How many pieces that makes.</summary>
    public static long Count(double length, double room) =>
        length <= room ? 1 : (long)Math.Ceiling((length - Overlap - 1e-9) / (room - Overlap));

    /// <summary>How many pages of this paper a rule of so many pieces takes; what stands above the first piece takes the place of one.</summary>
    public static long Pages(long pieces, PaperSize paper) => (pieces + 1 + PerPage(paper) - 1) / PerPage(paper);

    /// <summary>Pieces that one page holds.</summary>
    public static int PerPage(PaperSize paper) => (int)(paper.Tall / PieceHeight);
}
