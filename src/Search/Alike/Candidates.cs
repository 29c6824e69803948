using System.Globalization;
using System.Text.Json.Nodes;
using Lucene.Net.Index;
using Lucene.Net.Search;

namespace HeirloomArchive.Search.Alike;

/// <summary>A technique of the index that may be like another.</summary>
internal readonly record struct Candidate(AtomicReaderContext Segment, int Document, float Apart);

/// <summary>
/// Picks from the whole index the techniques that a full comparison is worth: a rough distance by the columns in memory, every technique of the
/// kind asked once. What the columns round (proportion and size, to steps of a sixth and a third of an octave) the full comparison puts right.
/// </summary>
internal static class Candidates
{
    /// <summary>Columns of their own: proportion and size in steps.</summary>
    public const string Share = "shareStep", Size = "sizeStep";

    private static readonly HashSet<string> BuiltAlone = [Fields.Built];

    private const int SharesAnOctave = 6;
    private const int SizesAnOctave = 3;

    /// <summary>The steps of a technique as they stand in the index; null where it has no measure.</summary>
    public static string? ShareStep(Construction technique) => technique.Share is { } share ? Step(share, SharesAnOctave) : null;

    /// <inheritdoc cref="ShareStep"/>
    public static string? SizeStep(Construction technique) => technique.Width is > 0 ? Step(technique.Width.Value / 1e6, SizesAnOctave) : null;

    /// <summary>The nearest living techniques of the same kind, by the rough distance.</summary>
    public static List<Candidate> For(Construction asked, IndexSearcher searcher, int most, bool anySize)
    {
        var best = new PriorityQueue<Candidate, float>(most + 1);
        foreach (var segment in searcher.IndexReader.Leaves)
        {
            var blocks = Blocks.Of(segment);
            using var scratch = new Scratch(blocks, segment);
            var entries = asked.Kind is null ? scratch.Copy(blocks.Entries(Group.Work)) : Sieve.Of("technique", asked.Kind).BitsOf(scratch);
            entries.And(blocks.Entries(Group.Work));
            var measures = Measures(asked, blocks, segment.AtomicReader, anySize);
            var live = segment.AtomicReader.LiveDocs;
            for (var document = entries.NextSetBit(0); document >= 0; document = Blocks.Next(entries, document))
            {
                var apart = 0f;
                foreach (var (column, costs, absent) in measures)
                {
                    apart += column.Least(document, costs, absent);
                }

                if ((best.Count < most || apart < best.Peek().Apart) && (live is null || live.Get(document)))
                {
                    best.Enqueue(new Candidate(segment, document, apart), -apart);
                    if (best.Count > most)
                    {
                        best.Dequeue();
                    }
                }
            }
        }

        return [.. best.UnorderedItems.Select(i => i.Element).OrderBy(c => c.Apart)];
    }

    /// <summary>What is kept of a technique.</summary>
    public static Construction Read(AtomicReaderContext segment, int document)
    {
        var kept = segment.AtomicReader.Document(document, BuiltAlone).GetBinaryValue(Fields.Built);
        return Construction.Of(JsonNode.Parse(kept.Bytes.AsSpan(kept.Offset, kept.Length))!.AsObject());
    }

    // One of them for each aspect: what each value of its column costs, and what having none.
    private static List<(Column Column, float[] Costs, float Absent)> Measures(Construction asked, Blocks blocks, AtomicReader reader, bool anySize)
    {
        var measures = new List<(Column, float[], float)>();
        void Words(string column, double weighs, Func<string, double>? apart)
        {
            var values = blocks.Column(column, reader);
            // Where the one asked about has none, having one is half a difference.
            measures.Add(apart is null
                ? (values, [.. values.Values.Select(_ => (float)weighs / 2)], 0f)
                : (values, [.. values.Values.Select(v => (float)(weighs * apart(v)))], (float)weighs / 2));
        }

        Func<string, double>? Same(string? value) => value is null ? null : v => v == value ? 0 : 1;
        Func<string, double>? Near(string? step, int anOctave) => step is null ? null
            : v => Math.Min(1, Math.Abs(Number(v) - Number(step)) / (2.0 * anOctave));

        Words("tuckKind", Distance.TuckKindWeighs, Same(asked.TuckKind));
        foreach (var called in new[] { "lace", "trim", "work" })
        {
            Words(called, Distance.CalledWeighs, blocks.Column(called, reader).Values.Contains(asked.Called) ? Same(asked.Called) : null);
        }

        Words("sewn", Distance.SewnWeighs, asked.Sewn is null ? null : v => Distance.SewnApart(v, asked.Sewn));
        Words("part", Distance.PartWeighs, asked.Parts.Count == 0 ? null : v => asked.Parts.Contains(v) ? 0 : 1);
        Words("laceForm", Distance.FormWeighs, Same(asked.Form));
        Words("laceMade", Distance.MadeWeighs, Same(asked.LaceMade));
        Words(Share, Distance.ShareWeighs, Near(ShareStep(asked), SharesAnOctave));
        if (!anySize)
        {
            Words(Size, Distance.SizeWeighs, Near(SizeStep(asked), SizesAnOctave));
        }

        return [.. measures.Where(m => m.Item1.Values.Count > 0)];
    }

    private static string Step(double ratio, int anOctave) =>
        ((int)Math.Round(Math.Log2(ratio) * anOctave)).ToString(CultureInfo.InvariantCulture);

    private static int Number(string step) => int.Parse(step, CultureInfo.InvariantCulture);
}
