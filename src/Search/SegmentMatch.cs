using Lucene.Net.Index;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>What of one segment meets a request: the garments, and the entries that made them do so.</summary>
internal sealed class SegmentMatch : IDisposable
{
    private readonly Scratch scratch;
    private readonly ILookup<Group, (string Name, FixedBitSet Bits)> conditions;
    private readonly FixedBitSet typed;
    private readonly FixedBitSet?[] met = new FixedBitSet?[5];

    public SegmentMatch(AtomicReaderContext segment, SearchRequest request, Asked asked)
    {
        Segment = segment;
        Blocks = Blocks.Of(segment);
        scratch = new Scratch(Blocks, segment);
        conditions = request.Conditions.ToLookup(c => c.Group, c => (c.Name, c.Met.BitsOf(scratch)));
        typed = scratch.Copy(Blocks.Living(segment.AtomicReader));
        Meant = asked.Sets.Count == 0 ? typed : scratch.Copy(typed);
        Techniques = scratch.New();
        foreach (var set in asked.Sets)
        {
            typed.And(Take(set));
        }

        foreach (var unwanted in asked.Without)
        {
            TakeAway(unwanted);
        }

        foreach (var group in conditions.Where(c => c.Key != Group.Garment).Select(c => c.Key))
        {
            var entries = Entries(group, null);
            met[(int)group] = GarmentsOf(entries);
            if (group is Group.Work or Group.Lace)
            {
                Techniques.Or(entries);
            }
        }

        Garments = typed;
        if (conditions.Count > 0)
        {
            Garments = scratch.Copy(typed);
            Restrict(Garments, null, null);
        }
    }

    /// <summary>The segment it was asked of.</summary>
    public AtomicReaderContext Segment { get; }

    public Blocks Blocks { get; }

    /// <summary>The garments that meet all that was asked.</summary>
    public FixedBitSet Garments { get; }

    /// <summary>Those that have, as chosen words, all that was understood; they come first.</summary>
    public FixedBitSet Meant { get; }

    /// <summary>The techniques that met the work or the lace group, asked or understood.</summary>
    public FixedBitSet Techniques { get; }

    /// <summary>Whether this parameter was given a value.</summary>
    public bool Asks(Group group, string name) => conditions[group].Any(c => c.Name == name);

    /// <summary>The entries of a group that meet all of it but one parameter.</summary>
    public FixedBitSet Entries(Group group, string? but)
    {
        var asked = conditions[group].Where(c => c.Name != but).ToList();
        if (asked.Count == 0)
        {
            return Blocks.Entries(group);
        }

        var entries = scratch.Copy(Blocks.Entries(group));
        asked.ForEach(c => entries.And(c.Bits));
        return entries;
    }

    /// <summary>The garments that meet all but one parameter of the garment, or all but one whole group of entries.</summary>
    public FixedBitSet Without(Group group, string? but)
    {
        if (group != Group.Garment && met[(int)group] is null)
        {
            return Garments;
        }

        var garments = scratch.Copy(typed);
        Restrict(garments, group, but);
        return garments;
    }

    /// <summary>Those of the garments that have one of these entries of a group.</summary>
    public FixedBitSet With(FixedBitSet garments, Group group, FixedBitSet entries)
    {
        var with = scratch.Copy(entries == Blocks.Entries(group) ? Blocks.Having(group) : GarmentsOf(entries));
        with.And(garments);
        return with;
    }

    /// <summary>Gives its sets back; it is not to be asked any more.</summary>
    public void Dispose() => scratch.Dispose();

    private void Restrict(FixedBitSet garments, Group? group, string? but)
    {
        foreach (var (name, bits) in conditions[Group.Garment])
        {
            if (group != Group.Garment || name != but)
            {
                garments.And(bits);
            }
        }

        for (var other = 0; other < met.Length; other++)
        {
            if (met[other] is { } having && (group is null or Group.Garment || other != (int)group))
            {
                garments.And(having);
            }
        }
    }

    /// <summary>The garments of which the parts of a set hold together on one document: by its word, its label, or by what is said of its garment.</summary>
    private FixedBitSet Take(IReadOnlyList<Slot> set)
    {
        var found = Together(set, out var chosen);
        if (chosen is not null)
        {
            Meant.And(GarmentsOf(chosen));
            if (set[0].Group is Group.Work or Group.Lace)
            {
                Techniques.Or(chosen);
            }
        }

        return found;
    }

    /// <summary>What would be found by the unwanted words is taken away.</summary>
    private void TakeAway(IReadOnlyList<IReadOnlyList<Slot>> unwanted)
    {
        FixedBitSet? all = null;
        foreach (var set in unwanted)
        {
            And(ref all, Together(set, out _));
        }

        if (all is not null)
        {
            typed.AndNot(all);
        }
    }

    private FixedBitSet Together(IReadOnlyList<Slot> set, out FixedBitSet? chosen)
    {
        chosen = null;
        var slots = new List<(FixedBitSet Bits, FixedBitSet Said)>();
        FixedBitSet? garments = null;
        foreach (var slot in set)
        {
            var bits = slot.Words.BitsOf(scratch);
            var said = bits;
            if (set.Count > 1)
            {
                said = scratch.Copy(bits);
                said.And(Blocks.Garments);
            }

            if (slot.Meets is { } meets)
            {
                var having = meets.BitsOf(scratch);
                bits.Or(having);
                And(ref chosen, having);
            }

            slots.Add((bits, said));
            And(ref garments, GarmentsOf(bits));
        }

        if (set.Count == 1)
        {
            return garments!;
        }

        // Only garments that have each part somewhere can have them together.
        FixedBitSet? together = null;
        garments!.And(typed);
        foreach (var (bits, said) in slots)
        {
            said.And(garments);
            Blocks.Spread(said, bits);
            And(ref together, bits);
        }

        var found = GarmentsOf(together!);
        found.And(garments);
        return found;
    }

    private FixedBitSet GarmentsOf(FixedBitSet bits)
    {
        var garments = scratch.New();
        Blocks.GarmentsOf(bits, garments);
        return garments;
    }

    private void And(ref FixedBitSet? all, FixedBitSet bits)
    {
        if (all is null)
        {
            all = scratch.Copy(bits);
        }
        else
        {
            all.And(bits);
        }
    }
}
