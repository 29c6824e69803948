using System.Globalization;
using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>Lets some documents of a segment through. What many go through is kept as bits, for it is asked again.</summary>
internal abstract class Sieve
{
    // Sparser ones are read from the index again as quickly.
    private const int KeptFrom = 256;

    /// <summary>Documents whose field has one of these values.</summary>
    public static Sieve Of(string field, params IReadOnlyList<string> values) => values.Count == 1
        ? new OneTerm(field, values[0])
        : new Any([.. values.Select(v => new OneTerm(field, v))]);

    /// <summary>Documents with a word that begins so.</summary>
    public static Sieve Beginning(string field, string beginning) => new Prefix(field, beginning);

    /// <summary>Documents in which these words stand side by side.</summary>
    public static Sieve SideBySide(string field, IEnumerable<string> words)
    {
        var phrase = new PhraseQuery();
        words.ToList().ForEach(word => phrase.Add(new Term(field, word)));
        return new ByFilter(new QueryWrapperFilter(phrase), null);
    }

    /// <summary>Documents with a number between these, ends included; null is an end left open.</summary>
    public static Sieve Between(string field, long? from, long? to) => new ByFilter(
        NumericRangeFilter.NewInt64Range(field, from, to, true, true), string.Create(CultureInfo.InvariantCulture, $"{field}:{from}..{to}"));

    /// <summary>Garments that may have been made in these years or between.</summary>
    public static Sieve Dated(int? from, int? to) => new InYears(from ?? int.MinValue, to ?? int.MaxValue);

    /// <summary>Documents that all of them let through.</summary>
    public static Sieve AllOf(IReadOnlyList<Sieve> sieves) => sieves.Count == 1 ? sieves[0] : new All(sieves);

    /// <summary>Documents that one of them lets through.</summary>
    public static Sieve AnyOf(IReadOnlyList<Sieve> sieves) => sieves.Count == 1 ? sieves[0] : new Any(sieves);

    /// <summary>Adds the documents to a set.</summary>
    public abstract void AddTo(FixedBitSet bits, Scratch scratch);

    /// <summary>The documents as a set of their own.</summary>
    public FixedBitSet BitsOf(Scratch scratch)
    {
        var bits = scratch.New();
        AddTo(bits, scratch);
        return bits;
    }

    private static void Keep(string key, FixedBitSet bits, Blocks blocks)
    {
        if (bits.Cardinality > blocks.Documents / KeptFrom)
        {
            blocks.Keep(key, bits.Clone());
        }
    }

    private sealed class OneTerm(string field, string value) : Sieve
    {
        private readonly string key = $"{field}={value}";

        public override void AddTo(FixedBitSet bits, Scratch scratch)
        {
            if (scratch.Blocks.Kept(key) is { } kept)
            {
                bits.Or(kept);
                return;
            }

            // Whatever no longer lives is taken out at the end; the blocks must stay whole until then.
            var terms = scratch.Segment.AtomicReader.GetTerms(field)?.GetEnumerator();
            if (terms is null || !terms.SeekExact(new BytesRef(value)))
            {
                return;
            }

            var documents = terms.Docs(null, null, DocsFlags.NONE);
            if (terms.DocFreq <= scratch.Blocks.Documents / KeptFrom)
            {
                Pour(documents, bits);
                return;
            }

            var own = new FixedBitSet(scratch.Blocks.Documents);
            Pour(documents, own);
            scratch.Blocks.Keep(key, own);
            bits.Or(own);
        }
    }

    private sealed class Prefix(string field, string beginning) : Sieve
    {
        public override void AddTo(FixedBitSet bits, Scratch scratch)
        {
            var key = $"{field}^{beginning}";
            if (scratch.Blocks.Kept(key) is { } kept)
            {
                bits.Or(kept);
                return;
            }

            if (scratch.Segment.AtomicReader.GetTerms(field)?.GetEnumerator() is not { } terms)
            {
                return;
            }

            var begins = new BytesRef(beginning);
            var own = scratch.New();
            DocsEnum? documents = null;
            for (var status = terms.SeekCeil(begins); status != TermsEnum.SeekStatus.END && StringHelper.StartsWith(terms.Term, begins);)
            {
                documents = terms.Docs(null, documents, DocsFlags.NONE);
                Pour(documents, own);
                if (!terms.MoveNext())
                {
                    break;
                }
            }

            Keep(key, own, scratch.Blocks);
            bits.Or(own);
        }
    }

    private sealed class InYears(int from, int to) : Sieve
    {
        private readonly string key = string.Create(CultureInfo.InvariantCulture, $"years {from}..{to}");

        public override void AddTo(FixedBitSet bits, Scratch scratch)
        {
            if (scratch.Blocks.Kept(key) is { } kept)
            {
                bits.Or(kept);
                return;
            }

            var own = scratch.New();
            scratch.Blocks.Dates(scratch.Segment.AtomicReader).AddBetween(from, to, own);
            Keep(key, own, scratch.Blocks);
            bits.Or(own);
        }
    }

    private sealed class ByFilter(Filter filter, string? key) : Sieve
    {
        public override void AddTo(FixedBitSet bits, Scratch scratch)
        {
            if (key is not null && scratch.Blocks.Kept(key) is { } kept)
            {
                bits.Or(kept);
                return;
            }

            var own = scratch.New();
            if (filter.GetDocIdSet(scratch.Segment, null)?.GetIterator() is { } found)
            {
                own.Or(found);
            }

            if (key is not null)
            {
                Keep(key, own, scratch.Blocks);
            }

            bits.Or(own);
        }
    }

    private sealed class Any(IReadOnlyList<Sieve> sieves) : Sieve
    {
        public override void AddTo(FixedBitSet bits, Scratch scratch)
        {
            foreach (var sieve in sieves)
            {
                sieve.AddTo(bits, scratch);
            }
        }
    }

    private sealed class All(IReadOnlyList<Sieve> sieves) : Sieve
    {
        public override void AddTo(FixedBitSet bits, Scratch scratch)
        {
            if (sieves.Count == 0)
            {
                return;
            }

            var all = sieves[0].BitsOf(scratch);
            foreach (var sieve in sieves.Skip(1))
            {
                all.And(sieve.BitsOf(scratch));
            }

            bits.Or(all);
        }
    }

    private static void Pour(DocsEnum documents, FixedBitSet into)
    {
        for (int document; (document = documents.NextDoc()) != DocIdSetIterator.NO_MORE_DOCS;)
        {
            into.Set(document);
        }
    }
}
