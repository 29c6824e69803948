using System.ComponentModel;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>What a book gives as the fullness of one kind of work: flat length over finished length.</summary>
/// <param name="Slug">Its name in requests.</param>
/// <param name="Kind">In words.</param>
/// <param name="Least">In twelfths: 16 is 1 1/3.</param>
/// <param name="Most">In twelfths.</param>
/// <param name="Source">Where it is read.</param>
public sealed record UsualFullness(string Slug, [Localizable(true)] string Kind, int Least, int Most, [Localizable(true)] string Source)
{
    private const int Parts = 12;

    /// <summary>All that were read. They disagree, and are shown side by side.</summary>
    public static IReadOnlyList<UsualFullness> All { get; } =
    [
        new("straight", "Straight ruffle", 16, 18, "Baldt, Clothing for Women (1916)"),
        new("bias", "Ruffle cut on the bias", 15, 16, "Baldt (1916)"),
        new("dust", "Dust ruffle", 15, 16, "Baldt (1916)"),
        new("petticoat", "Petticoat ruffle", 18, 18, "Kinne and Cooley, Clothing and Health (c. 1916), lesson 12"),
        new("flounce", "Flounce, upper tier", 16, 16, "A petticoat pattern sheet of 1907"),
        new("lower-flounce", "Flounce on a flounce", 18, 18, "The same sheet of 1907"),
        new("whipped", "Whipped ruffle", 24, 24, "Woolman, A Sewing Course (2 or a little more); Hapgood, School Needlework (12 in on 6)"),
        new("frill", "Frill, very full", 36, 36, "Dress Making, NIMI, p. 212"),
        new("chiffon-ruche", "Shirred ruche, chiffon", 36, 36, "The New Dressmaker (1921), p. 137"),
        new("taffeta-ruche", "Shirred ruche, taffeta", 24, 24, "The New Dressmaker (1921), p. 137"),
        new("quilling", "Side-plaited quilling", 36, 36, "The New Dressmaker (1921), p. 142"),
    ];

    /// <summary>As written: <c>1 1/3 to 1 1/2</c>.</summary>
    public string Range => Least == Most ? Mixed(Least) : T($"{Mixed(Least)} to {Mixed(Most)}");

    /// <summary>The greatest fullness, to 28 places.</summary>
    public decimal Greatest => Most / (decimal)Parts;

    /// <summary>The least flat length for a finished one, rounded once to the nanometre.</summary>
    public Length LeastFlat(Length finished) => (finished * Least).DividedBy(Parts);

    /// <summary>The greatest flat length for a finished one, rounded once to the nanometre.</summary>
    public Length MostFlat(Length finished) => (finished * Most).DividedBy(Parts);

    internal static void AddTable(Answer answer, Length finished) => answer
        .Table("usual", "What the books give for this edge; they do not agree",
            [new("kind", "Kind"), new("fullness", "Fullness"), new("least", "Flat, least"), new("most", "Flat, most"), new("source", "Source")],
            All.Select(u => (IReadOnlyList<object?>)[T(u.Kind), u.Range, u.LeastFlat(finished), u.MostFlat(finished), T(u.Source)]))
        .Note("Fine lawn takes more fullness than stiff cloth; gather a trial of 4 in before you cut.", "Common practice; the figures of the books stand in the table, each with its own.");

    private static string Mixed(int twelfths)
    {
        var (whole, rest) = Math.DivRem(twelfths, Parts);
        var shared = (int)System.Numerics.BigInteger.GreatestCommonDivisor(rest, Parts);
        return rest == 0 ? $"{whole}" : $"{whole} {rest / shared}/{Parts / shared}";
    }
}
