using Lucene.Net.Index;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>The first and last year each garment of a segment may be of.</summary>
internal sealed class Dates
{
    private readonly short[] from;
    private readonly short[] to;
    private readonly FixedBitSet dated;

    public Dates(AtomicReader reader, FixedBitSet garments)
    {
        (from, to, dated) = (new short[reader.MaxDoc], new short[reader.MaxDoc], new FixedBitSet(reader.MaxDoc));
        var (first, last) = (reader.GetNumericDocValues(Fields.YearFrom), reader.GetNumericDocValues(Fields.YearTo));
        if (first is null || last is null)
        {
            return;
        }

        var has = reader.GetDocsWithField(Fields.YearFrom);
        for (var garment = garments.NextSetBit(0); garment >= 0; garment = Blocks.Next(garments, garment))
        {
            if (has.Get(garment))
            {
                dated.Set(garment);
                from[garment] = Short(first.Get(garment));
                to[garment] = Short(last.Get(garment));
            }
        }
    }

    /// <summary>Adds the dated garments whose span overlaps these years.</summary>
    public void AddBetween(int first, int last, FixedBitSet into)
    {
        for (var garment = dated.NextSetBit(0); garment >= 0; garment = Blocks.Next(dated, garment))
        {
            if (to[garment] >= first && from[garment] <= last)
            {
                into.Set(garment);
            }
        }
    }

    /// <summary>How many of the garments may be of each decade, from the first to the last one given (1900 / 10).</summary>
    public int[] CountDecades(FixedBitSet garments, int first, int last)
    {
        var rises = new int[last - first + 2];
        for (var garment = garments.NextSetBit(0); garment >= 0; garment = Blocks.Next(garments, garment))
        {
            // A span adds one from its first decade on and takes it away after its last.
            var (begins, ends) = (Math.Max(Floor(from[garment]), first), Math.Min(Floor(to[garment]), last));
            if (begins <= ends && dated.Get(garment))
            {
                rises[begins - first]++;
                rises[ends + 1 - first]--;
            }
        }

        for (var decade = 1; decade < rises.Length; decade++)
        {
            rises[decade] += rises[decade - 1];
        }

        return rises[..^1];
    }

    private static short Short(long year) => (short)Math.Clamp(year, short.MinValue, short.MaxValue);

    private static int Floor(int year) => (int)Math.Floor(year / 10.0);
}
