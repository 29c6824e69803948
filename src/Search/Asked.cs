using Lucene.Net.Search;

namespace HeirloomArchive.Search;

/// <summary>
/// One thing understood in what was typed: the words, and the parameter that says the same. What only typing can say has the
/// parameter <see cref="Typed"/>: "without torchon" for a thing left out, "torchon" for the "torchn" that was found in no piece.
/// </summary>
public sealed record Suggestion(string Text, string Parameter, string Value)
{
    /// <summary>The box itself.</summary>
    public const string Typed = "q";
}

/// <summary>One part of what was typed: met by its parameter (if it was understood) or by its words.</summary>
/// <param name="Group">Whose entries it is asked of.</param>
/// <param name="Words">Met by an entry's labels or by what is said of the garment.</param>
/// <param name="Meets">Met by the parameter's value; null for plain words.</param>
internal sealed record Slot(Group Group, Sieve Words, Sieve? Meets);

/// <summary>What was typed, as the index is asked for it.</summary>
/// <param name="Sets">Each must be met; the slots of one hold together on one entry.</param>
/// <param name="Without">What meets all sets of one of these is left out.</param>
/// <param name="Understood">What of it parameters could say, and what is left out.</param>
/// <param name="Marks">What a snippet marks.</param>
/// <param name="Likeness">Scores the garments that were found.</param>
internal sealed record Asked(
    IReadOnlyList<IReadOnlyList<Slot>> Sets, IReadOnlyList<IReadOnlyList<IReadOnlyList<Slot>>> Without,
    IReadOnlyList<Suggestion> Understood, Marks Marks, IReadOnlyList<Query> Likeness)
{
    public static readonly Asked Nothing = new([], [], [], new Marks(new HashSet<string>(), null), []);
}
