using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Pieces put into an archive before a test looks at it.</summary>
internal static class Pieces
{
    /// <summary>A baby dress with pin tucks by hand on its yoke and torchon at its hem.</summary>
    public static Task<JsonObject> BabyDress(this ArchiveHost host, string number = "G-014") => host.Enter(new()
    {
        ["number"] = number, ["name"] = "Nainsook baby dress with a tucked yoke", ["kind"] = "baby-dress", ["dated"] = "1908~", ["overall"] = "fair",
        ["techniques"] = new JsonArray(
            new JsonObject
            {
                ["kind"] = "tucks", ["tuckKind"] = "pin", ["part"] = "yoke", ["runs"] = "down", ["measuredFrom"] = "centre-front", ["turned"] = "to-sides",
                ["groups"] = new JsonArray(new JsonObject { ["tucks"] = 6, ["width"] = "1/16 in", ["space"] = "3/16 in" }), ["sewn"] = "hand", ["handStitch"] = "running",
            },
            new JsonObject { ["kind"] = "lace", ["lace"] = "torchon", ["part"] = "hem", ["form"] = "edging", ["laceMade"] = "hand", ["width"] = "3/4 in" }),
        ["condition"] = new JsonArray(new JsonObject { ["part"] = "hem", ["what"] = "lace-come-away", ["extent"] = "4 in", ["severity"] = "moderate" }),
        ["repairs"] = new JsonArray(new JsonObject { ["part"] = "sleeve", ["method"] = "patch", ["sewn"] = "hand", ["when"] = "in-period" }),
    });

    /// <summary>A blouse whose tucks were sewn by machine: much like the dress, but not what is looked for.</summary>
    public static Task<JsonObject> Blouse(this ArchiveHost host) => host.Enter(new()
    {
        ["number"] = "G-015", ["name"] = "Lawn blouse, tucked by machine", ["kind"] = "blouse", ["dated"] = "1912",
        ["techniques"] = new JsonArray(new JsonObject { ["kind"] = "tucks", ["tuckKind"] = "pin", ["part"] = "yoke", ["sewn"] = "machine-lockstitch" }),
    });

    public static async Task<JsonObject> Enter(this ArchiveHost host, JsonObject garment)
    {
        var answer = await host.Client.PostAsJsonAsync("/api/garments", garment);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
    }

    public static async Task<JsonObject> Garment(this ArchiveHost host, string id) =>
        (await host.Client.GetFromJsonAsync<JsonObject>($"/api/garments/{id}"))!;

    /// <summary>What somebody else changes of it.</summary>
    public static async Task Change(this ArchiveHost host, string id, long version, JsonObject patch)
    {
        using var request = new HttpRequestMessage(HttpMethod.Patch, $"/api/garments/{id}") { Content = JsonContent.Create(patch) };
        request.Headers.TryAddWithoutValidation("If-Match", $"\"{version}\"");
        using var answer = await host.Client.SendAsync(request);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    /// <summary>The address of a worksheet made from its run of tucks, as recorded.</summary>
    public static async Task<string> Sheet(this ArchiveHost host, JsonObject dress)
    {
        using var answer = await host.Client.PostAsJsonAsync("/api/worksheets", new JsonObject
        {
            ["garment"] = dress.Id(), ["technique"] = dress.Tucks(),
            ["plan"] = new JsonObject { ["groups"] = new JsonArray(new JsonObject { ["tucks"] = 6, ["width"] = "1/16 in", ["space"] = "3/16 in" }) },
        });
        return answer.Headers.Location!.ToString().Replace("/api", "", StringComparison.Ordinal);
    }

    /// <summary>How many pieces there are.</summary>
    public static async Task<int> Count(this ArchiveHost host) =>
        (await host.Client.GetFromJsonAsync<JsonObject>("/api/garments?size=1"))!["total"]!.GetValue<int>();

    /// <summary>The draft of a form; null if there is none.</summary>
    public static async Task<JsonObject?> Draft(this ArchiveHost host, string form)
    {
        using var answer = await host.Client.GetAsync($"/api/drafts/{form}");
        return answer.IsSuccessStatusCode ? await answer.Content.ReadFromJsonAsync<JsonObject>() : null;
    }

    public static string Id(this JsonObject entry) => entry["id"]!.ToString();

    public static string Tucks(this JsonObject garment) =>
        garment["techniques"]!.AsArray().First(t => t!["kind"]!.ToString() == "tucks")!["id"]!.ToString();
}
