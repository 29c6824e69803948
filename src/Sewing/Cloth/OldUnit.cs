using System.ComponentModel;
using System.Numerics;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>A measure of cloth or buttons, old or new, as an exact fraction of a nanometre.</summary>
/// <param name="Slug">Its name in requests.</param>
/// <param name="Words">In words; three different lines are told apart.</param>
/// <param name="Over">Nanometres, above the line.</param>
/// <param name="Under">Below the line.</param>
/// <param name="Source">Where it is read.</param>
public sealed record OldUnit(string Slug, [Localizable(true)] string Words, BigInteger Over, BigInteger Under, [Localizable(true)] string Source)
{
    private const string Workwoman = // texts
        "The Workwoman's Guide (1838), ch. III";
    private const string DryGoods = // texts
        "Dictionary of Dry Goods (c. 1900)";
    private const string French = // texts
        "Law of 19 frimaire an VIII (1799): 443.296 lignes to the metre";

    /// <summary>From the smallest; the ells and the aune are kept apart by name.</summary>
    public static IReadOnlyList<OldUnit> All { get; } =
    [
        new("button-ligne", "Button lignes (1/40 in)", Length.Inch, 40, "Encyclopaedia of measures; of the button trade"), new("mm", "Millimetres", 1_000_000, 1, "Definition"),
        new("english-line", "English lines (1/12 in)", Length.Inch, 12, "In Britain before 1824"), new("french-ligne", "Old French lignes", 1_000_000_000_000, 443_296, French),
        new("barleycorn", "Barleycorns (1/3 in)", Length.Inch, 3, DryGoods), new("cm", "Centimetres", 10_000_000, 1, "Definition"),
        new("in", "Inches", Length.Inch, 1, "Definition: 25.4 mm"), new("pouce", "Old French pouces (12 lignes)", 12_000_000_000_000, 443_296, French),
        new("nail", "Nails (2 1/4 in)", Length.Inch * 9, 4, Workwoman), new("hand", "Hands (4 in)", Length.Inch * 4, 1, DryGoods),
        new("quarter", "Quarters (9 in)", Length.Inch * 9, 1, Workwoman), new("ft", "Feet", Length.Inch * 12, 1, "Definition"),
        new("pied", "Old French pieds (144 lignes)", 144_000_000_000_000, 443_296, French), new("flemish-ell", "Flemish ells (27 in)", Length.Inch * 27, 1, "Encyclopaedia of measures"),
        new("yd", "Yards", Length.Inch * 36, 1, "Definition"), new("m", "Metres", 1_000_000_000, 1, "Definition"),
        new("english-ell", "English ells (45 in)", Length.Inch * 45, 1, Workwoman), new("aune", "Aunes of the American trade (45 in)", Length.Inch * 45, 1, DryGoods),
        new("french-ell", "French ells (54 in)", Length.Inch * 54, 1, Workwoman),
    ];

    /// <summary>A count of it as a length, rounded once to the nanometre.</summary>
    public Length Of(decimal count)
    {
        var (over, under) = Curves.Fraction(count);
        return Length.FromNanometres((long)Length.Rounded(over * Over, under * Under));
    }

    /// <summary>A length in it, rounded once to nine places.</summary>
    public decimal In(Length length) => (decimal)Length.Rounded(length.Nanometres * Under * 1_000_000_000, Over) / 1_000_000_000;

    internal static Sum Sum { get; } = new()
    {
        Slug = "units",
        Shelf = Shelf.Cloth,
        Title = "Old and new measures",
        Lead = "A length in inches, yards, nails, millimetres, old French lignes and button lignes, side by side.",
        Asks =
        [
            Ask.Above("length", "Length", "3 15/16 in", "In inches, feet, yards, nails, mm, cm or m; or give an old measure below.").Optional(),
            Ask.Number("count", "How many", 0, 1_000_000, "24", "Of the old measure.") with { AboveZero = true, Needed = false },
            Ask.Choice("unit", "Old measure", "Three measures are called line: say which.", [.. All.Select(u => (u.Slug, u.Words))]).Optional(),
        ],
        Example = """{"length":"3 15/16 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var old = asked.Has("count") || asked.Has("unit");
        asked.Check(asked.Has("length") != old, "length", "Give a length, or a count and its old measure; one of the two.");
        asked.Check(asked.Has("count") == asked.Has("unit"), asked.Has("count") ? "unit" : "count", "A count and its measure belong together: give both, for example 24 button-ligne.");
        asked.Throw();
        var unit = All.FirstOrDefault(u => u.Slug == asked.Text("unit"));
        asked.Check(unit is null || asked.Number("count") * (decimal)unit.Over / (decimal)unit.Under <= Length.Longest.Nanometres, "count", "That is more than 1 km: give a shorter length.");
        asked.Throw();
        var length = asked.LengthOrNull("length") ?? unit!.Of(asked.Number("count"));
        asked.Check(length > Length.Zero, "count", "That is less than a nanometre: give a longer length.");
        asked.Throw();
        return new Answer(asked.Unit).Figure("inches", "In inches", length, inUnit: LengthUnit.Inches).Figure("millimetres", "In millimetres", length, inUnit: LengthUnit.Millimetres)
            .Figure("nails", "In nails", All.First(u => u.Slug == "nail").In(length), "16 to the yard")
            .Table("measures", "In every measure", [new("unit", "Measure"), new("count", "How many"), new("each", "One of them"), new("source", "Source")],
                All.Select(u => (IReadOnlyList<object?>)[T(u.Words), u.In(length), u.Of(1), T(u.Source)]))
            .Note("Three measures are called line: the old French ligne, 2.2558 mm; the English line, 2.1167 mm; and the ligne of buttons, 0.635 mm. A record should name which is meant.", "Encyclopaedia of measures")
            .Note("The French ell of English books is 54 in, the aune of the American trade 45 in: they are not the same.", $"{Workwoman}; {DryGoods}")
            .Note("Old measures were copied by eye and by wood: a figure to the hundredth of a millimetre is arithmetic, not how it was cut.", "No source.")
            .Drawn(T($"{asked.Show(length)} divided into inches, centimetres and old French pouces."), new[] { "in", "cm", "pouce" }.Select(slug => Picture(asked, length, All.First(u => u.Slug == slug))));
    }

    private static Panel Picture(Asked asked, Length length, OldUnit unit)
    {
        var (sketch, count) = (new Sketch(26), unit.In(length));
        var step = 1m;
        while (count / step > 24)
        {
            step *= step.ToString(System.Globalization.CultureInfo.InvariantCulture)[0] == '2' ? 2.5m : 2;
        }

        sketch.Box(Sketch.Margin, 10, sketch.Room, 8, Ink.Cloth).Text(Sketch.Margin, 7, T($"{T(unit.Words)}: {count.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture)}; {asked.Show(length)} in all"), Ink.Caption, 2.8, Anchor.Start);
        for (var at = 0m; at <= count; at += step)
        {
            var x = Sketch.Margin + (sketch.Room * (double)(at / count));
            sketch.Line(x, 10, x, 14, Ink.Datum).Text(x, 22, at.ToString("0", System.Globalization.CultureInfo.InvariantCulture), Ink.Number, 2.4);
        }

        return sketch.Panel();
    }
}
