using HeirloomArchive.Sewing;
using Lucene.Net.Index;
using Lucene.Net.Search;

namespace HeirloomArchive.Search;

/// <summary>Turns what was typed into what the index is asked.</summary>
internal sealed class Typed
{
    // Enough for any sentence; a pasted page needs no finer ranking.
    private const int MostScored = 64;

    private static readonly HashSet<string> Heads = ["technique", "tuckKind", "work", "seam", "fastening", "lace", "trim", "condition", "repair"];

    private readonly List<Piece> pieces;
    private readonly Length tolerance;
    private readonly string? halfTyped;
    private readonly List<List<Slot>> sets = [];
    private readonly Dictionary<int, List<List<Slot>>> without = [];
    private readonly Dictionary<(int Unwanted, Group Group), (List<Slot> Slots, HashSet<string> Said)> open = [];
    private readonly List<Suggestion> understood = [];
    private readonly HashSet<string> stems = [];
    private readonly List<Query> likeness = [];

    private Typed(string q, Length tolerance)
    {
        this.tolerance = tolerance;
        var read = Reader.Pieces(q);
        if (read.Count > 1 && read[^1] is { Meanings.Count: 0, Quoted: false, Tokens: [{ Word.Length: <= 3 } last] } && last.End == q.Length
            && Lucene.Net.Analysis.En.EnglishAnalyzer.DefaultStopSet.Any(stop => stop.StartsWith(last.Word, StringComparison.Ordinal)))
        {
            // "th" on its way to "the" should not empty the page for a moment.
            read.RemoveAt(read.Count - 1);
        }

        pieces = read;
        halfTyped = read.Count > 0 && read[^1] is { Quoted: false, Unwanted: 0, Tokens: [.., var end] } && end.End == q.TrimEnd().Length ? end.Word : null;
    }

    /// <summary>Reads what was typed; anything can be, and what has no word in it finds nothing.</summary>
    public static Asked Read(string q, Length tolerance)
    {
        if (q.Length == 0)
        {
            return Asked.Nothing;
        }

        var typed = new Typed(q, tolerance);
        Understanding.Choose(typed.pieces);
        for (var i = 0; i < typed.pieces.Count; i++)
        {
            typed.Take(i);
        }

        if (typed.pieces.Count == 0)
        {
            typed.sets.Add([new Slot(Group.Garment, Sieve.Of(Fields.Text, ""), null)]);
        }

        typed.SayUnwanted(q);
        typed.Score(q);
        return new Asked(typed.sets, [.. typed.without.Values], typed.understood, new Marks(typed.stems, typed.halfTyped), typed.likeness);
    }

    private void Take(int at)
    {
        var piece = pieces[at];
        var said = piece.Length is not null ? Widths(piece, Understanding.Nearest(pieces, at))
            : piece.Years.Count > 0 ? piece.Years
            : Understanding.Say(pieces, at);
        if (piece.Unwanted == 0)
        {
            understood.AddRange(said.Select(s => new Suggestion(piece.Text, s.Parameter, s.Value)));
            Mark(piece);
        }

        var words = Words(piece, isLast: at == pieces.Count - 1);
        if (said.Count == 0)
        {
            SetsOf(piece).Add([new Slot(Group.Garment, words, null)]);
            return;
        }

        var (group, meets) = Meets(piece, said);
        Place(piece, new Slot(group, words, meets), said[0].Parameter);
    }

    private void Mark(Piece piece)
    {
        stems.UnionWith(Telling(piece).Select(t => t.Stem));
        if (piece.Chosen is { } meaning && Catalogue.Words.Find(meaning.Facet, meaning.Slug) is { } word)
        {
            stems.UnionWith(Analysis.Tokens(word.Label).Where(t => !Analysis.IsStopWord(t.Word)).Select(t => t.Stem));
        }
    }

    private List<List<Slot>> SetsOf(Piece piece) => piece.Unwanted == 0 ? sets
        : without.TryGetValue(piece.Unwanted, out var unwanted) ? unwanted : without[piece.Unwanted] = [];

    /// <summary>Tells what is left out, each thing as it was typed.</summary>
    private void SayUnwanted(string q)
    {
        foreach (var thing in pieces.Where(p => p.Unwanted != 0).GroupBy(p => p.Unwanted))
        {
            var (from, to) = (thing.Min(p => p.Start), thing.Max(p => p.End));
            // In English whoever reads: programs know it by its first word, and it can be typed again.
            understood.Add(new Suggestion(q[Reader.UnwantedFrom(q, from)..to], Suggestion.Typed, $"without {q[from..to].Trim('"')}"));
        }
    }

    /// <summary>Puts a slot with those it holds together with; a second thing of its kind begins another entry.</summary>
    private void Place(Piece piece, Slot slot, string parameter)
    {
        if (slot.Group == Group.Garment)
        {
            SetsOf(piece).Add([slot]);
            return;
        }

        var says = Heads.Contains(parameter) ? "head" : parameter;
        if (!open.TryGetValue((piece.Unwanted, slot.Group), out var set) || !set.Said.Add(says))
        {
            open[(piece.Unwanted, slot.Group)] = set = ([], [says]);
            SetsOf(piece).Add(set.Slots);
        }

        set.Slots.Add(slot);
    }

    private (Group Group, Sieve Meets) Meets(Piece piece, IReadOnlyList<(string Parameter, string Value)> said)
    {
        if (piece.Length is { } length)
        {
            var group = said[0].Parameter == "laceWidthFrom" ? Group.Lace : Group.Work;
            return (group, Spans.Between(group == Group.Lace ? Spans.LaceWidth : Spans.TuckWidth, length - tolerance, length + tolerance));
        }

        if (piece.Years.Count > 0)
        {
            var decade = said[0].Parameter == "decade" ? Years.OfDecade(said[0].Value) : null;
            int? Year(string name) => said.Where(s => s.Parameter == name).Select(s => Years.Of(s.Value)).FirstOrDefault();
            return (Group.Garment, Sieve.Dated(decade?.From ?? Year("from"), decade?.To ?? Year("to")));
        }

        var parameter = Parameter.Find(said[0].Parameter)!;
        return (parameter.Group, Condition.Of(parameter, said.Select(s => s.Value)).Met);
    }

    private IReadOnlyList<(string Parameter, string Value)> Widths(Piece piece, Group group)
    {
        if (group is Group.Condition or Group.Repair)
        {
            return [];
        }

        var name = group == Group.Lace ? "laceWidth" : "width";
        var least = piece.Length!.Value - tolerance;
        return [($"{name}From", Written(piece, least < Length.Zero ? Length.Zero : least)), ($"{name}To", Written(piece, piece.Length.Value + tolerance))];
    }

    // As she typed it when it is that; else in millimetres, which read back to the very same length.
    private static string Written(Piece piece, Length length) =>
        length == piece.Length ? piece.Written : FormattableString.Invariant($"{length.Millimetres:0.######} mm");

    private Sieve Words(Piece piece, bool isLast)
    {
        if (piece.Length is { } length)
        {
            return Spans.Between(Fields.Length, length - tolerance, length + tolerance);
        }

        var words = piece.Quoted
            ? Sieve.SideBySide(Fields.Text, piece.Tokens.Select(t => t.Stem))
            : Sieve.AllOf([.. Telling(piece).Select(token => Word(token, isLast && halfTyped is not null && token == Telling(piece)[^1]))]);
        var trade = piece.Meanings.Select(m => $"{m.Facet}/{m.Slug}").ToList();
        return trade.Count > 0 ? Sieve.AnyOf([words, Sieve.Of(Fields.Trade, trade)]) : words;
    }

    private static Sieve Word(Token token, bool isHalfTyped)
    {
        var stem = Sieve.Of(Fields.Text, token.Stem);
        return isHalfTyped ? Sieve.AnyOf([stem, Sieve.Beginning(Fields.WholeWords, token.Word)]) : stem;
    }

    /// <summary>The words of a piece without those that say nothing, unless it has no others.</summary>
    private static IReadOnlyList<Token> Telling(Piece piece)
    {
        var telling = piece.Tokens.Where(t => !Analysis.IsStopWord(t.Word)).ToList();
        return telling.Count > 0 ? telling : piece.Tokens;
    }

    private void Score(string q)
    {
        foreach (var token in pieces.Where(p => p.Unwanted == 0).SelectMany(p => p.Tokens).Take(MostScored))
        {
            likeness.Add(new TermQuery(new Term(Fields.Name, token.Stem)) { Boost = 3 });
            likeness.Add(new TermQuery(new Term(Fields.Text, token.Stem)));
        }

        foreach (var word in pieces.Where(p => p.Unwanted == 0).SelectMany(p => p.Meanings).Take(MostScored))
        {
            likeness.Add(new TermQuery(new Term(Fields.Trade, $"{word.Facet}/{word.Slug}")));
        }

        // Her own number, typed whole, is meant before anything else.
        foreach (var number in q.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Take(MostScored).Append(q))
        {
            likeness.Add(new TermQuery(new Term(Fields.NumberTyped, NaturalOrder.Normal(number))) { Boost = 20 });
        }
    }
}
