using System.Numerics;
using Lucene.Net.Index;
using Lucene.Net.Search;

namespace HeirloomArchive.Search;

/// <summary>A facet's values in one segment, by document, in as few bytes as they need: counting is reading an array.</summary>
internal abstract class Column(string name, string[] values)
{
    /// <summary>The facet.</summary>
    public string Name => name;

    /// <summary>Its values in the segment; a document's are told by their place here.</summary>
    public IReadOnlyList<string> Values => values;

    /// <summary>Reads the column of a field from the lists of its values.</summary>
    public static Column Of(AtomicReader reader, string field)
    {
        var terms = reader.GetTerms(field);
        return (terms?.Count ?? 0) switch
        {
            >= 0 and < byte.MaxValue => new Narrow<byte>(field, reader, terms),
            >= 0 and < ushort.MaxValue => new Narrow<ushort>(field, reader, terms),
            _ => new Narrow<int>(field, reader, terms),
        };
    }

    /// <summary>Counts the values of these documents into the tally, each garment once a value; documents of one garment follow each other.</summary>
    public abstract void Count(ReadOnlySpan<int> documents, ReadOnlySpan<int> garments, Tally tally);

    /// <summary>The places of a document's values among <see cref="Values"/>.</summary>
    public abstract ReadOnlySpan<int> Of(int document, Span<int> room);

    /// <summary>What a document's values cost, the least of several; <paramref name="absent"/> when it has none.</summary>
    public abstract float Least(int document, float[] costs, float absent);

    private sealed class Narrow<T> : Column where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
    {
        // 0: no value; the greatest: several, which stand aside; else one more than the value's place.
        private readonly T[] first;
        private readonly Dictionary<int, int[]> several;

        public Narrow(string field, AtomicReader reader, Terms? terms) : this(field, Read(reader, terms))
        {
        }

        private Narrow(string field, (string[] Values, T[] First, Dictionary<int, int[]> Several) read) : base(field, read.Values) =>
            (first, several) = (read.First, read.Several);

        public override void Count(ReadOnlySpan<int> documents, ReadOnlySpan<int> garments, Tally tally)
        {
            var (counts, last) = (tally.Counts, tally.Last);
            for (var i = 0; i < documents.Length; i++)
            {
                var value = first[documents[i]];
                if (T.IsZero(value))
                {
                    continue;
                }

                if (value == T.MaxValue)
                {
                    foreach (var one in several[documents[i]])
                    {
                        Add(one, garments[i]);
                    }
                }
                else
                {
                    Add(int.CreateTruncating(value) - 1, garments[i]);
                }
            }

            void Add(int place, int garment)
            {
                if (last[place] != garment)
                {
                    last[place] = garment;
                    counts[place]++;
                }
            }
        }

        public override float Least(int document, float[] costs, float absent)
        {
            var value = first[document];
            return T.IsZero(value) ? absent : value == T.MaxValue ? several[document].Min(place => costs[place]) : costs[int.CreateTruncating(value) - 1];
        }

        public override ReadOnlySpan<int> Of(int document, Span<int> room)
        {
            var value = first.Length == 0 ? T.Zero : first[document];
            if (value == T.MaxValue)
            {
                return several[document];
            }

            room[0] = int.CreateTruncating(value) - 1;
            return T.IsZero(value) ? [] : room[..1];
        }

        private static (string[], T[], Dictionary<int, int[]>) Read(AtomicReader reader, Terms? terms)
        {
            var values = new List<string>();
            var several = new Dictionary<int, int[]>();
            var first = new T[terms is null ? 0 : reader.MaxDoc];
            DocsEnum? documents = null;
            for (var all = terms?.GetEnumerator(); all is not null && all.MoveNext();)
            {
                var place = values.Count;
                values.Add(all.Term.Utf8ToString());
                documents = all.Docs(null, documents, DocsFlags.NONE);
                for (int document; (document = documents.NextDoc()) != DocIdSetIterator.NO_MORE_DOCS;)
                {
                    if (T.IsZero(first[document]))
                    {
                        first[document] = T.CreateTruncating(place + 1);
                    }
                    else
                    {
                        several[document] = several.TryGetValue(document, out var before)
                            ? [.. before, place]
                            : [int.CreateTruncating(first[document]) - 1, place];
                        first[document] = T.MaxValue;
                    }
                }
            }

            return ([.. values], first, several);
        }
    }
}

/// <summary>Counts of the values of one column.</summary>
internal sealed class Tally
{
    public Tally(Column column)
    {
        Counts = new int[column.Values.Count];
        Last = new int[column.Values.Count];
        Array.Fill(Last, -1);
    }

    /// <summary>Garments by value.</summary>
    public int[] Counts { get; }

    /// <summary>The garment that was counted last, by value.</summary>
    public int[] Last { get; }
}
