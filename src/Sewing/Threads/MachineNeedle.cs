using System.ComponentModel;

namespace HeirloomArchive.Sewing.Threads;

/// <summary>Cloth by its weight and the machine needles that serve it: common practice.</summary>
public sealed record NeedleCloth([Localizable(true)] string Slug, [Localizable(true)] string Words, int Least, int Most)
{
    /// <summary>From sheer to heavy.</summary>
    public static IReadOnlyList<NeedleCloth> All { get; } =
    [
        new("sheer", "Sheer: batiste, mull, fine net", 60, 65), new("light", "Light: lawn, nainsook", 60, 75),
        new("medium", "Medium: longcloth, cambric, light linen", 75, 90), new("heavy", "Heavy: piqué, jean, stout linen", 90, 110),
    ];
}

/// <summary>A machine needle: its size NM is 100 times the diameter of its blade in mm, not of its shank.</summary>
/// <remarks>A needle maker's note, which names DIN 5325 of 1953 for the rule. ISO 8239 is about the shank.</remarks>
/// <param name="Size">One of <see cref="Sizes"/>.</param>
public sealed record MachineNeedle(int Size)
{
    /// <summary>Width of the eye as a share of the blade: from memory, and makers differ.</summary>
    public const double EyeOfBlade = 0.4;

    /// <summary>How much wider the eye should be than the thread is thick: common practice.</summary>
    public const double EyeOfThread = 1.4;

    /// <summary>The sizes in the shops: common practice.</summary>
    public static IReadOnlyList<int> Sizes { get; } = [60, 65, 70, 75, 80, 90, 100, 110, 120];

    /// <summary>The blade: size / 100 mm, exact.</summary>
    public Length Blade => Length.FromNanometres(Size * 10_000L);

    /// <summary>About the width of its eye.</summary>
    public Length Eye => Blade.Times(EyeOfBlade);

    /// <summary>About the thickest thread its eye takes.</summary>
    public Length ThickestThread => Length.FromNanometres((long)Math.Round(Eye.Nanometres / EyeOfThread));

    /// <summary>The American number: (NM − 60) / 5 + 8 below 19; 120 is 19 by a rule of its own.</summary>
    /// <remarks>The rule is read; that it breaks at 19 is read, that 19 is 120 is from memory.</remarks>
    public int American => Size == 120 ? 19 : ((Size - 60) / 5) + 8;

    /// <summary>The size of a blade: 100 × mm, exact; what is not a size in the shops comes out as it is.</summary>
    public static decimal SizeOf(Length blade) => 100 * blade.Millimetres;

    /// <summary>The needle of an American number, or null.</summary>
    public static MachineNeedle? OfAmerican(int number) => Sizes.Select(s => new MachineNeedle(s)).FirstOrDefault(n => n.American == number);

    /// <summary>The finest needle whose eye takes a thread, or null when none does.</summary>
    public static MachineNeedle? FinestFor(Length thread) => Sizes.Select(s => new MachineNeedle(s)).FirstOrDefault(n => n.ThickestThread >= thread);
}
