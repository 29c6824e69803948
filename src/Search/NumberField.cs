using Lucene.Net.Analysis;
using Lucene.Net.Documents;

namespace HeirloomArchive.Search;

/// <summary>A whole number that can be asked for by a range, not stored; its stream is one a thread, as <see cref="TermField"/>'s.</summary>
internal sealed class NumberField : Field
{
    [ThreadStatic]
    private static NumericTokenStream? stream;

    private readonly long value;

    private NumberField(string name, long value, FieldType type)
        : base(name, type) => this.value = value;

    /// <summary>One asked by a range of 64 bits: lengths in nanometres.</summary>
    public static NumberField Long(string name, long value) => new(name, value, Int64Field.TYPE_NOT_STORED);

    /// <summary>One asked by a range of 32 bits: years.</summary>
    public static NumberField Int(string name, int value) => new(name, value, Int32Field.TYPE_NOT_STORED);

    public override TokenStream GetTokenStream(Analyzer analyzer)
    {
        stream ??= new NumericTokenStream(Int64Field.TYPE_NOT_STORED.NumericPrecisionStep);
        return m_type.NumericType == Lucene.Net.Documents.NumericType.INT32 ? stream.SetInt32Value((int)value) : stream.SetInt64Value(value);
    }
}
