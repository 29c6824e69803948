using System.Globalization;
using System.Text.Json.Nodes;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>Counts, for each value of each facet, the garments that choosing it in place of the facet's own choice would give.</summary>
internal sealed class Facets(int presentDecade)
{
    private const string Decade = "decade";
    private const int AtOnce = 4_096;

    // As in the table of parameters, which has no row for the decade.
    private static readonly string[] Order = [.. Parameter.All.Where(p => p.Facet).SelectMany(p => p.Name == "handling" ? new[] { p.Name, Decade } : [p.Name])];

    private readonly Dictionary<string, Dictionary<string, int>> counts = Order.ToDictionary(name => name, _ => new Dictionary<string, int>());
    private readonly int[] documents = new int[AtOnce];
    private readonly int[] garmentOf = new int[AtOnce];

    /// <summary>Adds what one segment has.</summary>
    public void Add(SegmentMatch match)
    {
        var ofGarment = Parameter.Of(Group.Garment).Where(p => p.Facet).ToLookup(p => match.Asks(Group.Garment, p.Name));
        CountGarments(match, [.. ofGarment[false]], match.Garments);
        foreach (var chosen in ofGarment[true])
        {
            CountGarments(match, [chosen], match.Without(Group.Garment, chosen.Name));
        }

        CountDecades(match, match.Asks(Group.Garment, Decade) ? match.Without(Group.Garment, Decade) : match.Garments);
        foreach (var group in Enum.GetValues<Group>().Where(g => g != Group.Garment))
        {
            var garments = match.Without(group, null);
            var facets = Parameter.Of(group).Where(p => p.Facet).ToLookup(p => match.Asks(group, p.Name));
            CountEntries(match, group, [.. facets[false]], garments, null);
            foreach (var chosen in facets[true])
            {
                CountEntries(match, group, [chosen], garments, chosen.Name);
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

    private void CountGarments(SegmentMatch match, IReadOnlyList<Parameter> facets, FixedBitSet garments)
    {
        var columns = Columns(match, facets);
        var filled = 0;
        for (var garment = columns.Count == 0 ? -1 : garments.NextSetBit(0); garment >= 0; garment = Blocks.Next(garments, garment))
        {
            documents[filled] = garmentOf[filled] = garment;
            if (++filled == AtOnce)
            {
                Flush(columns, ref filled);
            }
        }

        Flush(columns, ref filled);
        Sum(columns);
    }

    /// <summary>Counts the values of a group's entries that meet all of it but one parameter, each garment once a value.</summary>
    private void CountEntries(SegmentMatch match, Group group, IReadOnlyList<Parameter> facets, FixedBitSet garments, string? but)
    {
        var columns = Columns(match, facets);
        if (columns.Count == 0)
        {
            return;
        }

        var entries = match.Entries(group, but);
        var having = match.With(garments, group, entries);
        var filled = 0;
        for (var garment = having.NextSetBit(0); garment >= 0; garment = Blocks.Next(having, garment))
        {
            for (var document = match.Blocks.FirstOf(garment); document < garment; document++)
            {
                if (entries.Get(document))
                {
                    (documents[filled], garmentOf[filled]) = (document, garment);
                    if (++filled == AtOnce)
                    {
                        Flush(columns, ref filled);
                    }
                }
            }
        }

        Flush(columns, ref filled);
        Sum(columns);
    }

    private void CountDecades(SegmentMatch match, FixedBitSet garments)
    {
        var decades = match.Blocks.Dates(match.Segment.AtomicReader).CountDecades(garments, Years.FirstDecade, presentDecade);
        for (var decade = 0; decade < decades.Length; decade++)
        {
            Add(Decade, string.Create(CultureInfo.InvariantCulture, $"{decade + Years.FirstDecade}0s"), decades[decade]);
        }
    }

    private static List<(Column Column, Tally Tally)> Columns(SegmentMatch match, IReadOnlyList<Parameter> facets) =>
        [.. facets.Select(f => match.Blocks.Column(f.Name, match.Segment.AtomicReader)).Where(c => c.Values.Count > 0).Select(c => (c, new Tally(c)))];

    private void Flush(List<(Column Column, Tally Tally)> columns, ref int filled)
    {
        foreach (var (column, tally) in columns)
        {
            column.Count(documents.AsSpan(0, filled), garmentOf.AsSpan(0, filled), tally);
        }

        filled = 0;
    }

    private void Sum(List<(Column Column, Tally Tally)> columns)
    {
        foreach (var (column, tally) in columns)
        {
            for (var value = 0; value < tally.Counts.Length; value++)
            {
                Add(column.Name, column.Values[value], tally.Counts[value]);
            }
        }
    }

    private void Add(string facet, string value, int count)
    {
        if (count > 0)
        {
            counts[facet][value] = counts[facet].GetValueOrDefault(value) + count;
        }
    }
}
