using System.Globalization;
using Lucene.Net.Analysis;
using Lucene.Net.Analysis.TokenAttributes;
using Lucene.Net.Documents;

namespace HeirloomArchive.Search;

/// <summary>A value that is one term, not stored.</summary>
/// <remarks>Its stream is one a thread: Lucene.NET looks the classes of every new stream's attributes up by name, behind one lock.</remarks>
internal sealed class TermField(string name, string value) : Field(name, value, StringField.TYPE_NOT_STORED)
{
    [ThreadStatic]
    private static OneTerm? stream;

    public override TokenStream GetTokenStream(Analyzer analyzer) => (stream ??= new OneTerm()).With(GetStringValue(CultureInfo.InvariantCulture));

    private sealed class OneTerm : TokenStream
    {
        private readonly ICharTermAttribute term;
        private string? next;

        public OneTerm() => term = AddAttribute<ICharTermAttribute>();

        public OneTerm With(string value)
        {
            next = value;
            return this;
        }

        public override bool IncrementToken()
        {
            ClearAttributes();
            (var value, next) = (next, null);
            term.Append(value);
            return value is not null;
        }
    }
}
