using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>What was typed, with the words that stand nowhere put right: tried only when nothing was found, and always said.</summary>
internal sealed class Misspelt
{
    private const int ShortestWord = 4;
    private const int ShortestWithTwo = 7;
    private const int MostWords = 8;

    private readonly string meant;
    private readonly List<(string Typed, string Right)> words;

    private Misspelt(string meant, List<(string Typed, string Right)> words) => (this.meant, this.words) = (meant, words);

    /// <summary>The same with its unknown words put right; null when none is unknown, or one is like nothing here.</summary>
    public static Misspelt? Of(string q, IndexReader reader)
    {
        var unknown = Reader.Pieces(q).Where(p => p is { Meanings.Count: 0, Length: null, Years.Count: 0, Quoted: false, Unwanted: 0 })
            .SelectMany(p => p.Tokens).Where(t => !IsKnown(t, reader)).Take(MostWords).ToList();
        var (meant, words) = (q, new List<(string, string)>());
        foreach (var token in Enumerable.Reverse(unknown))
        {
            if (Nearest(token.Word, reader) is not { } right)
            {
                return null;
            }

            words.Insert(0, (q[token.Start..token.End], right));
            meant = meant[..token.Start] + right + meant[token.End..];
        }

        return words.Count > 0 ? new Misspelt(meant, words) : null;
    }

    /// <summary>What it asks then; its understood parts are told in the words that were typed.</summary>
    public Asked Read(Sewing.Length tolerance)
    {
        var asked = Search.Typed.Read(meant, tolerance);
        return asked with
        {
            Understood =
            [
                .. words.Select(w => new Suggestion(w.Typed, Suggestion.Typed, w.Right)),
                .. asked.Understood.Select(u => u with { Text = words.Aggregate(u.Text, (text, w) => text.Replace(w.Right, w.Typed, StringComparison.Ordinal)) }),
            ],
        };
    }

    private static bool IsKnown(Token token, IndexReader reader) => Analysis.IsStopWord(token.Word)
        || reader.DocFreq(new Term(Fields.Text, token.Stem)) > 0 || Vocabulary.Trade.Words.Contains(token.Word);

    private static string? Nearest(string word, IndexReader reader)
    {
        if (word.Length < ShortestWord || word.Any(char.IsAsciiDigit))
        {
            return null;
        }

        var most = word.Length < ShortestWithTwo ? 1 : 2;
        var candidates = Vocabulary.Trade.Words.Where(w => Math.Abs(w.Length - word.Length) <= most).Select(w => (Word: w, Count: 1));
        if (MultiFields.GetTerms(reader, Fields.WholeWords) is { } terms)
        {
            candidates = candidates.Concat(Near(new FuzzyTermsEnum(terms, new AttributeSource(), new Term(Fields.WholeWords, word), most, 0, true)));
        }

        return candidates.Select(c => (c.Word, c.Count, Distance: Catalogue.Words.Distance(word, c.Word))).Where(c => c.Distance <= most)
            .OrderBy(c => c.Distance).ThenBy(c => c.Word[0] == word[0] ? 0 : 1).ThenByDescending(c => c.Count).ThenBy(c => c.Word, StringComparer.Ordinal)
            .Select(c => c.Word).FirstOrDefault();
    }

    private static IEnumerable<(string Word, int Count)> Near(FuzzyTermsEnum terms)
    {
        while (terms.MoveNext())
        {
            yield return (terms.Term.Utf8ToString(), terms.DocFreq);
        }
    }
}
