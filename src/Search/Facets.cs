using System.Text.Json.Nodes;
using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>Counts, for each value of each facet, the garments that choosing it in place of the facet's own choice would give.</summary>
internal sealed class Facets(int presentDecade)
{
    private const string Decade = "decade";

    private static readonly string[] Order =
    [
        "kind", "overall", "handling", Decade, "cloth", "withPictures", "tag", "technique", "tuckKind", "sewn", "part", "work",
        "lace", "trim", "laceForm", "laceMade", "lacePart", "condition", "severity", "attention", "repair", "repairSewn",
    ];

    private readonly Dictionary<string, Dictionary<string, int>> counts = Order.ToDictionary(name => name, _ => new Dictionary<string, int>());

    /// <summary>Adds what one segment has.</summary>
    public void Add(SegmentMatch match)
    {
        foreach (var facet in Parameter.Of(Group.Garment).Where(p => p.Facet))
        {
            Count(match, [facet], match.Asks(Group.Garment, facet.Name) ? match.Without(Group.Garment, facet.Name) : match.Garments, null);
        }

        CountDecades(match, match.Asks(Group.Garment, Decade) ? match.Without(Group.Garment, Decade) : match.Garments);
        foreach (var group in Enum.GetValues<Group>().Where(g => g != Group.Garment))
        {
            var garments = match.Without(group, null);
            var facets = Parameter.Of(group).Where(p => p.Facet).ToLookup(p => match.Asks(group, p.Name));
            Count(match, [.. facets[false]], garments, match.Entries(group, null));
            foreach (var chosen in facets[true])
            {
                Count(match, [chosen], garments, match.Entries(group, chosen.Name));
            }
        }
    }

    /// <summary>Every facet in the page's order, its values by falling count; decades in their own order.</summary>
    public JsonObject ToJson()
    {
        var json = new JsonObject();
        foreach (var name in Order)
        {
            var values = counts[name].OrderByDescending(c => name == Decade ? 0 : c.Value).ThenBy(c => c.Key, StringComparer.Ordinal);
            json[name] = new JsonArray([.. values.Select(c => new JsonObject { ["value"] = c.Key, ["count"] = c.Value })]);
        }

        return json;
    }

    /// <summary>Counts the values of garments, or of entries (each garment once a value) when there are some.</summary>
    private void Count(SegmentMatch match, IReadOnlyList<Parameter> facets, FixedBitSet garments, FixedBitSet? entries)
    {
        var among = entries ?? garments;
        if (among.Cardinality > match.Segment.AtomicReader.MaxDoc / 32)
        {
            // Of many, reading each value's own list is several times quicker than asking each document for its values.
            facets.ToList().ForEach(facet => CountLists(match, facet.Name, garments, among));
            return;
        }

        var columns = facets.Select(facet => Column.Of(match.Segment.AtomicReader, facet.Name)).OfType<Column>().ToList();
        foreach (var document in columns.Count == 0 ? [] : Blocks.Each(among))
        {
            var garment = entries is null ? document : match.Blocks.GarmentOf(document);
            if (entries is null || garments.Get(garment))
            {
                columns.ForEach(column => column.Count(document, garment));
            }
        }

        foreach (var column in columns)
        {
            column.AddTo(counts[column.Name]);
        }
    }

    private void CountLists(SegmentMatch match, string facet, FixedBitSet garments, FixedBitSet among)
    {
        DocsEnum? documents = null;
        for (var values = match.Segment.AtomicReader.GetTerms(facet)?.GetEnumerator(); values is not null && values.MoveNext();)
        {
            documents = values.Docs(null, documents, DocsFlags.NONE);
            var (count, last) = (0, -1);
            for (int document; (document = documents.NextDoc()) != DocIdSetIterator.NO_MORE_DOCS;)
            {
                if (document > last && among.Get(document))
                {
                    last = match.Blocks.GarmentOf(document);
                    count += garments.Get(last) ? 1 : 0;
                }
            }

            if (count > 0)
            {
                var value = values.Term.Utf8ToString();
                counts[facet][value] = counts[facet].GetValueOrDefault(value) + count;
            }
        }
    }

    private void CountDecades(SegmentMatch match, FixedBitSet garments)
    {
        var from = match.Segment.AtomicReader.GetNumericDocValues(Fields.YearFrom);
        var to = match.Segment.AtomicReader.GetNumericDocValues(Fields.YearTo);
        var dated = match.Segment.AtomicReader.GetDocsWithField(Fields.YearFrom);
        if (from is null || to is null)
        {
            return;
        }

        var rises = new int[presentDecade - Years.FirstDecade + 2];
        foreach (var garment in Blocks.Each(garments))
        {
            // A span adds one from its first decade on and takes it away after its last.
            var (first, last) = (Floor(from.Get(garment)), Math.Min(Floor(to.Get(garment)), presentDecade));
            first = Math.Max(first, Years.FirstDecade);
            if (dated.Get(garment) && first <= last)
            {
                rises[first - Years.FirstDecade]++;
                rises[last + 1 - Years.FirstDecade]--;
            }
        }

        var count = 0;
        for (var decade = 0; decade < rises.Length - 1; decade++)
        {
            count += rises[decade];
            if (count > 0)
            {
                var name = $"{decade + Years.FirstDecade}0s";
                counts[Decade][name] = counts[Decade].GetValueOrDefault(name) + count;
            }
        }
    }

    private static int Floor(long year) => (int)Math.Floor(year / 10.0);

    /// <summary>One facet's values in one segment.</summary>
    private sealed class Column(string name, SortedSetDocValues values)
    {
        private readonly int[] counts = new int[values.ValueCount];
        private readonly int[] last = [.. Enumerable.Repeat(-1, (int)values.ValueCount)];

        public string Name => name;

        public static Column? Of(AtomicReader reader, string name) =>
            reader.GetSortedSetDocValues(name) is { } values ? new Column(name, values) : null;

        public void Count(int document, int garment)
        {
            values.SetDocument(document);
            for (long value; (value = values.NextOrd()) != SortedSetDocValues.NO_MORE_ORDS;)
            {
                // Entries of one garment follow each other, so the last garment seen tells a repeat.
                if (last[value] != garment)
                {
                    last[value] = garment;
                    counts[value]++;
                }
            }
        }

        public void AddTo(Dictionary<string, int> sum)
        {
            var bytes = new BytesRef();
            for (var value = 0; value < counts.Length; value++)
            {
                if (counts[value] > 0)
                {
                    values.LookupOrd(value, bytes);
                    var text = bytes.Utf8ToString();
                    sum[text] = sum.GetValueOrDefault(text) + counts[value];
                }
            }
        }
    }
}
