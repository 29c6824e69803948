using Lucene.Net.Analysis;
using Lucene.Net.Analysis.TokenAttributes;

namespace HeirloomArchive.Search;

/// <summary>Hands words that were cut already to the index, so that a text is cut once for all it is needed for.</summary>
internal sealed class WordStream : TokenStream
{
    private readonly IReadOnlyList<List<Token>> texts;
    private readonly bool stemmed;
    private readonly ICharTermAttribute term;
    private readonly IPositionIncrementAttribute step;
    private int text;
    private int word;

    public WordStream(IReadOnlyList<List<Token>> texts, bool stemmed)
    {
        this.texts = texts;
        this.stemmed = stemmed;
        term = AddAttribute<ICharTermAttribute>();
        step = AddAttribute<IPositionIncrementAttribute>();
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

    public override void Reset()
    {
        base.Reset();
        (text, word) = (0, 0);
    }
}
