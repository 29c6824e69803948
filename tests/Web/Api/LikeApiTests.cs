using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>What is alike, by the address: techniques by their making, pieces as wholes, and what can't be asked.</summary>
public sealed class LikeApiTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Techniques_made_alike_come_nearest_first_with_reasons_and_at_another_size_when_asked()
    {
        var (id, technique) = await Enter("Robe", "1/8 in", "1/4 in");
        var (same, _) = await Enter("Slip", "1/8 in", "1/4 in");
        var (larger, _) = await Enter("Apron", "1/4 in", "1/2 in");
        var like = await Items($"/api/garments/{id}/techniques/{technique}/like");
        Assert.Equal([same, larger], like.Select(l => l["id"]!.GetValue<string>()));
        Assert.Equal(0, like[0]["distance"]!.GetValue<double>());
        Assert.Contains("w : s is 1 : 2 in both", like[1]["why"]!.AsArray().Select(w => w!.GetValue<string>()));
        Assert.Equal([larger], (await Items($"/api/garments/{id}/techniques/{technique}/like?proportions=true")).Select(l => l["id"]!.GetValue<string>()));
        var whole = await Items($"/api/garments/{id}/like?size=1");
        Assert.Equal(same, Assert.Single(whole)["id"]!.GetValue<string>());
        Assert.Null(whole[0]["technique"]);
    }

    [Fact]
    public async Task The_page_says_why_and_leads_to_the_other_run()
    {
        var (id, technique) = await Enter("Bib, finely tucked", "1/16 in", "3/16 in");
        var (other, run) = await Enter("Bonnet, tucked twice as wide", "1/8 in", "3/8 in");
        var page = await host.Client.GetStringAsync(new Uri($"/pieces/{id}/like?technique={technique}&proportions=true", UriKind.Relative), Stop);
        Assert.Contains($"/pieces/{other}#{run}", page, StringComparison.Ordinal);
        Assert.Contains("w : s is 1 : 3 in both", page, StringComparison.Ordinal);
        Assert.Contains($"/pieces/{other}\"", await host.Client.GetStringAsync(new Uri($"/pieces/{id}/like", UriKind.Relative), Stop), StringComparison.Ordinal);
        using var nothing = await host.Client.GetAsync(new Uri($"/pieces/{id}/like?technique={other}", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, nothing.StatusCode);
    }

    [Theory]
    [InlineData("like?size=0", "size")]
    [InlineData("like?size=101", "size")]
    [InlineData("like?colour=white", "colour")]
    [InlineData("techniques/019a0000-0000-7000-8000-000000000001/like?proportions=perhaps", "proportions")]
    public async Task What_cannot_be_asked_is_400_and_named(string address, string path)
    {
        var (id, _) = await Enter("Cap", "1/16 in", "1/8 in");
        using var answer = await host.Client.GetAsync(new Uri($"/api/garments/{id}/{address}", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.NotNull((await answer.Content.ReadFromJsonAsync<JsonObject>(Stop))!["errors"]![path]);
    }

    [Theory]
    [InlineData("/api/garments/019a0000-0000-7000-8000-00000000dead/like")]
    [InlineData("/api/garments/019a0000-0000-7000-8000-00000000dead/techniques/019a0000-0000-7000-8000-00000000dead/like")]
    public async Task What_is_not_there_is_404(string address)
    {
        using var answer = await host.Client.GetAsync(new Uri(address, UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Equal("No garment has the id 019a0000-0000-7000-8000-00000000dead.", (await answer.Content.ReadFromJsonAsync<JsonObject>(Stop))!["detail"]!.ToString());
    }

    private async Task<(string Id, string Technique)> Enter(string name, string width, string space)
    {
        using var answer = await host.Client.PostAsJsonAsync("/api/garments", new JsonObject
        {
            ["name"] = name,
            ["techniques"] = new JsonArray(new JsonObject
            {
                ["kind"] = "tucks", ["tuckKind"] = name == "Cap" ? "corded" : "pin", ["part"] = "yoke", ["sewn"] = "hand",
                ["groups"] = new JsonArray(new JsonObject { ["tucks"] = 6, ["width"] = width, ["space"] = space }),
            }),
        }, Stop);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        var garment = (await answer.Content.ReadFromJsonAsync<JsonObject>(Stop))!;
        return (garment["id"]!.GetValue<string>(), garment["techniques"]![0]!["id"]!.GetValue<string>());
    }

    private async Task<List<JsonObject>> Items(string address) =>
        [.. (await host.Client.GetFromJsonAsync<JsonObject>(new Uri(address, UriKind.Relative), Stop))!["items"]!.AsArray().Select(i => i!.AsObject())
            .Where(i => i["name"]!.GetValue<string>() is "Robe" or "Slip" or "Apron")];
}
