using Lucene.Net.Analysis;
using Lucene.Net.Analysis.TokenAttributes;
using Lucene.Net.Documents;
using Lucene.Net.Index;

namespace HeirloomArchive.Search;

/// <summary>Hands words that were cut already to the index, so that a text is cut once for all it is needed for.</summary>
/// <remarks>Its stream is one a thread, as <see cref="TermField"/>'s.</remarks>
internal sealed class WordsField : Field
{
    [ThreadStatic]
    private static WordStream? stream;

    private readonly IReadOnlyList<List<Token>> texts;
    private readonly bool stemmed;

    private WordsField(string name, IReadOnlyList<List<Token>> texts, bool stemmed, FieldType type)
        : base(name, type)
    {
        this.texts = texts;
        this.stemmed = stemmed;
    }

    private static FieldType StemType { get; } = new(TextField.TYPE_NOT_STORED) { IsTokenized = true };

    private static FieldType WholeType { get; } = new(TextField.TYPE_NOT_STORED) { IndexOptions = IndexOptions.DOCS_ONLY, OmitNorms = true };

    /// <summary>The stems of the words, with their places.</summary>
    public static WordsField Stems(string name, IReadOnlyList<List<Token>> texts) => new(name, texts, true, StemType);

    /// <summary>The words as they are, for half-typed ones.</summary>
    public static WordsField Whole(string name, IReadOnlyList<List<Token>> texts) => new(name, texts, false, WholeType);

    public override TokenStream GetTokenStream(Analyzer analyzer) => (stream ??= new WordStream()).Of(texts, stemmed);

    private sealed class WordStream : TokenStream
    {
        private readonly ICharTermAttribute term;
        private readonly IPositionIncrementAttribute step;
        private IReadOnlyList<List<Token>> texts = [];
        private bool stemmed;
        private int text;
        private int word;

        public WordStream()
        {
            term = AddAttribute<ICharTermAttribute>();
            step = AddAttribute<IPositionIncrementAttribute>();
        }

        public WordStream Of(IReadOnlyList<List<Token>> words, bool asStems)
        {
            (texts, stemmed, text, word) = (words, asStems, 0, 0);
            return this;
        }

        public override bool IncrementToken()
        {
            for (; text < texts.Count && word == texts[text].Count; text++)
            {
                word = 0;
            }

            if (text == texts.Count)
            {
                return false;
            }

            ClearAttributes();
            var token = texts[text][word];
            // A step over nothing between two texts: a quotation does not run on from one to the next.
            step.PositionIncrement = word == 0 ? 2 : 1;
            term.Append(stemmed ? token.Stem : token.Word);
            word++;
            return true;
        }
    }
}
