using System.IO.Compression;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Backups;

/// <summary>An archive with accounts and something of everything, on a PostgreSQL of its own: backed up while it runs, and compared row by row.</summary>
public sealed class EverythingComesBackTests(PostgresServer postgres) : IDisposable
{
    private readonly TemporaryFolder folder = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Every_row_and_every_picture_comes_back_and_the_archive_goes_on()
    {
        await using var house = new Household(postgres);
        await house.InitializeAsync();
        var (garment, token) = await Fill(house);
        var file = Path.Combine(folder.Path, "everything.heirloom");
        await Kept.Do("backup", file, house.Host.Folder, house.Host.ConnectionString);
        var before = await Kept.Rows(house.Host.ConnectionString);
        foreach (var table in new[] { "archive_events.mt_events", "archive_events.mt_streams", "garment", "numberreservation", "listedpiece", "pictureowner", "lesson", "lessonversion", "draft", "question", "ownword",
            "worksheet", "ticks", "printer", "madeup", "region", "person", "account_token", "account_invitation", "account_book", "manychange", "manypiece" })
            Assert.True(before.Single(b => b.Key == table || b.Key == "archive.mt_doc_" + table).Value.Length > 0, table);

        // What belongs to the running archive alone stays out: keys, and who is signed in where.
        using (var zip = ZipFile.OpenRead(file))
            Assert.DoesNotContain(zip.Entries, e => e.FullName.EndsWith("form_keys", StringComparison.Ordinal) || e.FullName.EndsWith("account_session", StringComparison.Ordinal));

        await using var other = new ArchiveHost(postgres) { Settings = ["--Archive:Access=Accounts"], ConnectionString = await postgres.NewDatabase() };
        await Kept.Do("restore", file, other.Folder, other.ConnectionString);
        var after = await Kept.Rows(other.ConnectionString);
        Assert.Equal(before.Keys, after.Keys);
        foreach (var (table, rows) in before) Assert.True(rows.SequenceEqual(after[table]), $"{table}: {rows.Length} rows were, {after[table].Length} are");
        ComparePictures(Path.Combine(house.Host.Folder, "pictures", "originals"), Path.Combine(other.Folder, "pictures", "originals"));

        await other.InitializeAsync();
        using var owner = await SignIn(other, "Orla");
        foreach (var way in new[] { $"/api/garments/{garment}", $"/api/garments/{garment}/history", "/api/garments", "/api/lessons", "/api/worksheets", "/api/questions", "/api/words", "/api/account/people" })
            Assert.Equal(await house.As("owner").GetStringAsync(new Uri(way, UriKind.Relative), Cancel), await owner.GetStringAsync(new Uri(way, UriKind.Relative), Cancel));
        await Kept.FindsAtLast(owner, "zephyrette", garment);

        // Her program still comes in; a browser that was signed in signs in again.
        using var program = new HttpClient { BaseAddress = other.Address };
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        Assert.Equal(HttpStatusCode.OK, (await program.GetAsync(new Uri($"/api/garments/{garment}", UriKind.Relative), Cancel)).StatusCode);

        await GoesOn(owner, garment);
    }

    private static async Task GoesOn(HttpClient owner, string garment)
    {
        using var read = await owner.GetAsync(new Uri($"/api/garments/{garment}", UriKind.Relative), Cancel);
        var version = (await Kept.Read(read, HttpStatusCode.OK))["version"]!.GetValue<long>();
        using var change = new HttpRequestMessage(HttpMethod.Patch, $"/api/garments/{garment}") { Content = JsonContent.Create(new { description = "after the restore" }) };
        change.Headers.TryAddWithoutValidation("If-Match", $"\"{version}\"");
        using var changed = await owner.SendAsync(change, Cancel);
        Assert.Equal(version + 1, (await Kept.Read(changed, HttpStatusCode.OK))["version"]!.GetValue<long>());
        var position = long.Parse(changed.Headers.GetValues("X-Position").Single(), System.Globalization.CultureInfo.InvariantCulture);
        using var second = await owner.PostAsJsonAsync("/api/garments", new { number = "E-9", name = "Batiste slip zephyrotte" }, Cancel);
        var entered = await Kept.Read(second, HttpStatusCode.Created);
        Assert.True(long.Parse(second.Headers.GetValues("X-Position").Single(), System.Globalization.CultureInfo.InvariantCulture) > position);
        await Kept.FindsAtLast(owner, "zephyrotte", entered["id"]!.ToString());
        using var taken = await owner.PostAsJsonAsync("/api/garments", new { number = "E-1", name = "Another" }, Cancel);
        Assert.Equal(HttpStatusCode.Conflict, taken.StatusCode);
    }

    private static void ComparePictures(string from, string to)
    {
        static string[] Files(string folder) => [.. Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(folder, f)).Order(StringComparer.Ordinal)];
        Assert.Equal(Files(from), Files(to));
        Assert.Equal(2, Files(from).Length);
        foreach (var file in Files(from)) Assert.Equal(File.ReadAllBytes(Path.Combine(from, file)), File.ReadAllBytes(Path.Combine(to, file)));
    }

    private static async Task<HttpClient> SignIn(ArchiveHost host, string name)
    {
        var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = host.Address };
        await Household.Post(client, "/api/account/sign-in", new() { ["name"] = name, ["password"] = Household.Password });
        return client;
    }

    // Something of everything that is kept.
    private static async Task<(string Garment, string Token)> Fill(Household house)
    {
        var keeper = house.As("keeper");
        Task<JsonObject> Post(string path, string json) => Household.Post(keeper, path, JsonNode.Parse(json)!.AsObject());
        var piece = await Kept.Enter(keeper, JsonNode.Parse("""
            {"number":"E-1","name":"Nainsook dress, “zephyrette” \\ ½ in","kind":"baby-dress","dated":"1908~","description":"Two lines,\nand a back\\slash, a tab\t.",
             "techniques":[{"kind":"tucks","tuckKind":"pin","part":"yoke","groups":[{"tucks":6,"width":"1/16 in","space":"3/16 in"}]}],
             "condition":[{"what":"tear","part":"hem"}],"repairs":[{"method":"darn"}],"acquired":{"price":"four shillings"},"place":{"shelf":"by the window"}}
            """)!);
        var garment = piece["id"]!.ToString();
        await Kept.Upload(keeper, garment, Made.Png());
        using var read = await keeper.GetAsync(new Uri($"/api/garments/{garment}", UriKind.Relative), Cancel);
        var state = await Kept.Read(read, HttpStatusCode.OK);
        var picture = state["pictures"]![0]!["id"]!.ToString();
        using var region = new StringContent(new JsonObject
        {
            ["@context"] = "http://www.w3.org/ns/anno.jsonld", ["type"] = "Annotation",
            ["body"] = new JsonObject { ["type"] = "TextualBody", ["value"] = "needle holes", ["format"] = "text/plain" },
            ["target"] = new JsonObject
            {
                ["type"] = "SpecificResource", ["source"] = $"/iiif/garments/{garment}/canvas/{picture}",
                ["selector"] = new JsonObject { ["type"] = "FragmentSelector", ["conformsTo"] = "http://www.w3.org/TR/media-frags/", ["value"] = "xywh=1,2,10,5" },
            },
        }.ToJsonString(), System.Text.Encoding.UTF8, "application/ld+json");
        using var marked = await keeper.PostAsync(new Uri($"/api/pictures/{picture}/regions", UriKind.Relative), region, Cancel);
        await Kept.Read(marked, HttpStatusCode.Created);

        var lesson = await Post("/api/lessons", """{"name":"Pin tucks by hand"}""");
        await Post($"/api/lessons/{lesson["id"]}/entries", $$"""{"garment":"{{garment}}","show":"piece"}""");
        await keeper.PutAsJsonAsync("/api/drafts/pieces-new", new { name = "half typed" }, Cancel);
        await Post("/api/questions", """{"name":"Pin tucks","search":"tuckKind=pin"}""");
        await Post("/api/words/laces", """{"label":"Attic lace","definition":"As in the box."}""");
        await Post("/api/printers", """{"name":"The one upstairs","measured":"49.5 mm"}""");
        var sheet = await Post("/api/worksheets", """{"title":"Five","plan":{"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}]}}""");
        using var ticks = await keeper.PutAsJsonAsync($"/api/worksheets/{sheet["id"]}/ticks", new { done = new[] { 1 } }, Cancel);
        Assert.True(ticks.IsSuccessStatusCode, await ticks.Content.ReadAsStringAsync(Cancel));
        using var form = new MultipartFormDataContent { { new StringContent("2026-01-05"), "date" }, { new StringContent("1 7/16 in"), "finished" }, { new ByteArrayContent(Made.Png(40, 30)), "file", "made.png" } };
        using var made = await keeper.PostAsync(new Uri($"/api/worksheets/{sheet["id"]}/made-up", UriKind.Relative), form, Cancel);
        await Kept.Read(made, HttpStatusCode.Created);
        var many = await Post("/api/many", $$"""{"pieces":["{{garment}}"],"tags":{"add":["lent in spring"]} }""");
        await Wait.Until(async () => JsonNode.Parse(await keeper.GetStringAsync(new Uri($"/api/many/{many["id"]}", UriKind.Relative), Cancel))!["state"]!.ToString() == "done", "the change of many is done");
        await Household.Post(house.As("owner"), "/api/account/invitations", new() { ["role"] = "pupil", ["note"] = "for a new pupil" });
        await Household.Post(keeper, "/api/account/recovery-codes", new() { ["old"] = Household.Password });
        var token = await Household.Post(keeper, "/api/account/tokens", JsonNode.Parse("""{"name":"reader","scopes":["read"],"days":3}""")!.AsObject());
        return (garment, token["token"]!.ToString());
    }
}
