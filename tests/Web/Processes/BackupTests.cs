using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

[Collection("Processes")]
public sealed class BackupTests : IDisposable
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(60);

    // The smallest whole PNG there is to say: one black pixel.
    private static readonly byte[] Picture = Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==");

    private readonly TemporaryFolder folder = new();
    private string From => Path.Combine(folder.Path, "from");
    private string To => Path.Combine(folder.Path, "to");
    private string Kept => Path.Combine(folder.Path, "kept.heirloom");

    public void Dispose() => folder.Dispose();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task What_was_backed_up_comes_back_whole_in_another_folder(bool whileItRuns)
    {
        string garment, state, history;
        await using (var archive = await RunningArchive.Start(From).Ready())
        {
            garment = await Enter(archive, "B-1", "Nainsook baby dress, “tucked” \\ ½ in");
            await Change(archive, garment, "2");
            await Upload(archive, garment);
            state = await archive.Client.GetStringAsync("/api/garments/" + garment, Cancel);
            history = await archive.Client.GetStringAsync($"/api/garments/{garment}/history", Cancel);
            if (whileItRuns) await Verb("backup", From);
        }
        if (!whileItRuns) await Verb("backup", From);
        if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Kept));

        await Verb("restore", To);
        await using var restored = await RunningArchive.Start(To).Ready();
        Assert.Equal(state, await restored.Client.GetStringAsync("/api/garments/" + garment, Cancel));
        Assert.Equal(history, await restored.Client.GetStringAsync($"/api/garments/{garment}/history", Cancel));
        var picture = JsonNode.Parse(state)!["pictures"]![0]!["id"]!.GetValue<string>();
        Assert.Equal(Picture, await restored.Client.GetByteArrayAsync($"/api/pictures/{picture}/original", Cancel));
        Assert.Equal(garment, Assert.Single(await Found(restored, "nainsook")));

        // The restored archive goes on: numbers stay taken, new events come after the old ones.
        Assert.Equal(HttpStatusCode.Conflict, (await restored.Client.PostAsJsonAsync("/api/garments", new { number = "B-1", name = "Another" }, Cancel)).StatusCode);
        await Enter(restored, "B-2", "Batiste slip");
    }

    [Fact]
    public async Task A_backup_is_not_restored_over_what_is_there()
    {
        await using (var archive = await RunningArchive.Start(From).Ready())
        {
            await Enter(archive, "B-1", "Lawn slip");
            await Verb("backup", From);
        }
        await using var restore = RunningArchive.Start(From, ["restore", Kept, "--Archive:Folder=" + From]);
        Assert.NotEqual(0, await restore.Code(Soon));
        Assert.Contains("There is something in " + From + " already", restore.Said, StringComparison.Ordinal);
    }

    private async Task Verb(string verb, string archive)
    {
        await using var running = RunningArchive.Start(archive, [verb, Kept, "--Archive:Folder=" + archive]);
        Assert.True(await running.Code(Soon) == 0, running.Said);
    }

    private static async Task<string> Enter(RunningArchive archive, string number, string name)
    {
        var answer = await archive.Client.PostAsJsonAsync("/api/garments", new { number, name }, Cancel);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, await answer.Content.ReadAsStringAsync(Cancel));
        return JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["id"]!.GetValue<string>();
    }

    private static async Task Change(RunningArchive archive, string garment, string then)
    {
        using var change = new HttpRequestMessage(HttpMethod.Patch, "/api/garments/" + garment) { Content = JsonContent.Create(new { dated = "1908~", description = "Two lines,\nand a back\\slash." }) };
        change.Headers.Add("If-Match", "\"1\"");
        var answer = await archive.Client.SendAsync(change, Cancel);
        Assert.Equal($"\"{then}\"", answer.Headers.ETag?.Tag);
    }

    private static async Task Upload(RunningArchive archive, string garment)
    {
        using var file = new ByteArrayContent(Picture);
        using var form = new MultipartFormDataContent { { file, "file", "front.png" } };
        var answer = await archive.Client.PostAsync($"/api/garments/{garment}/pictures", form, Cancel);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, await answer.Content.ReadAsStringAsync(Cancel));
    }

    // The index is built again from the record.
    private static async Task<string[]> Found(RunningArchive archive, string word)
    {
        for (var tries = 0; ; tries++)
        {
            var answer = await archive.Client.GetAsync("/api/search?q=" + word, Cancel);
            if (answer.StatusCode == HttpStatusCode.OK && JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["items"]!.AsArray() is { Count: > 0 } items)
                return [.. items.Select(i => i!["id"]!.GetValue<string>())];
            Assert.True(tries < 50, $"Not found: {word}, {answer.StatusCode.ToString()}");
            await Task.Delay(100, Cancel);
        }
    }
}
