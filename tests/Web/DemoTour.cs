using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests;

/// <summary>What docs/around-the-demo.md names, held against a host with the demonstration in it.</summary>
internal static partial class DemoTour
{
    /// <summary>Every piece by number and name, every title, and every address is there; what an address asks for finds something.</summary>
    public static async Task Walk(HttpClient client, CancellationToken ct)
    {
        var text = await File.ReadAllTextAsync(Path.Combine(SourceFolder.Top, "docs", "around-the-demo.md"), ct);
        async Task<JsonArray> Items(string address) => JsonNode.Parse(await client.GetStringAsync(new Uri(address, UriKind.Relative), ct))!["items"]!.AsArray();
        var names = (await Items("/api/garments?size=100")).ToDictionary(g => g!["number"]!.ToString(), g => g!["name"]!.ToString());

        var pieces = Piece().Matches(text);
        Assert.True(pieces.Count >= 10, $"The tour names {pieces.Count} pieces.");
        Assert.All(pieces, p => Assert.Equal(names.GetValueOrDefault(p.Groups["number"].Value), Line(p.Groups["name"].Value)));
        Assert.All(Number().Matches(text), n => Assert.Contains(n.Value, names.Keys));

        var titles = (await Items("/api/lessons?size=100")).Select(l => l!["name"]!.ToString())
            .Concat((await Items("/api/worksheets?size=100")).Select(w => w!["title"]!.ToString()))
            .Concat((await Items("/api/questions")).Select(q => q!["name"]!.ToString()))
            .Concat((await Items("/api/printers")).Select(p => p!["name"]!.ToString())).ToHashSet();
        var named = Title().Matches(text);
        Assert.True(named.Count >= 8, $"The tour names {named.Count} titles.");
        Assert.All(named, t => Assert.Contains(Line(t.Groups["title"].Value), titles));

        var addresses = Address().Matches(text);
        Assert.True(addresses.Count >= 8, $"The tour names {addresses.Count} addresses.");
        foreach (var address in addresses.Select(a => a.Groups["address"].Value))
        {
            using var page = await client.GetAsync(new Uri(address, UriKind.Relative), ct);
            Assert.True(page.IsSuccessStatusCode, $"{address}: {page.StatusCode}");
            if (!address.StartsWith("/examples?", StringComparison.Ordinal)) continue;
            var found = await Items(address.Replace("/examples?", "/api/search?", StringComparison.Ordinal));
            Assert.True(found.Count > 0, $"{address} finds nothing.");
        }
    }

    // A name may be broken over two lines.
    private static string Line(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    [GeneratedRegex(@"\*\*(?<number>H-\d+)\*\*\s+\((?<name>[^)]+)\)")]
    private static partial Regex Piece();

    [GeneratedRegex(@"\bH-\d+")]
    private static partial Regex Number();

    [GeneratedRegex(@"(?<!\w)_(?<title>[^_]+)_(?!\w)")]
    private static partial Regex Title();

    [GeneratedRegex(@"`(?<address>/[^`]*)`")]
    private static partial Regex Address();
}
