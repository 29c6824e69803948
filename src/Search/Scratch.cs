using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>Bit sets of one segment for the time of one answer, given back afterwards: at a million garments each is too large to throw away.</summary>
internal sealed class Scratch(Blocks segment) : IDisposable
{
    private readonly List<FixedBitSet> lent = [];

    /// <summary>A set of the segment's documents, all clear.</summary>
    public FixedBitSet New()
    {
        var bits = Lend();
        bits.GetBits().AsSpan().Clear();
        return bits;
    }

    /// <summary>A set with the bits of another.</summary>
    public FixedBitSet Copy(FixedBitSet of)
    {
        var bits = Lend();
        of.GetBits().CopyTo(bits.GetBits().AsSpan());
        return bits;
    }

    public void Dispose()
    {
        lent.ForEach(segment.Spare.Add);
        lent.Clear();
    }

    private FixedBitSet Lend()
    {
        var bits = segment.Spare.TryTake(out var spare) ? spare : new FixedBitSet(segment.Documents);
        lent.Add(bits);
        return bits;
    }
}
