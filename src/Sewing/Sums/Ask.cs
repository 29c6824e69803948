using System.ComponentModel;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>What kind of thing a field takes.</summary>
public enum AskKind
{
    /// <summary>A length with its unit.</summary>
    Length,

    /// <summary>A whole number.</summary>
    Whole,

    /// <summary>A number that may have decimals.</summary>
    Number,

    /// <summary>One of a closed list.</summary>
    Choice,

    /// <summary>Yes or no.</summary>
    Flag,

    /// <summary>A text on one line, at most 200 characters.</summary>
    Text,

    /// <summary>Several lengths: a list, or one text with a length on each line or between semicolons.</summary>
    Lengths,

    /// <summary>Fields that belong together.</summary>
    Part,

    /// <summary>A list of rows, each with the same fields.</summary>
    Rows,
}

/// <summary>One field that a sum asks for: the API reads by it, the page draws its form from it. Its words are English here, and translated where they are shown.</summary>
public sealed record Ask
{
    private Ask(string name, AskKind kind, string label) => (Name, Kind, Label) = (name, kind, label);

    /// <summary>Its name in the API, in camel case.</summary>
    public string Name { get; }

    /// <summary>What it takes.</summary>
    public AskKind Kind { get; }

    /// <summary>Its name on the page: <c>Depth of a tuck</c>.</summary>
    public string Label { get; }

    /// <summary>A sentence beside it; may be empty.</summary>
    public string Hint { get; init; } = "";

    /// <summary>False when it may be left out.</summary>
    public bool Needed { get; init; } = true;

    /// <summary>The least length it takes, itself included; zero if not said. <see cref="AboveZero"/> is stricter.</summary>
    public Length Least { get; init; } = Sewing.Length.Zero;

    /// <summary>True when the length or number must be above zero.</summary>
    public bool AboveZero { get; init; }

    /// <summary>The greatest length it takes, itself included; 1 km if not said.</summary>
    public Length Most { get; init; } = Sewing.Length.Longest;

    /// <summary>The least number it takes, itself included.</summary>
    public decimal From { get; init; }

    /// <summary>The greatest number it takes, itself included; for <see cref="AskKind.Lengths"/> and <see cref="AskKind.Rows"/> the most of them.</summary>
    public decimal To { get; init; } = 1_000_000;

    /// <summary>The choices, each with its words on the page.</summary>
    public IReadOnlyList<(string Slug, string Words)> Choices { get; init; } = [];

    /// <summary>The fields of a part or of each row.</summary>
    public IReadOnlyList<Ask> Fields { get; init; } = [];

    /// <summary>A value that serves, shown in messages and as the form's hint.</summary>
    public string Example { get; init; } = "";

    /// <summary>A drawing beside it, by the name of a file in the page's <c>drawings</c> folder, without its ending; empty for none.</summary>
    public string Drawing { get; init; } = "";

    /// <summary>A length above zero.</summary>
    public static Ask Above(string name, [Localizable(true)] string label, string example, [Localizable(true)] string hint = "") =>
        new(name, AskKind.Length, label) { AboveZero = true, Example = example, Hint = hint };

    /// <summary>A length of zero or more; it counts as zero when left out.</summary>
    public static Ask Plain(string name, [Localizable(true)] string label, string example, [Localizable(true)] string hint = "") =>
        new(name, AskKind.Length, label) { Needed = false, Example = example, Hint = hint };

    /// <summary>A length that may be below zero, down to −1 km.</summary>
    public static Ask AnyLength(string name, [Localizable(true)] string label, string example, [Localizable(true)] string hint = "") =>
        new(name, AskKind.Length, label) { Least = -Sewing.Length.Longest, Example = example, Hint = hint };

    /// <summary>A whole number.</summary>
    public static Ask Whole(string name, [Localizable(true)] string label, int from, int to, string example, [Localizable(true)] string hint = "") =>
        new(name, AskKind.Whole, label) { From = from, To = to, Example = example, Hint = hint };

    /// <summary>A number, ends included.</summary>
    public static Ask Number(string name, [Localizable(true)] string label, decimal from, decimal to, string example, [Localizable(true)] string hint = "") =>
        new(name, AskKind.Number, label) { From = from, To = to, Example = example, Hint = hint };

    /// <summary>One of a closed list; the first is taken when it is left out and not needed.</summary>
    public static Ask Choice(string name, [Localizable(true)] string label, [Localizable(true)] string hint, [Localizable(true)] params (string Slug, string Words)[] choices) =>
        new(name, AskKind.Choice, label) { Choices = choices, Example = choices[0].Slug, Hint = hint };

    /// <summary>Yes or no; no when left out.</summary>
    public static Ask Flag(string name, [Localizable(true)] string label, [Localizable(true)] string hint = "") =>
        new(name, AskKind.Flag, label) { Needed = false, Example = "true", Hint = hint };

    /// <summary>A text on one line.</summary>
    public static Ask Text(string name, [Localizable(true)] string label, string example, [Localizable(true)] string hint = "") =>
        new(name, AskKind.Text, label) { Example = example, Hint = hint };

    /// <summary>So many lengths above zero.</summary>
    public static Ask Lengths(string name, [Localizable(true)] string label, int from, int to, string example, [Localizable(true)] string hint = "") =>
        new(name, AskKind.Lengths, label) { From = from, To = to, AboveZero = true, Example = example, Hint = hint };

    /// <summary>Fields that belong together; may be left out as a whole.</summary>
    public static Ask Part(string name, [Localizable(true)] string label, [Localizable(true)] string hint, params Ask[] fields) =>
        new(name, AskKind.Part, label) { Fields = fields, Needed = false, Hint = hint };

    /// <summary>So many rows.</summary>
    public static Ask Rows(string name, [Localizable(true)] string label, int from, int to, [Localizable(true)] string hint, params Ask[] fields) =>
        new(name, AskKind.Rows, label) { From = from, To = to, Fields = fields, Hint = hint };

    /// <summary>The same field, not needed.</summary>
    public Ask Optional() => this with { Needed = false };
}
