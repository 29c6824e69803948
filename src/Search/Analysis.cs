using Lucene.Net.Analysis.Core;
using Lucene.Net.Analysis.En;
using Lucene.Net.Analysis.Miscellaneous;
using Lucene.Net.Analysis.Standard;
using Lucene.Net.Analysis.TokenAttributes;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>One word of a text: its stem ("dress" of "dresses"), itself without accents and capitals, and where it stands.</summary>
internal readonly record struct Token(string Stem, string Word, int Start, int End);

/// <summary>How text is cut into words: the same for what is recorded and for what is typed.</summary>
internal static class Analysis
{
    public const LuceneVersion Version = LuceneVersion.LUCENE_48;

    // One chain a thread: it is asked for every sentence of every record.
    [ThreadStatic]
    private static Chain? chain;

    /// <summary>Words that say nothing by themselves; asked for only within quotes, or when nothing else was typed.</summary>
    public static bool IsStopWord(string word) => EnglishAnalyzer.DefaultStopSet.Contains(word) || word == "from";

    /// <summary>The words of a text in order.</summary>
    public static List<Token> Tokens(string text)
    {
        var tokens = new List<Token>();
        if (text.Length > 0)
        {
            (chain ??= new Chain()).Read(text, tokens);
        }

        return tokens;
    }

    /// <summary>StandardTokenizer, without possessive, capitals and accents, British spelling; then Porter's stems.</summary>
    private sealed class Chain : IDisposable
    {
        private readonly StandardTokenizer source = new(Version, TextReader.Null);
        private readonly Spelling words;
        private readonly PorterStemFilter stems;
        private readonly ICharTermAttribute term;
        private readonly IOffsetAttribute offset;

        public Chain()
        {
            words = new Spelling(new ASCIIFoldingFilter(new LowerCaseFilter(Version, new EnglishPossessiveFilter(Version, source))));
            stems = new PorterStemFilter(words);
            term = stems.AddAttribute<ICharTermAttribute>();
            offset = stems.AddAttribute<IOffsetAttribute>();
        }

        public void Read(string text, List<Token> tokens)
        {
            source.SetReader(new StringReader(text));
            stems.Reset();
            while (stems.IncrementToken())
            {
                tokens.Add(new Token(term.ToString(), words.Word, offset.StartOffset, offset.EndOffset));
            }

            stems.End();
            stems.Dispose();
        }

        public void Dispose() => stems.Dispose();
    }
}
