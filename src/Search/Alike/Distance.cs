using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Search.Alike;

/// <summary>
/// How far apart two techniques are by their making, from 0 (the same in all that is recorded of both) to 1. Each aspect that at least one of
/// them has weighs in: 0 where they agree, 1 where they do not, between for near ones, 1/2 where only one tells.
/// It is symmetric and 0 from a technique to itself; it is no metric (what is not recorded agrees with everything halfway).
/// </summary>
internal sealed class Distance
{
    public const double KindWeighs = 4, TuckKindWeighs = 3, CalledWeighs = 3, ShareWeighs = 3, SizeWeighs = 2, SewnWeighs = 2, PartWeighs = 2, GroupsWeigh = 2,
        FormWeighs = 1, MadeWeighs = 1, SetWeighs = 1;

    private readonly List<string> why = [];
    private double sum;
    private double weights;

    private Distance()
    {
    }

    /// <summary>The distance, from 0 to 1.</summary>
    public double Value => weights > 0 ? sum / weights : 0;

    /// <summary>What they share and how they differ in size, in words.</summary>
    public IReadOnlyList<string> Why => why;

    /// <summary>Compares two techniques.</summary>
    /// <param name="a">The one that is asked about.</param>
    /// <param name="b">The one that may be like it.</param>
    /// <param name="anySize">Whether their size does not count: the same proportions at another size.</param>
    public static Distance Between(Construction a, Construction b, bool anySize = false)
    {
        var distance = new Distance();
        distance.Word(KindWeighs, a.Kind, b.Kind, "techniques", word => T($"both {word}"));
        distance.Word(TuckKindWeighs, a.TuckKind, b.TuckKind, "tucks", word => T($"both {word}"));
        distance.Word(CalledWeighs, a.Called, b.Called, a.Kind is null ? "laces" : FacetOf(a), word => T($"both {word}"));
        distance.Proportion(a, b);
        distance.Size(a, b, anySize);
        distance.Grouping(a, b);
        distance.Add(SewnWeighs, a.Sewn is not null, b.Sewn is not null, () => SewnApart(a.Sewn!, b.Sewn!), d => d == 0 ? SewnSame(a.Sewn!) : d < 0.5 ? T("both sewn by machine") : null);
        distance.Add(PartWeighs, a.Parts.Count > 0, b.Parts.Count > 0, () => a.Parts.Overlaps(b.Parts) ? 0 : 1,
            d => d == 0 ? T($"both on the {T(Words.Label("parts", a.Parts.Intersect(b.Parts).Order(StringComparer.Ordinal).First())).ToLowerInvariant()}") : null);
        distance.Word(FormWeighs, a.Form, b.Form, "", word => T($"both as {word}"));
        distance.Word(MadeWeighs, a.LaceMade, b.LaceMade, "", word => T($"lace made alike: {word}"));
        distance.Add(SetWeighs, a.Set.Count > 0, b.Set.Count > 0, () => 1 - ((double)a.Set.Intersect(b.Set).Count() / a.Set.Union(b.Set).Count()),
            d => d == 0 ? T($"both set on {string.Join(", ", a.Set.Order(StringComparer.Ordinal).Select(InWords))}") : null);
        return distance;
    }

    /// <summary>How far two ways of sewing are apart: kinds of machine are near each other, "both" stands between hand and machine.</summary>
    public static double SewnApart(string a, string b) => a == b ? 0
        : IsMachine(a) && IsMachine(b) ? 0.25
        : a is "both" or "not-determined" || b is "both" or "not-determined" ? 0.5
        : 1;

    /// <summary>How far two shares (see <see cref="Construction.Share"/>) or two widths are apart: four times or more is as far as can be.</summary>
    public static double RatioApart(double a, double b) => Math.Min(1, Math.Abs(Math.Log(a / b)) / Math.Log(4));

    private static bool IsMachine(string sewn) => sewn.StartsWith("machine", StringComparison.Ordinal) || sewn == "overlock";

    private static string FacetOf(Construction technique) => technique.Kind switch
    {
        "embroidered-trim" => "trims",
        "seam" or "faggoting" => "seams",
        "fastening" or "buttonholes" => "fastenings",
        "lace" or "insertion" or "edging" => "laces",
        _ => "whitework",
    };

    private static string? SewnSame(string sewn) => sewn == "not-determined" ? null : sewn == "both" ? T("both sewn by hand and machine") : T($"both sewn by {InWords(sewn)}");

    private static string InWords(string choice) => T(ChoiceType.InWords(choice)).ToLowerInvariant();

    private void Proportion(Construction a, Construction b) => Add(ShareWeighs, a.Share is not null, b.Share is not null, () => RatioApart(a.Share!.Value, b.Share!.Value),
        d => d < 0.001 ? T($"w : s is {Ratio(a)} in both") : d < 0.25 ? T($"w : s is near: {Ratio(a)}, here {Ratio(b)}") : null);

    private void Size(Construction a, Construction b, bool anySize)
    {
        if (a.Width is > 0 && b.Width is > 0)
        {
            var apart = RatioApart(a.Width.Value, b.Width.Value);
            if (apart == 0)
            {
                why.Add(T($"both {Shown(a)} wide"));
            }
            else if (anySize || apart < 0.5)
            {
                why.Add(T($"{Shown(a)} wide, here {Shown(b)}"));
            }
        }

        if (!anySize)
        {
            Add(SizeWeighs, a.Width is > 0, b.Width is > 0, () => RatioApart(a.Width!.Value, b.Width!.Value), _ => null);
        }
    }

    private void Grouping(Construction a, Construction b) => Add(GroupsWeigh, a.Groups > 0, b.Groups > 0,
        () => (Apart(a.Groups, b.Groups) + Apart(a.Tucks, b.Tucks)) / 2,
        d => d == 0 ? T($"both {Grouped(a)}") : d < 0.25 ? T($"{Grouped(a)}, here {Grouped(b)}") : null);

    private static double Apart(int a, int b) => a == b ? 0 : (double)Math.Abs(a - b) / Math.Max(a, b);

    private static string Grouped(Construction one) => N(one.Groups, $"{one.Tucks} tucks in {one.Groups} group", $"{one.Tucks} tucks in {one.Groups} groups");

    private static string Ratio(Construction one) => string.Create(CultureInfo.InvariantCulture, $"1 : {(double)one.Space!.Value / one.Width!.Value:0.##}");

    private static string Shown(Construction one)
    {
        var width = Length.FromNanometres(one.Width!.Value);
        var inches = width.ToText(LengthUnit.Inches);
        return inches.StartsWith('≈') ? width.ToText(LengthUnit.Millimetres) : inches;
    }

    private void Word(double weighs, string? a, string? b, string facet, Func<string, string> says) => Add(weighs, a is not null, b is not null, () => a == b ? 0 : 1,
        d => d == 0 ? says(facet.Length == 0 ? InWords(a!) : T(Words.Label(facet, a!)).ToLowerInvariant()) : null);

    private void Add(double weighs, bool hasA, bool hasB, Func<double> apart, Func<double, string?> says)
    {
        if (!hasA && !hasB)
        {
            return;
        }

        weights += weighs;
        if (!hasA || !hasB)
        {
            sum += weighs / 2;
            return;
        }

        var one = apart();
        sum += weighs * one;
        if (says(one) is { } words)
        {
            why.Add(words);
        }
    }
}
