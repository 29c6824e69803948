using System.ComponentModel;
using System.Globalization;
using System.Text.RegularExpressions;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Threads;

/// <summary>What a number on a spool means.</summary>
public enum ThreadSystem
{
    /// <summary>English cotton count: the larger the finer. Exact.</summary>
    Ne,

    /// <summary>Metric count. Exact. Not the NM of a machine needle.</summary>
    Nm,

    /// <summary>Grams in 1 000 m. Exact.</summary>
    Tex,

    /// <summary>Grams in 10 000 m. Exact.</summary>
    Dtex,

    /// <summary>Grams in 9 000 m. Exact.</summary>
    Denier,

    /// <summary>Linen count. Exact.</summary>
    Lea,

    /// <summary>Ticket of a synthetic or silk thread: about three times the metric count of the whole thread.</summary>
    Ticket,

    /// <summary>Ticket of a cotton thread: about three times the cotton count of the whole thread.</summary>
    CottonTicket,

    /// <summary>Weight: about the kilometres in a kilogram.</summary>
    Weight,

    /// <summary>Old six-cord cotton: six strands of twice the number, so as thick as three of the number.</summary>
    SixCord,
}

/// <summary>A fibre and its density, for the estimate of a thread's thickness. Densities are textbook values written from memory.</summary>
public sealed record ThreadFibre(string Slug, [Localizable(true)] string Words, double Density)
{
    /// <summary>Share of a sewing thread's round that is fibre: common practice, about.</summary>
    public const double Packing = 0.6;

    /// <summary>All that are known; cotton first.</summary>
    public static IReadOnlyList<ThreadFibre> All { get; } =
        [new("cotton", "Cotton", 1.52), new("linen", "Linen", 1.50), new("silk", "Silk", 1.34), new("polyester", "Polyester", 1.38)];
}

/// <summary>A thread as its spool names it.</summary>
/// <param name="System">What the number means.</param>
/// <param name="Count">Of one ply where there are plies.</param>
/// <param name="Plies">1 or more.</param>
public sealed partial record SpoolNumber(ThreadSystem System, decimal Count, int Plies)
{
    /// <summary>How far the approximate numbers may be off, either way: makers, uses and fibres differ. From memory.</summary>
    public const decimal Doubt = 0.15m;

    /// <summary>True where the size follows from the definition alone.</summary>
    public bool IsExact => System is ThreadSystem.Ne or ThreadSystem.Nm or ThreadSystem.Tex or ThreadSystem.Dtex or ThreadSystem.Denier or ThreadSystem.Lea;

    /// <summary>One ply.</summary>
    public ThreadSize OnePly => System switch
    {
        ThreadSystem.Ne => ThreadSize.FromNe(Count),
        ThreadSystem.Nm => ThreadSize.FromNm(Count),
        ThreadSystem.Tex => ThreadSize.FromTex(Count),
        ThreadSystem.Dtex => ThreadSize.FromDtex(Count),
        ThreadSystem.Denier => ThreadSize.FromDenier(Count),
        ThreadSystem.Lea => ThreadSize.FromLea(Count),
        ThreadSystem.Ticket => ThreadSize.FromNm(Count).Plied(3),
        ThreadSystem.Weight => ThreadSize.FromNm(Count),
        _ => ThreadSize.FromNe(Count).Plied(3),
    };

    /// <summary>The whole thread: 80/2 is 2 × 590.54 / 80 = 14.8 tex.</summary>
    public ThreadSize Size => OnePly.Plied(Plies);

    internal static IReadOnlyList<Ask> Asks { get; } =
    [
        Ask.Choice("system", "What the number is", "Written on the spool or its label; cotton count when left out.",
            ("ne", "Cotton count (Ne): 80/2"), ("nm", "Metric count (Nm): 120/2"), ("tex", "Tex"), ("dtex", "Decitex"), ("denier", "Denier"), ("lea", "Linen count (lea)"),
            ("ticket", "Ticket, synthetic or silk"), ("cotton-ticket", "Ticket, cotton"), ("weight", "Weight (wt)"), ("six-cord", "Old six-cord number")).Optional(),
        Ask.Text("written", "The number", "80/2", "As on the spool: 80/2 is two plies of 80."),
        Ask.Choice("fibre", "Fibre", "For the thickness; cotton when left out.", [.. ThreadFibre.All.Select(f => (f.Slug, f.Words))]).Optional(),
    ];

    internal static ThreadFibre Fibre(Asked asked) => ThreadFibre.All.FirstOrDefault(f => f.Slug == asked.Text("fibre")) ?? ThreadFibre.All[0];

    internal static SpoolNumber Read(Asked asked)
    {
        var system = asked.Text("system") is { Length: > 0 } word ? Enum.Parse<ThreadSystem>(word.Replace("-", "", StringComparison.Ordinal), ignoreCase: true) : ThreadSystem.Ne;
        var match = Written().Match(asked.Text("written"));
        asked.Check(match.Success, "written", T($"“{Shown.Short(asked.Text("written"))}” is not a number on a spool: write 80/2 for two plies of 80, or 50."));
        asked.Throw();
        var first = Number(match.Groups["first"].Value);
        var second = match.Groups["second"].Success ? Number(match.Groups["second"].Value) : 1;
        // 2/80 and 80/2 are the same thread; tex, dtex and denier can be as small as the plies, so there the order counts.
        var counted = system is ThreadSystem.Ne or ThreadSystem.Nm or ThreadSystem.Lea && second > first;
        var read = new SpoolNumber(system, counted ? second : first, (int)Math.Min(99, counted ? first : second));
        asked.Check(read.Count > 0 && read.Count <= 10_000, "written", T($"{read.Count.ToString("0.####", CultureInfo.InvariantCulture)} can't be a thread's number: 1 to 1 000 are usual."));
        asked.Check((counted ? first : second) is >= 1 and <= 24 && decimal.IsInteger(counted ? first : second), "written", T($"“{Shown.Short(asked.Text("written"))}” has no whole number of plies from 1 to 24: write 80/2 for two plies of 80."));
        asked.Check(read.IsExact || read.Plies == 1, "written", "A ticket, weight or six-cord number is that of the whole thread: leave the plies out.");
        asked.Throw();
        return read;
    }

    private static decimal Number(string digits) => decimal.Parse(digits.Replace(',', '.'), CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^\s*(?:no\.?\s*)?(?<first>[0-9]{1,5}(?:[.,][0-9]{1,4})?)\s*(?:[/x×]\s*(?<second>[0-9]{1,5}(?:[.,][0-9]{1,4})?))?\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex Written();
}
