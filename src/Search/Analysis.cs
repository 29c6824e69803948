using Lucene.Net.Analysis;
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
internal sealed class Analysis(bool stemmed) : Analyzer
{
    public const LuceneVersion Version = LuceneVersion.LUCENE_48;

    public static readonly Analysis Stems = new(stemmed: true);
    public static readonly Analysis WholeWords = new(stemmed: false);

    /// <summary>Words that say nothing by themselves; asked for only within quotes, or when nothing else was typed.</summary>
    public static bool IsStopWord(string word) => EnglishAnalyzer.DefaultStopSet.Contains(word) || word == "from";

    /// <summary>The words of a text in order.</summary>
    public static List<Token> Tokens(string text)
    {
        var words = Read(WholeWords, text);
        var stems = Read(Stems, text);
        return [.. words.Zip(stems, (word, stem) => new Token(stem.Word, word.Word, word.Start, word.End))];
    }

    protected override TokenStreamComponents CreateComponents(string fieldName, TextReader reader)
    {
        var source = new StandardTokenizer(Version, reader);
        TokenStream words = new EnglishPossessiveFilter(Version, source);
        words = new ASCIIFoldingFilter(new LowerCaseFilter(Version, words));
        return new TokenStreamComponents(source, stemmed ? new PorterStemFilter(words) : words);
    }

    private static List<Token> Read(Analysis analysis, string text)
    {
        var tokens = new List<Token>();
        using var stream = analysis.GetTokenStream("", text);
        var term = stream.AddAttribute<ICharTermAttribute>();
        var offset = stream.AddAttribute<IOffsetAttribute>();
        stream.Reset();
        while (stream.IncrementToken())
        {
            var word = term.ToString();
            tokens.Add(new Token(word, word, offset.StartOffset, offset.EndOffset));
        }

        stream.End();
        return tokens;
    }
}
