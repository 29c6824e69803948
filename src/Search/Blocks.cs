using System.Runtime.CompilerServices;
using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>The garments of one segment of the index as bits: an entry stands before its garment, the garment ends its block.</summary>
internal sealed class Blocks
{
    // A segment's documents never change, only which of them still live; so its blocks are read once.
    private static readonly ConditionalWeakTable<object, Blocks> Known = [];

    private readonly Dictionary<Group, FixedBitSet> entries = [];

    private Blocks(AtomicReaderContext segment)
    {
        Garments = BitsOf(segment, new QueryWrapperFilter(new TermQuery(new Term(Fields.Kind, Fields.Parent))));
        foreach (var group in Enum.GetValues<Group>().Where(g => g != Group.Garment))
        {
            entries[group] = BitsOf(segment, new QueryWrapperFilter(new TermQuery(new Term(Fields.Group, group.ToString()))));
        }
    }

    /// <summary>The last document of each block.</summary>
    public FixedBitSet Garments { get; }

    public static Blocks Of(AtomicReaderContext segment) => Known.GetValue(segment.AtomicReader.CoreCacheKey, _ => new Blocks(segment));

    /// <summary>The documents one filter lets through, as bits.</summary>
    public static FixedBitSet BitsOf(AtomicReaderContext segment, Filter filter)
    {
        var bits = new FixedBitSet(segment.AtomicReader.MaxDoc);
        if (filter.GetDocIdSet(segment, null)?.GetIterator() is { } iterator)
        {
            bits.Or(iterator);
        }

        return bits;
    }

    /// <summary>The documents that any of the filters lets through.</summary>
    public static FixedBitSet BitsOf(AtomicReaderContext segment, Condition condition)
    {
        var bits = new FixedBitSet(segment.AtomicReader.MaxDoc);
        foreach (var filter in condition.Any)
        {
            bits.Or(BitsOf(segment, filter));
        }

        return bits;
    }

    /// <summary>The entries that a group asks.</summary>
    public FixedBitSet Entries(Group group) => entries[group];

    /// <summary>The garments that have not been replaced or set aside.</summary>
    public FixedBitSet Living(AtomicReaderContext segment)
    {
        var living = Garments.Clone();
        if (segment.AtomicReader.LiveDocs is { } live)
        {
            foreach (var garment in Each(Garments))
            {
                if (!live.Get(garment))
                {
                    living.Clear(garment);
                }
            }
        }

        return living;
    }

    /// <summary>The garments of these entries.</summary>
    public FixedBitSet GarmentsOf(FixedBitSet bits)
    {
        var garments = new FixedBitSet(bits.Length);
        for (var document = bits.NextSetBit(0); document >= 0;)
        {
            var garment = GarmentOf(document);
            garments.Set(garment);
            document = garment + 1 < bits.Length ? bits.NextSetBit(garment + 1) : -1;
        }

        return garments;
    }

    /// <summary>The entries of these garments, added to <paramref name="into"/>.</summary>
    public void Spread(FixedBitSet garments, FixedBitSet into)
    {
        foreach (var garment in Each(garments))
        {
            into.Set(FirstOf(garment), garment);
        }
    }

    public int GarmentOf(int document) => Garments.NextSetBit(document);

    /// <summary>Where a garment's block begins.</summary>
    public int FirstOf(int garment) => garment == 0 ? 0 : Garments.PrevSetBit(garment - 1) + 1;

    public static IEnumerable<int> Each(FixedBitSet bits)
    {
        for (var at = bits.NextSetBit(0); at >= 0; at = at + 1 < bits.Length ? bits.NextSetBit(at + 1) : -1)
        {
            yield return at;
        }
    }
}
