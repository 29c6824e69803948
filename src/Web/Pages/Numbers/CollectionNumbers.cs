using System.ComponentModel;
using System.Text.Json.Nodes;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Numbers;

/// <summary>
/// What the collection holds, counted by the index. Kept until the index has moved on: it is asked once a decade for hand and machine, and
/// twice a change would be too often with a million pieces.
/// </summary>
public sealed class CollectionNumbers(GarmentIndex index)
{
    private const int MostRows = 15;

    private static readonly string[] Machines =
        ["machine", "machine-lockstitch", "machine-chainstitch", "machine-double-chainstitch", "machine-zigzag", "machine-hemstitch", "machine-embroidery", "overlock"];

    private static readonly Counting[] Plain =
    [
        new("kind", "Kinds of piece"), new("technique", "Techniques"), new("tuckKind", "Kinds of tuck"), new("lace", "Laces"), new("overall", "Overall state"),
        new("condition", "Findings"), new("attention", "What needs attention"), new("repair", "Ways of mending"),
    ];

    private static readonly string[] Pieces = // texts
        ["Pieces"];

    private static readonly string[] HandAndMachine = // texts
        ["Something sewn by hand", "Something sewn by machine"];

    private readonly Lock counting = new();
    private Kept? kept;

    private sealed record Counting(string Facet, [Localizable(true)] string Title);

    private sealed record Kept(string Facets, long Total, IReadOnlyList<Chart> Charts);

    /// <summary>How many pieces there are, and the charts; a chart of nothing is left out.</summary>
    /// <exception cref="IndexNotReadyException">There is no usable index yet.</exception>
    public (long Total, IReadOnlyList<Chart> Charts) Now()
    {
        // The counts of the whole are cheap, and they move with whatever moves a chart; the position tells what they might miss.
        var whole = Ask();
        var facets = $"{index.Position}:{whole["facets"]!.ToJsonString()}";
        lock (counting)
        {
            if (kept?.Facets != facets)
            {
                kept = new(facets, Say.Number(whole["total"]), [.. Charts(whole["facets"]!.AsObject()).Where(c => c.Rows.Count > 0)]);
            }

            return (kept.Total, kept.Charts);
        }
    }

    private IEnumerable<Chart> Charts(JsonObject facets)
    {
        var decades = Values(facets, "decade").OrderBy(d => d.Value, StringComparer.Ordinal).ToList();
        yield return new("decade", "When they were made", Pieces, [.. decades.Select(d => new ChartRow("decade", d.Value, [new(d.Count, To(("decade", d.Value)))]))]);
        yield return new("hands", "By hand and by machine", HandAndMachine, [.. decades.Select(d => new ChartRow("decade", d.Value,
        [
            Found([("decade", d.Value), ("sewn", "hand")]), Found([("decade", d.Value), .. Machines.Select(m => ("sewn", m))]),
        ])).Where(r => r.Numbers.Any(n => n.Value > 0))]);
        foreach (var (facet, title) in Plain)
        {
            var values = Values(facets, facet).OrderByDescending(v => v.Count).ThenBy(v => v.Value, StringComparer.Ordinal).Take(MostRows);
            yield return new(facet, title, Pieces, [.. values.Select(v => new ChartRow(facet, v.Value, [new(v.Count, To((facet, v.Value)))]))]);
        }
    }

    private Counted Found((string, string)[] asked) => new(Say.Number(Ask(asked)["total"]), To(asked));

    private JsonObject Ask(params (string Name, string Value)[] asked) =>
        index.Search(SearchRequest.Read([.. asked.Select(a => KeyValuePair.Create<string, string?>(a.Name, a.Value)), new("size", "1")]));

    private static IEnumerable<(string Value, long Count)> Values(JsonObject facets, string name) =>
        (facets[name] as JsonArray ?? []).OfType<JsonObject>().Select(v => (v["value"]!.ToString(), Say.Number(v["count"])));

    private static string To(params (string Name, string Value)[] asked) =>
        "/examples?" + string.Join('&', asked.Select(a => $"{a.Name}={Uri.EscapeDataString(a.Value)}"));
}
