using Lucene.Net.Index;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>Bit sets of one segment for the time of one answer, given back afterwards: at a million garments each is too large to throw away.</summary>
internal sealed class Scratch(Blocks blocks, AtomicReaderContext segment) : IDisposable
{
    private readonly List<FixedBitSet> lent = [];

    /// <summary>The segment as this answer sees it.</summary>
    public AtomicReaderContext Segment => segment;

    /// <summary>Its blocks.</summary>
    public Blocks Blocks => blocks;

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
        lent.ForEach(blocks.Spare.Add);
        lent.Clear();
    }

    private FixedBitSet Lend()
    {
        var bits = blocks.Spare.TryTake(out var spare) ? spare : new FixedBitSet(blocks.Documents);
        lent.Add(bits);
        return bits;
    }
}
