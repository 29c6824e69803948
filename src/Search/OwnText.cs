using Lucene.Net.Search;

namespace HeirloomArchive.Search;

/// <summary>A word of one's own that stands in garments and is not among the words.</summary>
/// <param name="Facet">The facet of its field.</param>
/// <param name="Text">As it was typed.</param>
/// <param name="Garments">How many garments have it.</param>
public sealed record OwnText(string Facet, string Text, int Garments)
{
    internal static IReadOnlyList<OwnText> In(IndexSearcher searcher)
    {
        var counts = new Dictionary<string, int>();
        foreach (var leaf in searcher.IndexReader.Leaves)
        {
            var living = leaf.AtomicReader.LiveDocs;
            for (var terms = leaf.AtomicReader.GetTerms(Fields.OwnText)?.GetEnumerator(); terms is not null && terms.MoveNext();)
            {
                var count = 0;
                var documents = terms.Docs(living, null, Lucene.Net.Index.DocsFlags.NONE);
                while (documents.NextDoc() != DocIdSetIterator.NO_MORE_DOCS)
                {
                    count++;
                }

                var word = terms.Term.Utf8ToString();
                counts[word] = counts.GetValueOrDefault(word) + count;
            }
        }

        return
        [
            .. counts.Where(c => c.Value > 0).Select(c => (Parts: c.Key.Split('/', 2), c.Value))
                .Where(c => Catalogue.Words.Now.Named(c.Parts[0], c.Parts[1]) is null && Catalogue.Words.Find(c.Parts[0], c.Parts[1]) is null)
                .Select(c => new OwnText(c.Parts[0], c.Parts[1], c.Value))
                .OrderByDescending(t => t.Garments).ThenBy(t => t.Facet, StringComparer.Ordinal).ThenBy(t => t.Text, StringComparer.Ordinal),
        ];
    }
}
