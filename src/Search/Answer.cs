using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;
using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Search.Similarities;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>Answers one request from one state of the index.</summary>
internal static class Answer
{
    private static readonly HashSet<string> Loaded =
        [Fields.Id, Fields.Number, Fields.Name, Fields.Dated, Fields.Shown, Fields.Picture];

    // The page that everybody opens first, kept as long as the index stays as it is: what is written makes a new reader.
    private static readonly ConditionalWeakTable<IndexReader, ConcurrentDictionary<(int, int, Sorting, int), JsonObject>> Whole = [];
    private const int MostKept = 32;

    public static JsonObject To(SearchRequest request, IndexSearcher searcher, int presentDecade)
    {
        var watch = Stopwatch.StartNew();
        if (request.Q.Length > 0 || request.Conditions.Count > 0)
        {
            return Find(request, searcher, presentDecade, watch);
        }

        var kept = Whole.GetValue(searcher.IndexReader, _ => new());
        var key = (request.Page, request.Size, request.Sort, presentDecade);
        if (!kept.TryGetValue(key, out var answer))
        {
            answer = Find(request, searcher, presentDecade, watch);
            if (kept.Count < MostKept)
            {
                kept[key] = answer;
            }
        }

        var copy = answer.DeepClone().AsObject();
        copy["took"] = watch.ElapsedMilliseconds;
        return copy;
    }

    private static JsonObject Find(SearchRequest request, IndexSearcher searcher, int presentDecade, Stopwatch watch)
    {
        var asked = Typed.Read(request.Q, request.Tolerance);
        var matches = Match(request, searcher, asked);
        try
        {
            if (request.Q.Length > 0 && Total(matches) == 0 && Misspelt.Of(request.Q, searcher.IndexReader) is { } misspelt)
            {
                asked = misspelt.Read(request.Tolerance);
                Array.ForEach(matches, m => m.Dispose());
                matches = Match(request, searcher, asked);
            }

            var facets = new Facets(presentDecade);
            Array.ForEach(matches, facets.Add);
            var items = Page(request, searcher, asked, matches).Select(hit => Item(searcher, matches, asked, hit));
            return new JsonObject
            {
                ["total"] = Total(matches),
                ["items"] = new JsonArray([.. items]),
                ["facets"] = facets.ToJson(),
                ["understood"] = ToJson(asked.Understood),
                ["took"] = watch.ElapsedMilliseconds,
            };
        }
        finally
        {
            Array.ForEach(matches, m => m.Dispose());
        }
    }

    public static JsonArray ToJson(IEnumerable<Suggestion> suggestions) => new([.. suggestions.Select(s =>
        new JsonObject { ["text"] = s.Text, ["parameter"] = s.Parameter, ["value"] = s.Value })]);

    private static SegmentMatch[] Match(SearchRequest request, IndexSearcher searcher, Asked asked) =>
        [.. searcher.IndexReader.Leaves.Select(leaf => new SegmentMatch(leaf, request, asked))];

    private static int Total(SegmentMatch[] matches) => matches.Sum(m => m.Garments.Cardinality);

    private static IEnumerable<int> Page(SearchRequest request, IndexSearcher searcher, Asked asked, SegmentMatch[] matches)
    {
        var upTo = request.Page * request.Size;
        var likeness = Likeness(asked, matches, request.Sort);
        var collector = TopFieldCollector.Create(Order(request.Sort, likeness is not null), Math.Max(1, Math.Min(upTo, searcher.IndexReader.MaxDoc)),
            fillFields: false, trackDocScores: false, trackMaxScore: false, docsScoredInOrder: true);
        if (likeness is not null)
        {
            searcher.Similarity = new BM25Similarity();
            searcher.Search(new FilteredQuery(likeness, new BitsFilter([.. matches.Select(m => m.Garments)]), FilteredQuery.LEAP_FROG_FILTER_FIRST_STRATEGY), collector);
        }
        else
        {
            foreach (var match in matches)
            {
                collector.SetNextReader(match.Segment);
                for (var garment = match.Garments.NextSetBit(0); garment >= 0; garment = Blocks.Next(match.Garments, garment))
                {
                    collector.Collect(garment);
                }
            }
        }

        return collector.GetTopDocs(upTo - request.Size, request.Size).ScoreDocs.Select(hit => hit.Doc);
    }

    private static BooleanQuery? Likeness(Asked asked, SegmentMatch[] matches, Sorting sort)
    {
        if (sort != Sorting.Relevance || asked.Likeness.Count == 0)
        {
            return null;
        }

        // Whoever was found is found; the rest only orders them.
        var query = new BooleanQuery(disableCoord: true) { { new MatchAllDocsQuery { Boost = 0 }, Occur.MUST } };
        foreach (var part in asked.Likeness)
        {
            query.Add(part, Occur.SHOULD);
        }

        if (asked.Understood.Count > 0)
        {
            query.Add(new ConstantScoreQuery(new BitsFilter([.. matches.Select(m => m.Meant)])) { Boost = 10 }, Occur.SHOULD);
        }

        return query;
    }

    private static Sort Order(Sorting sort, bool isScored)
    {
        var number = Last(new SortField(Fields.ByNumber, SortFieldType.STRING), SortField.STRING_LAST);
        var id = new SortField(Fields.ById, SortFieldType.STRING);
        return sort switch
        {
            Sorting.Relevance when isScored => new Sort(SortField.FIELD_SCORE, number, id),
            Sorting.Name => new Sort(new SortField(Fields.ByName, SortFieldType.STRING), number, id),
            Sorting.Dated => new Sort(Year(Fields.YearFrom), Year(Fields.YearTo), number, id),
            // Ids are given in the order of entering (UUID version 7).
            Sorting.Newest => new Sort(new SortField(Fields.ById, SortFieldType.STRING, reverse: true)),
            _ => new Sort(number, id),
        };
    }

    private static SortField Year(string field) => Last(new SortField(field, SortFieldType.INT32), J2N.Numerics.Int32.GetInstance(int.MaxValue));

    /// <summary>What has no number or no date stands last.</summary>
    private static SortField Last(SortField field, object missing)
    {
        field.SetMissingValue(missing);
        return field;
    }

    private static JsonObject Item(IndexSearcher searcher, SegmentMatch[] matches, Asked asked, int hit)
    {
        var garment = searcher.Doc(hit, Loaded);
        var match = matches[ReaderUtil.SubIndex(hit, searcher.IndexReader.Leaves)];
        var local = hit - match.Segment.DocBase;
        var techniques = new JsonArray();
        for (var at = match.Blocks.FirstOf(local); at < local; at++)
        {
            if (match.Techniques.Get(at) && match.Segment.AtomicReader.Document(at).GetField(Fields.Entry)?.GetStringValue(CultureInfo.InvariantCulture) is { } id)
            {
                techniques.Add(id);
            }
        }

        return new JsonObject
        {
            ["id"] = garment.GetField(Fields.Id)?.GetStringValue(CultureInfo.InvariantCulture),
            ["number"] = garment.GetField(Fields.Number)?.GetStringValue(CultureInfo.InvariantCulture),
            ["name"] = garment.GetField(Fields.Name)?.GetStringValue(CultureInfo.InvariantCulture),
            ["dated"] = garment.GetField(Fields.Dated)?.GetStringValue(CultureInfo.InvariantCulture),
            ["snippet"] = Snippet.Of(garment.GetField(Fields.Shown)?.GetStringValue(CultureInfo.InvariantCulture) ?? "", asked.Marks),
            ["picture"] = garment.GetField(Fields.Picture)?.GetStringValue(CultureInfo.InvariantCulture),
            ["techniques"] = techniques,
        };
    }

    /// <summary>Bits that were found beforehand, segment by segment.</summary>
    private sealed class BitsFilter(FixedBitSet[] segments) : Filter
    {
        public override DocIdSet GetDocIdSet(AtomicReaderContext context, IBits acceptDocs) => segments[context.Ord];
    }
}
