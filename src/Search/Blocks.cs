using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Lucene.Net.Index;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>One segment of the index as bits and columns: an entry stands before its garment, the garment ends its block.</summary>
internal sealed class Blocks
{
    // Enough for every value of the facets and the commonest words; at a million garments about half a megabyte each.
    private const int MostKept = 160;

    // A segment's documents never change, only which of them still live; so its blocks are read once.
    private static readonly ConditionalWeakTable<object, Blocks> Known = [];
    private static readonly ConditionalWeakTable<AtomicReader, FixedBitSet> KnownLiving = [];

    private readonly Dictionary<Group, FixedBitSet> entries = [];
    private readonly Dictionary<Group, FixedBitSet> having = [];
    private readonly ConcurrentDictionary<string, KeptBits> kept = new();
    private readonly ConcurrentDictionary<string, Column> columns = new();
    private Dates? dates;
    private long asked;

    private Blocks(AtomicReaderContext segment)
    {
        Documents = segment.AtomicReader.MaxDoc;
        using var scratch = new Scratch(this, segment);
        Garments = new FixedBitSet(Documents);
        Sieve.Of(Fields.Kind, Fields.Parent).AddTo(Garments, scratch);
        foreach (var group in Enum.GetValues<Group>().Where(g => g != Group.Garment))
        {
            entries[group] = new FixedBitSet(Documents);
            Sieve.Of(Fields.Group, group.ToString()).AddTo(entries[group], scratch);
            having[group] = new FixedBitSet(Documents);
            GarmentsOf(entries[group], having[group]);
        }
    }

    /// <summary>How many documents the segment has, living or not.</summary>
    public int Documents { get; }

    /// <summary>Sets that are not in use, see <see cref="Scratch"/>.</summary>
    public ConcurrentBag<FixedBitSet> Spare { get; } = [];

    /// <summary>The last document of each block.</summary>
    public FixedBitSet Garments { get; }

    public static Blocks Of(AtomicReaderContext segment) => Known.GetValue(segment.AtomicReader.CoreCacheKey, _ => new Blocks(segment));

    /// <summary>The entries that a group asks.</summary>
    public FixedBitSet Entries(Group group) => entries[group];

    /// <summary>The garments that have such entries.</summary>
    public FixedBitSet Having(Group group) => having[group];

    // What is read once is read by the reader at hand: an older one of the same segment may be closed by now.

    /// <summary>The years of each garment.</summary>
    public Dates Dates(AtomicReader reader) => LazyInitializer.EnsureInitialized(ref dates, () => new Dates(reader, Garments));

    /// <summary>The values of a facet, one document after the other.</summary>
    public Column Column(string facet, AtomicReader reader) => columns.GetOrAdd(facet, name => Search.Column.Of(reader, name));

    /// <summary>Reads all that answers need of the segment, so that the first to ask need not wait.</summary>
    public void Warm(AtomicReader reader)
    {
        _ = Dates(reader);
        foreach (var facet in Parameter.All.Where(p => p.Facet))
        {
            _ = Column(facet.Name, reader);
        }
    }

    /// <summary>The garments of one state of the segment that have not been replaced or set aside; not to be changed.</summary>
    public FixedBitSet Living(AtomicReader reader) => reader.LiveDocs is not { } live ? Garments : KnownLiving.GetValue(reader, _ =>
    {
        var living = Garments.Clone();
        for (var garment = Garments.NextSetBit(0); garment >= 0; garment = Next(Garments, garment))
        {
            if (!live.Get(garment))
            {
                living.Clear(garment);
            }
        }

        return living;
    });

    /// <summary>A set kept under this name, not to be changed; null when none is.</summary>
    public FixedBitSet? Kept(string key)
    {
        if (!kept.TryGetValue(key, out var found))
        {
            return null;
        }

        found.Asked = Interlocked.Increment(ref asked);
        return found.Bits;
    }

    /// <summary>Keeps a set; the one that was not asked for the longest time makes room.</summary>
    public void Keep(string key, FixedBitSet bits)
    {
        kept[key] = new KeptBits(bits) { Asked = Interlocked.Increment(ref asked) };
        if (kept.Count > MostKept)
        {
            kept.TryRemove(kept.MinBy(k => k.Value.Asked).Key, out _);
        }
    }

    /// <summary>Writes the garments of these entries, and those named themselves, over <paramref name="garments"/>.</summary>
    public void GarmentsOf(FixedBitSet bits, FixedBitSet garments)
    {
        var (from, ends, to) = (bits.GetBits(), Garments.GetBits(), garments.GetBits());
        var words = FixedBitSet.Bits2words(Documents);
        ulong carry = 0;
        for (var i = 0; i < words; i++)
        {
            // Added to the ones between two ends of blocks, an entry carries up to its block's end, and no farther.
            var end = (ulong)ends[i];
            var between = ~end;
            var sum = between + ((ulong)from[i] & between);
            var over = sum < between ? 1UL : 0;
            var all = sum + carry;
            carry = over | (all < sum ? 1UL : 0);
            to[i] = (long)((all | (ulong)from[i]) & end);
        }
    }

    /// <summary>The entries of these garments, added to <paramref name="into"/>.</summary>
    public void Spread(FixedBitSet garments, FixedBitSet into)
    {
        for (var garment = garments.NextSetBit(0); garment >= 0; garment = Next(garments, garment))
        {
            into.Set(FirstOf(garment), garment);
        }
    }

    /// <summary>Where a garment's block begins.</summary>
    public int FirstOf(int garment) => garment == 0 ? 0 : Garments.PrevSetBit(garment - 1) + 1;

    /// <summary>The next set bit, -1 after the last.</summary>
    public static int Next(FixedBitSet bits, int after) => after + 1 < bits.Length ? bits.NextSetBit(after + 1) : -1;

    private sealed record KeptBits(FixedBitSet Bits)
    {
        public long Asked { get; set; }
    }
}
