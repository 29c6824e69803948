using System.Globalization;

namespace HeirloomArchive.Benchmarks.Finding;

/// <summary>A question in parameters, as the address has them, and one word looked for in the text.</summary>
/// <param name="Given">Parameters with their value.</param>
/// <param name="Word">The typed word, or null.</param>
internal sealed record Question(IReadOnlyList<(string Name, string Value)> Given, string? Word)
{
    /// <summary>As an address asks it.</summary>
    public IEnumerable<KeyValuePair<string, string?>> Query => Given.Select(g => KeyValuePair.Create(g.Name, (string?)g.Value))
        .Concat(Word is null ? [] : [KeyValuePair.Create("q", (string?)Word)]);

    public override string ToString() => string.Join('&', Query.Select(p => $"{p.Key}={p.Value}"));
}

/// <summary>The fixed mix of 200: 150 narrow ones (two or three joined conditions and a word) and 50 broad ones (one filter).</summary>
internal static class Questions
{
    private static readonly string[] Words = ["summer", "church", "neat", "trunk", "attic", "laid", "teacher", "school", "daughter", "mother"];

    /// <summary>The facets that each of the three counts: ours counts all its 22 besides.</summary>
    public static readonly string[] Facets = ["kind", "overall", "cloth", "tuckKind", "sewn", "part", "lace", "condition"];

    /// <summary>What stands in the box before a word is whole.</summary>
    public static IReadOnlyList<Question> HalfTyped { get; } =
        [.. new[] { "s", "su", "sum", "t", "tr", "c", "ch", "n", "ne", "a", "at", "pin t", "lawn y", "tor" }.Select(typed => new Question([], typed))];

    public static IReadOnlyList<Question> Narrow { get; } = [.. Enumerable.Range(0, 150).Select(i => (i % 5) switch
    {
        0 => Ask(i, ("tuckKind", At(Collection.Tucks, i)), ("sewn", At(Collection.Sewn, i + 1)), ("part", At(Collection.Parts, i + 2))),
        1 => Ask(i, ("lace", At(Collection.Laces, i)), ("lacePart", At(Collection.Parts, i)), ("kind", At(Collection.Kinds, i))),
        2 => Ask(i, ("tuckKind", At(Collection.Tucks, i)), ("part", At(Collection.Parts, i)), ("lace", At(Collection.Laces, i + 1))),
        3 => Ask(i, ("condition", At(Collection.Findings, i)), ("severity", "severe"), ("cloth", At(Collection.Cloth, i))),
        _ => Ask(i, ("sewn", At(Collection.Sewn, i)), ("part", At(Collection.Parts, i + 3)), ("decade", string.Create(CultureInfo.InvariantCulture, $"{1880 + (10 * (i % 4))}s"))),
    })];

    public static IReadOnlyList<Question> Broad { get; } = [.. Enumerable.Range(0, 50).Select(i => new Question([(i % 10) switch
    {
        0 => ("kind", At(Collection.Kinds, i / 10)),
        1 => ("sewn", At(Collection.Sewn, (i / 10) + 1)),
        2 => ("part", At(Collection.Parts, (i / 10) + 2)),
        3 => ("lace", At(Collection.Laces, i / 10)),
        4 => ("tuckKind", At(Collection.Tucks, i / 10)),
        5 => ("overall", "fair"),
        6 => ("decade", string.Create(CultureInfo.InvariantCulture, $"{1880 + (10 * (i / 10))}s")),
        7 => ("laceMade", "machine"),
        8 => ("cloth", At(Collection.Cloth, i / 10)),
        _ => ("to", string.Create(CultureInfo.InvariantCulture, $"{1860 + (10 * (i / 10))}")),
    }], null))];

    private static Question Ask(int i, params (string, string)[] given) => new(given, Words[i / 5 % Words.Length]);

    private static string At(string[] words, int i) => words[i % Math.Min(words.Length, 8)];
}
