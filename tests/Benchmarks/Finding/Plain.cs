using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Store;
using Lucene.Net.Util;

namespace HeirloomArchive.Benchmarks.Finding;

/// <summary>
/// The yardstick: the same question asked of the same index by bare Lucene.Net, as its books would have it: term queries, a step from
/// entries to garments, the best 20, and counts by plain loops over doc values. It knows nothing of the room's bit sets and columns.
/// </summary>
internal sealed class Plain : IDisposable
{
    private static readonly Dictionary<string, string> GroupOf = new()
    {
        ["tuckKind"] = "Work", ["sewn"] = "Work", ["part"] = "Work", ["lace"] = "Lace", ["lacePart"] = "Lace", ["laceMade"] = "Lace",
        ["condition"] = "Condition", ["severity"] = "Condition",
    };

    private readonly FSDirectory directory;
    private readonly DirectoryReader reader;
    private readonly IndexSearcher searcher;
    private readonly Filter parents = new CachingWrapperFilter(new QueryWrapperFilter(new TermQuery(new Term("doc", "garment"))));

    public Plain(string folder)
    {
        directory = FSDirectory.Open(folder);
        reader = DirectoryReader.Open(directory);
        searcher = new IndexSearcher(reader);
    }

    /// <returns>How many garments meet the question; the facets are counted and thrown away.</returns>
    public (int Total, Dictionary<string, Dictionary<string, int>> Facets) Ask(Question question)
    {
        var found = new Bits(this, question, null, null);
        searcher.Search(new ConstantScoreQuery(found), null, 20, new Sort(new SortField("byNumber", SortFieldType.STRING)));
        return (found.Total(), Questions.Facets.ToDictionary(f => f, f => Count(question, f)));
    }

    public void Dispose()
    {
        reader.Dispose();
        directory.Dispose();
    }

    private Dictionary<string, int> Count(Question question, string facet)
    {
        var counts = new Dictionary<string, int>();
        var isChosen = question.Given.Any(g => g.Name == facet);
        var group = GroupOf.GetValueOrDefault(facet);
        var garments = new Bits(this, question, isChosen && group is null ? facet : null, group);
        var own = group is null ? null : Entries(question, group, facet);
        foreach (var leaf in reader.Leaves)
        {
            // Ours keeps no doc values of them; Lucene.Net's own, held in memory.
            var values = FieldCache.DEFAULT.GetDocTermOrds(leaf.AtomicReader, facet);
            if (values is null)
            {
                continue;
            }

            var bits = garments.Of(leaf);
            var seen = new int[values.ValueCount];
            var last = new int[values.ValueCount];
            Array.Fill(last, -1);
            var parentBits = new FixedBitSet(leaf.AtomicReader.MaxDoc);
            parentBits.Or(parents.GetDocIdSet(leaf, null).GetIterator());
            var documents = group is null ? bits.GetIterator() : new QueryWrapperFilter(own).GetDocIdSet(leaf, leaf.AtomicReader.LiveDocs)?.GetIterator();
            for (var document = documents?.NextDoc() ?? DocIdSetIterator.NO_MORE_DOCS; document != DocIdSetIterator.NO_MORE_DOCS; document = documents!.NextDoc())
            {
                var garment = group is null ? document : parentBits.NextSetBit(document);
                if (!bits.Get(garment))
                {
                    continue;
                }

                values.SetDocument(document);
                for (long value; (value = values.NextOrd()) != SortedSetDocValues.NO_MORE_ORDS;)
                {
                    if (last[value] != garment)
                    {
                        last[value] = garment;
                        seen[value]++;
                    }
                }
            }

            var bytes = new BytesRef();
            for (var value = 0; value < seen.Length; value++)
            {
                if (seen[value] > 0)
                {
                    values.LookupOrd(value, bytes);
                    var text = bytes.Utf8ToString();
                    counts[text] = counts.GetValueOrDefault(text) + seen[value];
                }
            }
        }

        return counts;
    }

    private static BooleanQuery Entries(Question question, string group, string? but)
    {
        var entries = new BooleanQuery { { new TermQuery(new Term("group", group)), Occur.MUST } };
        foreach (var (name, value) in question.Given.Where(g => GroupOf.GetValueOrDefault(g.Name) == group && g.Name != but))
        {
            entries.Add(new TermQuery(new Term(name, value)), Occur.MUST);
        }

        return entries;
    }

    /// <summary>The garments of a question, without one parameter or one group.</summary>
    private sealed class Bits(Plain plain, Question question, string? but, string? butGroup) : Filter
    {
        public int Total() => plain.reader.Leaves.Sum(leaf => Of(leaf).Cardinality);

        public FixedBitSet Of(AtomicReaderContext leaf) => (FixedBitSet)GetDocIdSet(leaf, null!);

        public override DocIdSet GetDocIdSet(AtomicReaderContext context, IBits acceptDocs)
        {
            var live = context.AtomicReader.LiveDocs;
            var bits = new FixedBitSet(context.AtomicReader.MaxDoc);
            var query = new BooleanQuery { { new TermQuery(new Term("doc", "garment")), Occur.MUST } };
            foreach (var (name, value) in question.Given.Where(g => !GroupOf.ContainsKey(g.Name) && g.Name != but))
            {
                Query one = name switch
                {
                    "decade" => Years(int.Parse(value[..4], System.Globalization.CultureInfo.InvariantCulture), 9),
                    "to" => NumericRangeQuery.NewInt32Range("yearFrom", null, int.Parse(value, System.Globalization.CultureInfo.InvariantCulture), true, true),
                    _ => new TermQuery(new Term(name, value)),
                };
                query.Add(one, Occur.MUST);
            }

            bits.Or(new QueryWrapperFilter(query).GetDocIdSet(context, live)?.GetIterator() ?? new FixedBitSet(1).GetIterator());
            if (question.Word is { } word)
            {
                // In the text of an entry or of the garment, as ours finds it.
                bits.And(Garments(context, new TermQuery(new Term("text", word)), live));
            }

            foreach (var group in GroupOf.Values.Distinct().Where(g => g != butGroup && question.Given.Any(p => GroupOf.GetValueOrDefault(p.Name) == g)))
            {
                bits.And(Garments(context, Entries(question, group, null), live));
            }

            return bits;
        }

        private static BooleanQuery Years(int from, int more) => new()
        {
            { NumericRangeQuery.NewInt32Range("yearTo", from, null, true, true), Occur.MUST },
            { NumericRangeQuery.NewInt32Range("yearFrom", null, from + more, true, true), Occur.MUST },
        };

        private FixedBitSet Garments(AtomicReaderContext context, Query entries, IBits? live)
        {
            var parentBits = new FixedBitSet(context.AtomicReader.MaxDoc);
            parentBits.Or(plain.parents.GetDocIdSet(context, null).GetIterator());
            var garments = new FixedBitSet(context.AtomicReader.MaxDoc);
            var found = new QueryWrapperFilter(entries).GetDocIdSet(context, live)?.GetIterator();
            for (var document = found?.NextDoc() ?? DocIdSetIterator.NO_MORE_DOCS; document != DocIdSetIterator.NO_MORE_DOCS; document = found!.NextDoc())
            {
                garments.Set(parentBits.NextSetBit(document));
            }

            return garments;
        }
    }
}
