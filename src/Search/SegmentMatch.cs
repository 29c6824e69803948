using Lucene.Net.Index;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>What of one segment meets a request: the garments, and the entries that made them do so.</summary>
internal sealed class SegmentMatch
{
    private readonly AtomicReaderContext segment;
    private readonly Blocks blocks;
    private readonly ILookup<Group, (string Name, FixedBitSet Bits)> conditions;
    private readonly FixedBitSet typed;
    private readonly FixedBitSet?[] met = new FixedBitSet?[5];

    public SegmentMatch(AtomicReaderContext segment, SearchRequest request, Asked asked)
    {
        this.segment = segment;
        blocks = Blocks.Of(segment);
        conditions = request.Conditions.ToLookup(c => c.Group, c => (c.Name, Blocks.BitsOf(segment, c)));
        typed = blocks.Living(segment);
        Meant = typed.Clone();
        Techniques = new FixedBitSet(segment.AtomicReader.MaxDoc);
        foreach (var set in asked.Sets)
        {
            Take(set);
        }

        foreach (var group in conditions.Where(c => c.Key != Group.Garment).Select(c => c.Key))
        {
            var entries = Entries(group, null);
            met[(int)group] = blocks.GarmentsOf(entries);
            if (group is Group.Work or Group.Lace)
            {
                Techniques.Or(entries);
            }
        }

        Garments = Without(Group.Garment, null);
    }

    /// <summary>The segment it was asked of.</summary>
    public AtomicReaderContext Segment => segment;

    /// <summary>The garments that meet all that was asked.</summary>
    public FixedBitSet Garments { get; }

    /// <summary>Those that have, as chosen words, all that was understood; they come first.</summary>
    public FixedBitSet Meant { get; }

    /// <summary>The techniques that met the work or the lace group, asked or understood.</summary>
    public FixedBitSet Techniques { get; }

    public Blocks Blocks => blocks;

    /// <summary>Whether this parameter was given a value.</summary>
    public bool Asks(Group group, string name) => conditions[group].Any(c => c.Name == name);

    /// <summary>The entries of a group that meet all of it but one parameter.</summary>
    public FixedBitSet Entries(Group group, string? but)
    {
        var entries = blocks.Entries(group).Clone();
        foreach (var (name, bits) in conditions[group])
        {
            if (name != but)
            {
                entries.And(bits);
            }
        }

        return entries;
    }

    /// <summary>The garments that meet all but one parameter of the garment, or all but one whole group of entries.</summary>
    public FixedBitSet Without(Group group, string? but)
    {
        var garments = typed.Clone();
        foreach (var (name, bits) in conditions[Group.Garment])
        {
            if (group != Group.Garment || name != but)
            {
                garments.And(bits);
            }
        }

        for (var other = 0; other < met.Length; other++)
        {
            if (met[other] is { } having && (group == Group.Garment || other != (int)group))
            {
                garments.And(having);
            }
        }

        return garments;
    }

    /// <summary>The parts of a set hold together on one document: by its word, its label, or by what is said of its garment.</summary>
    private void Take(IReadOnlyList<Slot> set)
    {
        FixedBitSet? together = null, chosen = null;
        foreach (var slot in set)
        {
            var bits = Blocks.BitsOf(segment, slot.Words);
            var said = bits.Clone();
            said.And(blocks.Garments);
            blocks.Spread(said, bits);
            if (slot.Meets is { } meets)
            {
                var having = Blocks.BitsOf(segment, meets);
                bits.Or(having);
                And(ref chosen, having);
            }

            And(ref together, bits);
        }

        typed.And(blocks.GarmentsOf(together!));
        if (chosen is not null)
        {
            Meant.And(blocks.GarmentsOf(chosen));
            if (set[0].Group is Group.Work or Group.Lace)
            {
                Techniques.Or(chosen);
            }
        }
    }

    private static void And(ref FixedBitSet? all, FixedBitSet bits)
    {
        if (all is null)
        {
            all = bits.Clone();
        }
        else
        {
            all.And(bits);
        }
    }
}
