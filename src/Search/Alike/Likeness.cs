using System.Globalization;
using System.Text.Json.Nodes;
using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Util;

namespace HeirloomArchive.Search.Alike;

/// <summary>Finds what is alike: techniques by their making, whole pieces by their techniques, kind and words.</summary>
internal static class Likeness
{
    private const int MostCompared = 400;
    private const int MostTechniques = 12;
    private const int MostByEach = 60;
    private const int MostWords = 16;
    private const double TechniquesWeigh = 5, KindWeighs = 2, WordsWeigh = 3;

    private static readonly HashSet<string> NameOnly = [Fields.Name];
    private static readonly HashSet<string> NameAndWords = [Fields.Name, Fields.Shown];

    /// <summary>The techniques most like one of a garment, each with its garment; those of the same garment are left out.</summary>
    public static JsonArray ToTechnique(JsonObject technique, Guid garment, IndexSearcher searcher, bool anySize, int size)
    {
        var asked = Construction.Of(technique);
        var found = new List<(AtomicReaderContext Segment, int At, string Garment, Construction Technique, Distance Distance)>();
        foreach (var (segment, document, _) in Candidates.For(asked, searcher, MostCompared, anySize))
        {
            var other = Candidates.Read(segment, document);
            // "At another size" asks for the same proportions, not for the same run again.
            if (anySize && (other.Width == asked.Width || other.Share is null))
            {
                continue;
            }

            var at = Blocks.Of(segment).Garments.NextSetBit(document);
            var id = IdOf(segment.AtomicReader, at);
            if (id != garment.ToString())
            {
                found.Add((segment, at, id, other, Distance.Between(asked, other, anySize)));
            }
        }

        return new([.. found.OrderBy(f => f.Distance.Value).ThenBy(f => f.Garment, StringComparer.Ordinal).ThenBy(f => f.Technique.Id, StringComparer.Ordinal)
            .Take(size).Select(f => Item(f.Garment, f.Technique.Id, Stored(f.Segment.AtomicReader, f.At, NameOnly).Name, f.Distance.Value, f.Distance.Why))]);
    }

    /// <summary>The pieces most like one.</summary>
    public static JsonArray ToGarment(Guid garment, JsonObject state, IndexSearcher searcher, int size)
    {
        var asked = Parameter.Entries(state["techniques"]).Take(MostTechniques).Select(Construction.Of).ToList();
        var places = new HashSet<(AtomicReaderContext Segment, int Garment)>();
        foreach (var candidate in asked.SelectMany(technique => Candidates.For(technique, searcher, MostByEach, anySize: false)))
        {
            places.Add((candidate.Segment, Blocks.Of(candidate.Segment).Garments.NextSetBit(candidate.Document)));
        }

        var own = Words(string.Join(' ', GarmentBlock.Said(state)));
        places.UnionWith(ByWords(own, searcher));
        var kind = Parameter.Text(state["kind"]);
        var found = new List<JsonObject>();
        foreach (var (segment, at) in places)
        {
            var id = IdOf(segment.AtomicReader, at);
            if (id != garment.ToString())
            {
                var (name, shown) = Stored(segment.AtomicReader, at, NameAndWords);
                found.Add(Compare(asked, kind, own, segment, at, id, name, Words($"{name} {shown}")));
            }
        }

        return new([.. found.OrderBy(f => f["distance"]!.GetValue<double>()).ThenBy(f => f["id"]!.GetValue<string>(), StringComparer.Ordinal).Take(size)]);
    }

    private static JsonObject Compare(List<Construction> asked, string? kind, HashSet<string> own, AtomicReaderContext segment, int at, string id, string name, HashSet<string> words)
    {
        var blocks = Blocks.Of(segment);
        var others = new List<Construction>();
        for (var document = blocks.FirstOf(at); document < at && others.Count < MostTechniques; document++)
        {
            if (blocks.Entries(Group.Work).Get(document))
            {
                others.Add(Candidates.Read(segment, document));
            }
        }

        var why = new List<string>();
        var (sum, weights) = (0.0, 0.0);
        if (asked.Count + others.Count > 0)
        {
            weights += TechniquesWeigh;
            sum += TechniquesWeigh * (asked.Count == 0 || others.Count == 0 ? 1 : (Mean(asked, others) + Mean(others, asked)) / 2);
            var nearest = asked.SelectMany(a => others.Select(b => Distance.Between(a, b))).MinBy(d => d.Value);
            why.AddRange(nearest is { Value: < 0.5 } ? nearest.Why : []);
        }

        var space = new int[1];
        var column = blocks.Column("kind", segment.AtomicReader);
        var otherKind = column.Of(at, space) is { Length: > 0 } kinds ? column.Values[kinds[0]] : null;
        if (kind is not null || otherKind is not null)
        {
            weights += KindWeighs;
            sum += KindWeighs * (kind is null || otherKind is null ? 0.5 : kind == otherKind ? 0 : 1);
            if (kind is not null && kind == otherKind)
            {
                why.Insert(0, T($"both: {T(Catalogue.Words.Label("kinds", kind)).ToLowerInvariant()}"));
            }
        }

        if (own.Count + words.Count > 0)
        {
            weights += WordsWeigh;
            sum += WordsWeigh * (1 - ((double)own.Intersect(words).Count() / own.Union(words).Count()));
        }

        return Item(id, null, name, weights > 0 ? sum / weights : 0, why);
    }

    private static double Mean(List<Construction> these, List<Construction> those) =>
        these.Average(a => those.Min(b => Distance.Between(a, b).Value));

    /// <summary>Pieces that share the rarest words, found as the search finds them.</summary>
    private static IEnumerable<(AtomicReaderContext, int)> ByWords(HashSet<string> words, IndexSearcher searcher)
    {
        var reader = searcher.IndexReader;
        var rarest = words.Select(word => new Term(Fields.Text, word)).Select(term => (term, Count: reader.DocFreq(term))).Where(t => t.Count > 1)
            .OrderBy(t => t.Count).Take(MostWords).ToList();
        var query = new BooleanQuery();
        rarest.ForEach(t => query.Add(new TermQuery(t.term), Occur.SHOULD));
        return rarest.Count == 0 ? [] : searcher.Search(query, MostByEach).ScoreDocs.Select(hit =>
        {
            var segment = reader.Leaves[ReaderUtil.SubIndex(hit.Doc, reader.Leaves)];
            return (segment, Blocks.Of(segment).Garments.NextSetBit(hit.Doc - segment.DocBase));
        });
    }

    private static HashSet<string> Words(string text) => [.. Analysis.Tokens(text).Where(t => !Analysis.IsStopWord(t.Word)).Select(t => t.Stem)];

    private static string IdOf(AtomicReader reader, int garment)
    {
        var id = new BytesRef();
        reader.GetSortedDocValues(Fields.ById).Get(garment, id);
        return id.Utf8ToString();
    }

    private static (string Name, string Shown) Stored(AtomicReader reader, int garment, HashSet<string> fields)
    {
        var document = reader.Document(garment, fields);
        string Text(string field) => document.GetField(field)?.GetStringValue(CultureInfo.InvariantCulture) ?? "";
        return (Text(Fields.Name), Text(Fields.Shown));
    }

    private static JsonObject Item(string id, string? technique, string name, double distance, IEnumerable<string> why) => new()
    {
        ["id"] = id, ["technique"] = technique, ["name"] = name, ["distance"] = Math.Round(distance, 3), ["why"] = new JsonArray([.. why.Select(w => (JsonNode)w)]),
    };
}
