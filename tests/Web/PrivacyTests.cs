using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Support;
using UglyToad.PdfPig;

namespace HeirloomArchive.Web.Tests;

/// <summary>What is private is seen on the piece itself and in its form, and nowhere else.</summary>
public sealed partial class PrivacyTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    // A word of its own in every private field, so that whatever leaks says where from.
    private static readonly string[] Secrets =
        ["Quillonwhen", "Quillonfrom", "Quillonprice", "Quilloninsured", "Quillonpapers", "Quillonshelf", "Quillonbox", "Quillonto"];

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public void Every_private_field_is_tried_here() =>
        Assert.Equal(Secrets.Length, PrivateFields.Paths.Sum(p => p.Contains('.', StringComparison.Ordinal) ? 1 : ((RecordType)GarmentShape.Garment.Fields.Single(f => f.Name == p).Type).Fields.Count));

    [Fact]
    public async Task No_search_suggestion_facet_list_or_page_of_others_tells_it()
    {
        var id = await Piece();
        List<string> addresses =
        [
            "/api/search", "/api/search?q=tucked+gown", "/api/search?whereabouts=lent", "/api/search?attention=soon&tag=teaching", "/api/suggest?q=Q", "/api/suggest?q=Quillon",
            "/", "/pieces", "/examples", "/examples?q=tucked", "/care", "/care?list=away", "/care?list=light", "/care?list=soon", "/words", "/words/own", "/worksheets",
            $"/pieces/{id}/condition", $"/pieces/{id}/dating", $"/worksheets/new?garment={id}", "/openapi/v1.json",
            .. Secrets.SelectMany(s => new[] { $"/api/suggest?q={s[..9]}" }),
        ];
        foreach (var address in addresses)
        {
            var text = await Get(address);
            Assert.All(Secrets, secret => Assert.False(text.Contains(secret, StringComparison.OrdinalIgnoreCase), $"{address} tells {secret}"));
        }

        Assert.Contains(id, await Get("/api/search?whereabouts=lent"), StringComparison.Ordinal);
        foreach (var secret in Secrets)
        {
            Assert.Equal(0, JsonNode.Parse(await Get($"/api/search?q={secret}"))!["total"]!.GetValue<int>());
        }
    }

    [Fact]
    public async Task No_worksheet_of_the_piece_tells_it_on_the_screen_or_on_paper()
    {
        var id = await Piece();
        var garment = JsonNode.Parse(await Get($"/api/garments/{id}"))!;
        using var made = await host.Client.PostAsJsonAsync("/api/worksheets", new JsonObject
        {
            ["garment"] = id, ["technique"] = garment["techniques"]![0]!["id"]!.ToString(),
            ["plan"] = new JsonObject { ["groups"] = new JsonArray(new JsonObject { ["tucks"] = 5, ["width"] = "1/8 in", ["space"] = "1/4 in" }) },
        }, Ct);
        var sheet = made.Headers.Location!.ToString();
        var page = sheet.Replace("/api", "", StringComparison.Ordinal);
        using var print = PdfDocument.Open(await host.Client.GetByteArrayAsync($"{page}.pdf", Ct));
        var paper = string.Join(' ', print.GetPages().Select(p => p.Text)) + print.Information.Title + print.Information.Subject + print.Information.Keywords;
        foreach (var text in new[] { await made.Content.ReadAsStringAsync(Ct), await Get(sheet), await Get(page), await Get($"{page}/at-the-table"), await Get("/api/worksheets"), paper })
        {
            Assert.All(Secrets, secret => Assert.DoesNotContain(secret, text, StringComparison.OrdinalIgnoreCase));
        }
    }

    [Fact]
    public async Task On_the_piece_it_is_folded_away_marked_and_not_printed()
    {
        var page = await Get($"/pieces/{await Piece()}");
        var folded = Folded().Match(page);
        Assert.True(folded.Success);
        Assert.Contains("screen-only", folded.Groups[1].Value, StringComparison.Ordinal);
        Assert.DoesNotContain(" open", folded.Groups[1].Value, StringComparison.Ordinal);
        Assert.All(Secrets, secret => Assert.Contains(secret, folded.Value, StringComparison.Ordinal));

        // The history on the page is hers too and is not printed either; all the rest is without it.
        var rest = History().Replace(page.Replace(folded.Value, "", StringComparison.Ordinal), "");
        Assert.All(Secrets, secret => Assert.DoesNotContain(secret, rest, StringComparison.Ordinal));
        Assert.Contains("Lent since 1 September 2026", rest, StringComparison.Ordinal);
    }

    private async Task<string> Get(string address)
    {
        using var answer = await host.Client.GetAsync(address, Ct);
        Assert.True(answer.IsSuccessStatusCode, $"{address}: {answer.StatusCode}");
        return await answer.Content.ReadAsStringAsync(Ct);
    }

    private async Task<string> Piece()
    {
        using var answer = await host.Client.PostAsJsonAsync("/api/garments", new JsonObject
        {
            ["name"] = "Tucked gown", ["kind"] = "nightgown", ["tags"] = new JsonArray("teaching"),
            ["techniques"] = new JsonArray(new JsonObject { ["kind"] = "tucks", ["tuckKind"] = "pin", ["part"] = "yoke" }),
            ["condition"] = new JsonArray(new JsonObject { ["what"] = "tear", ["attention"] = "soon" }),
            ["shown"] = new JsonArray(new JsonObject { ["hoursOfLight"] = 10 }),
            ["whereabouts"] = new JsonObject { ["is"] = "lent", ["since"] = "2026-09-01", ["to"] = Secrets[7] },
            ["acquired"] = new JsonObject { ["when"] = Secrets[0], ["from"] = Secrets[1], ["price"] = Secrets[2], ["insuredFor"] = Secrets[3], ["papers"] = Secrets[4] },
            ["place"] = new JsonObject { ["shelf"] = Secrets[5], ["box"] = Secrets[6] },
        }, Ct);
        return (await answer.Content.ReadFromJsonAsync<JsonObject>(Ct))!["id"]!.ToString();
    }

    [GeneratedRegex("""<details ([^>]*id="private"[^>]*)>.*?</details>""", RegexOptions.Singleline)]
    private static partial Regex Folded();

    [GeneratedRegex("""<section class="sheet screen-only" aria-labelledby="history">.*?</section>""", RegexOptions.Singleline)]
    private static partial Regex History();
}
