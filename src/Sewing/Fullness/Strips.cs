using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>A long piece cut across the cloth in strips and joined.</summary>
/// <remarks>Baldt, Clothing for Women (1916): length divided by the width of the cloth, rounded up, times the cut depth.</remarks>
/// <param name="Count">Strips to cut, 1 or more.</param>
/// <param name="Joins">Seams between them: one fewer, or as many in a closed round.</param>
/// <param name="Cloth">Length of cloth they take: count × cut depth; null when no depth was given.</param>
/// <param name="LeftOver">What the last strip has over.</param>
public sealed record Strips(int Count, int Joins, Length? Cloth, Length LeftOver)
{
    /// <summary>The most strips that are planned.</summary>
    public const int Most = 2_000;

    /// <summary>Strips for a length. Exact.</summary>
    /// <param name="total">All that is needed, above zero.</param>
    /// <param name="loom">Width of the cloth between the selvages.</param>
    /// <param name="join">Allowance at each side of a join; every strip loses it twice.</param>
    /// <param name="cutDepth">Depth as cut; null when not known.</param>
    /// <param name="round">Closed to a round.</param>
    /// <exception cref="ArgumentOutOfRangeException">The allowances leave nothing of the loom width, or more than <see cref="Most"/> strips.</exception>
    public static Strips Of(Length total, Length loom, Length join, Length? cutDepth, bool round)
    {
        var usable = loom - (2 * join);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(usable, Length.Zero, nameof(join));
        var count = total.PartsOf(usable);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, Most, nameof(total));
        return new((int)count, (int)count - (round ? 0 : 1), count * cutDepth, (count * usable) - total);
    }

    internal static IReadOnlyList<Ask> Asks { get; } =
    [
        Ask.Above("loom", "Width of the cloth", "36 in", "Between the selvages; it tells how many strips to cut.").Optional(),
        Ask.Plain("join", "Allowance at a join", "1/4 in", "On each side of the seam between two strips."),
        Ask.Flag("round", "Closed to a round", "Yes for a hem; no for a piece with two ends."),
    ];

    /// <summary>The strips for a length where the width of the cloth was given; refuses what leaves nothing of it.</summary>
    internal static Strips? Read(Asked asked, Length total, Length? cutDepth)
    {
        if (asked.LengthOrNull("loom") is not { } loom)
        {
            return null;
        }

        var join = asked.Length("join");
        asked.Check(loom > 2 * join, "join", T($"With {asked.Show(join)} on both sides nothing is left of cloth {asked.Show(loom)} wide: the allowance must be below {asked.Show(loom.DividedBy(2))}."));
        asked.Throw();
        asked.Check(total.Nanometres <= (loom - (2 * join)).Nanometres * Most, "loom", T($"{asked.Show(total)} from cloth {asked.Show(loom)} wide takes more than {Most} strips: give a wider cloth."));
        asked.Throw();
        return Of(total, loom, join, cutDepth, asked.Flag("round"));
    }

    /// <summary>Adds the strips to an answer where the width of the cloth was given.</summary>
    internal static Strips? Add(Asked asked, Answer answer, Length total, Length? cutDepth)
    {
        if (Read(asked, total, cutDepth) is not { } strips)
        {
            return null;
        }

        answer.Figure("strips", "Strips to cut", strips.Count, "across the cloth, from selvage to selvage")
            .Figure("joins", "Joins", strips.Joins)
            .Figure("leftOver", "Over at the last strip", strips.LeftOver)
            .Note("Strips: the whole length divided by the width of the cloth, rounded up, times the cut depth. An edge across the warp also rolls and gathers more easily.",
                "Baldt, Clothing for Women (1916); Watson, Textiles and Clothing (1907)");
        if (strips.Cloth is { } cloth)
        {
            answer.Figure("cloth", "Length of cloth", cloth, "strips × cut depth");
        }

        if (!asked.Has("join") && strips.Joins > 0)
        {
            answer.Note("No allowance for the joins is counted: give one if the strips are to be seamed and not joined edge to edge at the selvages.");
        }

        return strips;
    }
}
