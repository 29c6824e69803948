using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Demo;
using HeirloomArchive.Web.Demo.Drawing;

namespace HeirloomArchive.Web.Tests;

/// <summary>The demonstration, loaded into a real host as its start does.</summary>
public class DemoTests(PostgresServer postgres)
{
    internal static string Seed { get; } = Path.Combine(SourceFolder.Top, "seed-demo");

    [Fact]
    public async Task A_load_that_was_stopped_goes_on_and_nothing_is_there_twice()
    {
        await using var host = await ArchiveHost.Start(postgres);
        var loader = new DemoLoader(host.Client, Seed);

        // Stopped again and again, at other places each time.
        foreach (var after in (int[])[7, 31, 64])
        {
            using var stop = new CancellationTokenSource();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() =>
                loader.Load(new Each(p => { if (p.Done == after) stop.Cancel(); }), stop.Token));
        }

        var seen = new List<DemoProgress>();
        await loader.Load(new Each(seen.Add), Stop);

        Assert.Equal(seen[0].Total, seen.Count);
        Assert.Equal(Enumerable.Range(1, seen.Count), seen.Select(p => p.Done));
        var pieces = await Items(host.Client, "/api/garments");
        Assert.Equal(40, pieces.Count);
        Assert.All(pieces, IsWhole);
        await Everything(host.Client);

        var before = pieces.ToDictionary(p => p["id"]!.ToString(), p => p["version"]!.GetValue<long>());
        await loader.Load(new Each(_ => { }), Stop);
        var again = await Items(host.Client, "/api/garments");
        Assert.Equal(before, again.ToDictionary(p => p["id"]!.ToString(), p => p["version"]!.GetValue<long>()));
        await Everything(host.Client);

        await DemoTour.Walk(host.Client, Stop);

        // A question that she forgets does not come back.
        var question = (await Listed(host.Client, "/api/questions"))[0]["id"]!.ToString();
        (await host.Client.DeleteAsync(new Uri($"/api/questions/{question}", UriKind.Relative), Stop)).EnsureSuccessStatusCode();
        await loader.Load(new Each(_ => { }), Stop);
        Assert.Equal(4, (await Listed(host.Client, "/api/questions")).Count);
    }

    [Fact]
    public async Task A_file_that_is_refused_is_named_with_the_field_at_fault()
    {
        await using var host = await ArchiveHost.Start(postgres);
        using var folder = new TemporaryFolder();
        foreach (var part in (string[])["garments", "worksheets", "lessons", "printers", "questions"]) Directory.CreateDirectory(Path.Combine(folder.Path, part));
        await File.WriteAllTextAsync(Path.Combine(folder.Path, "garments", "X-1.json"),
            """{"post":{"number":"X-1","name":"A cap","techniques":[{"kind":"tucks","groups":[{"tucks":3,"width":"-1/8 in"}]}]}}""", Stop);

        var error = await Assert.ThrowsAsync<DemoException>(() => new DemoLoader(host.Client, folder.Path).Load(new Each(_ => { }), Stop));

        Assert.Equal("garments/X-1.json", error.File);
        Assert.Contains("techniques[0].groups[0].width", error.Message, StringComparison.Ordinal);
        Assert.Contains("422", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_is_no_JSON_is_named()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(Path.Combine(folder.Path, "garments"));
        await File.WriteAllTextAsync(Path.Combine(folder.Path, "garments", "X-2.json"), "{ \"post\": ", Stop);
        using var nobody = new HttpClient { BaseAddress = new("http://127.0.0.1:1/") };

        var error = await Assert.ThrowsAsync<DemoException>(() => new DemoLoader(nobody, folder.Path).Load(new Each(_ => { }), Stop));

        Assert.StartsWith("garments/X-2.json: ", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_piece_has_a_number_of_its_own_and_captions_that_differ()
    {
        var seeds = Directory.GetFiles(Path.Combine(Seed, "garments")).Select(f => (Name: Path.GetFileNameWithoutExtension(f), Content: JsonNode.Parse(File.ReadAllText(f))!)).ToList();
        Assert.Equal(41, seeds.Count); // forty, and one that was entered twice and set aside
        Assert.All(seeds, seed =>
        {
            Assert.Equal(seed.Name, seed.Content["post"]!["number"]!.ToString());
            var captions = (seed.Content["pictures"] as JsonArray ?? []).Select(p => p!["caption"]!.ToString()).ToList();
            Assert.Equal(captions.Distinct(), captions);
            Assert.True(captions.Count >= 4, $"{seed.Name} has {captions.Count} pictures.");
        });
    }

    [Theory, InlineData("whole"), InlineData("techniques[0]"), InlineData("techniques[1]"), InlineData("repairs[0]"), InlineData("back"), InlineData("cloth"), InlineData("condition[0]"), InlineData("whole, from behind"), InlineData("techniques[0], raking")]
    public void A_piece_is_drawn_the_same_each_time_and_unlike_another(string what)
    {
        var picture = DemoPicture.Draw(Dress("X-3"), what);

        Assert.Equal(picture, DemoPicture.Draw(Dress("X-3"), what));
        Assert.NotEqual(picture, DemoPicture.Draw(Dress("X-4"), what));
    }

    [Fact]
    public void A_drawn_picture_is_a_PNG_file_of_900_by_1200_with_white_work_on_a_coloured_ground()
    {
        var rgb = PngReader.Decode(DemoPicture.Draw(Dress("X-3"), "whole"), out var width, out var height);

        Assert.Equal((900, 1200), (width, height));
        Assert.Equal(900 * 1200 * 3, rgb.Length);
        var ground = rgb.AsSpan(0, 3).ToArray();
        var dress = rgb.AsSpan((700 * 900 + 450) * 3, 3).ToArray();
        Assert.All(dress, channel => Assert.InRange(channel, 190, 255));
        Assert.All(ground, channel => Assert.InRange(channel, 40, 170));
        Assert.NotInRange(ground.Max() - ground.Min(), 0, 9);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static async Task Everything(HttpClient client)
    {
        Assert.Equal(6, (await Items(client, "/api/worksheets")).Count);
        Assert.Equal(3, (await Items(client, "/api/lessons")).Count);
        Assert.Equal(2, (await Listed(client, "/api/printers")).Count);
        Assert.Equal(5, (await Listed(client, "/api/questions")).Count);
        var made = 0;
        foreach (var sheet in await Items(client, "/api/worksheets")) made += (await Listed(client, $"/api/worksheets/{sheet["id"]}/made-up")).Count;
        Assert.Equal(6, made);

        // Each place is marked once, and shows the entry that the seed names.
        foreach (var piece in await Items(client, "/api/garments"))
        {
            var seed = JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(Seed, "garments", $"{piece["number"]}.json"), Stop))!;
            var wanted = (seed["pictures"] as JsonArray ?? []).SelectMany(p => p!["marks"] as JsonArray ?? []).Select(m => (At: $"xywh={m!["at"]}", Entry: Entry(piece, m["shows"]!.ToString())));
            var marked = await Listed(client, $"/api/garments/{piece["id"]}/regions");
            Assert.Equal(wanted.Order(), marked.Select(m => (At: m["target"]!["selector"]!["value"]!.ToString(), Entry: Shown(m))).Order());
        }
    }

    private static string Entry(JsonObject piece, string place) => piece[place.Split('[')[0]]![int.Parse(place.Split('[', ']')[1], System.Globalization.CultureInfo.InvariantCulture)]!["id"]!.ToString();

    private static string Shown(JsonObject mark) =>
        (mark["body"] is JsonArray several ? several.First(b => b!["source"] is not null)! : mark["body"]!)["source"]!.ToString().Split('/')[^1];

    private static async Task<List<JsonObject>> Listed(HttpClient client, string address) =>
        [.. JsonNode.Parse(await client.GetStringAsync(new Uri(address, UriKind.Relative), Stop))!["items"]!.AsArray().Select(i => i!.AsObject())];

    private static void IsWhole(JsonObject piece)
    {
        var seed = JsonNode.Parse(File.ReadAllText(Path.Combine(Seed, "garments", $"{piece["number"]}.json")))!.AsObject();
        var then = seed["then"] as JsonArray ?? [];
        var pictures = seed["pictures"] as JsonArray ?? [];
        Assert.Equal(1 + then.Count + (pictures.Count > 0 ? 2 : 0), piece["version"]!.GetValue<long>());
        Assert.Equal(pictures.Select(p => (p!["caption"]!.ToString(), p["view"]!.ToString())), piece["pictures"]!.AsArray().Select(p => (p!["caption"]!.ToString(), p["view"]!.ToString())));
        foreach (var list in (string[])["techniques", "condition", "repairs", "examinations"])
        {
            var count = (seed["post"]![list] as JsonArray ?? []).Count + then.Count(step => step!["add"]?.ToString() == list);
            Assert.Equal(count, piece[list]!.AsArray().Count);
        }
    }

    private static async Task<List<JsonObject>> Items(HttpClient client, string address)
    {
        var answer = JsonNode.Parse(await client.GetStringAsync(new Uri($"{address}?page=1&size=100", UriKind.Relative), Stop))!;
        var items = answer["items"]!.AsArray().Select(item => item!.AsObject()).ToList();
        Assert.Equal(answer["total"]!.GetValue<int>(), items.Count);
        return items;
    }

    private static JsonObject Dress(string number) => new()
    {
        ["number"] = number,
        ["kind"] = "baby-dress",
        ["techniques"] = JsonNode.Parse("""
            [{"kind":"tucks","part":"yoke","sewn":"hand","runs":"down","turned":"to-sides","groups":[{"tucks":5,"width":{"mm":1.5875},"space":{"mm":3.175}}]},
             {"kind":"lace","lace":"torchon","part":"hem","form":"edging","width":{"mm":19.05}}]
            """),
        ["repairs"] = JsonNode.Parse("""[{"method":"darn"}]"""),
        ["condition"] = JsonNode.Parse("""[{"what":"tear"}]"""),
    };

    // Reports at once, unlike Progress<T>, so that a stop falls where it is meant to.
    private sealed class Each(Action<DemoProgress> action) : IProgress<DemoProgress>
    {
        public void Report(DemoProgress value) => action(value);
    }
}
