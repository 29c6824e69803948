using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Tests.Backups;

namespace HeirloomArchive.Web.Tests.Processes;

[Collection("Processes")]
public sealed class BackupTests : IDisposable
{
    private static readonly byte[] Picture = Made.Png();

    private readonly TemporaryFolder folder = new();
    private string From => Path.Combine(folder.Path, "from");
    private string To => Path.Combine(folder.Path, "to");
    private string Backup => Path.Combine(folder.Path, "kept.heirloom");

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
            garment = (await Kept.Enter(archive.Client, new { number = "B-1", name = "Nainsook baby dress, “tucked” \\ ½ in" }))["id"]!.ToString();
            await Change(archive, garment, "2");
            await Kept.Upload(archive.Client, garment, Picture);
            state = await archive.Client.GetStringAsync("/api/garments/" + garment, Cancel);
            history = await archive.Client.GetStringAsync($"/api/garments/{garment}/history", Cancel);
            if (whileItRuns) await Kept.Do("backup", Backup, From);
        }
        if (!whileItRuns) await Kept.Do("backup", Backup, From);
        if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Backup));

        await Kept.Do("restore", Backup, To);
        await using var restored = await RunningArchive.Start(To).Ready();
        Assert.Equal(state, await restored.Client.GetStringAsync("/api/garments/" + garment, Cancel));
        Assert.Equal(history, await restored.Client.GetStringAsync($"/api/garments/{garment}/history", Cancel));
        var picture = JsonNode.Parse(state)!["pictures"]![0]!["id"]!.GetValue<string>();
        Assert.Equal(Picture, await restored.Client.GetByteArrayAsync($"/api/pictures/{picture}/original", Cancel));
        await Kept.FindsAtLast(restored.Client, "nainsook", garment);

        // The restored archive goes on: numbers stay taken, new events come after the old ones.
        Assert.Equal(HttpStatusCode.Conflict, (await restored.Client.PostAsJsonAsync("/api/garments", new { number = "B-1", name = "Another" }, Cancel)).StatusCode);
        await Kept.Enter(restored.Client, new { number = "B-2", name = "Batiste slip" });
    }

    [Fact]
    public async Task A_backup_is_not_restored_over_what_is_there()
    {
        await using (var archive = await RunningArchive.Start(From).Ready())
        {
            await Kept.Enter(archive.Client, new { number = "B-1", name = "Lawn slip" });
            await Kept.Do("backup", Backup, From);
        }
        var (code, said) = await Kept.Verb("restore", Backup, From);
        Assert.NotEqual(0, code);
        Assert.Contains("There is something in " + From + " already", said, StringComparison.Ordinal);
    }

    private static async Task Change(RunningArchive archive, string garment, string then)
    {
        using var change = new HttpRequestMessage(HttpMethod.Patch, "/api/garments/" + garment) { Content = JsonContent.Create(new { dated = "1908~", description = "Two lines,\nand a back\\slash." }) };
        change.Headers.Add("If-Match", "\"1\"");
        var answer = await archive.Client.SendAsync(change, Cancel);
        Assert.Equal($"\"{then}\"", answer.Headers.ETag?.Tag);
    }
}
