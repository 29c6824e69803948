using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

/// <summary>The folder of the index thrown away under the running service, and while it does not run.</summary>
[Collection("Processes")]
public sealed class IndexLossTests : IDisposable
{
    private const int Pieces = 60;
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_index_that_is_thrown_away_is_built_again_by_itself()
    {
        var index = Path.Combine(folder.Path, "index");
        await using (var archive = await RunningArchive.Start(folder.Path).Ready())
        {
            for (var n = 0; n < Pieces; n++) await Enter(archive.Client, n);
            await Finds(archive, Pieces);
            ThrowAway(index);
            // The next piece is what shows the loss; it is saved all the same.
            await Enter(archive.Client, Pieces);
            var clock = Stopwatch.StartNew();
            while (!Directory.Exists(index) || Directory.GetDirectories(index).Length == 0)
            {
                Assert.True(clock.Elapsed < TimeSpan.FromMinutes(1), $"No new index is made. It said: {archive.Said}");
                await Asked(archive.Client);
                await Task.Delay(20, Cancel);
            }

            await Finds(archive, Pieces + 1);
            RunningArchive.Signal("TERM", archive.Id);
            Assert.Equal(0, await archive.Code(TimeSpan.FromSeconds(10)));
        }

        Directory.Delete(index, recursive: true);
        await using var again = await RunningArchive.Start(folder.Path).Ready();
        await Finds(again, Pieces + 1);
    }

    // The running program may just be writing into it.
    private static void ThrowAway(string index)
    {
        for (var tries = 0; Directory.Exists(index); tries++)
        {
            try { Directory.Delete(index, recursive: true); }
            catch (IOException) when (tries < 20) { }
        }
    }

    private static async Task Enter(HttpClient client, int number) =>
        Assert.Equal(HttpStatusCode.Created, (await client.PostAsJsonAsync("/api/garments", new { number = "I-" + number, name = "Petticoat " + number }, Cancel)).StatusCode);

    private static async Task Finds(RunningArchive archive, int wanted)
    {
        var clock = Stopwatch.StartNew();
        for (int? found; (found = await Asked(archive.Client)) != wanted; await Task.Delay(50, Cancel))
            Assert.True(clock.Elapsed < TimeSpan.FromMinutes(1), $"It finds {found} of {wanted}. It said: {archive.Said}");
    }

    // How many it finds; null while it says that the index is being built.
    private static async Task<int?> Asked(HttpClient client)
    {
        var answer = await client.GetAsync("/api/search?q=petticoat&size=1", Cancel);
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        if (answer.StatusCode == HttpStatusCode.OK) return JsonNode.Parse(text)!["total"]!.GetValue<int>();
        Assert.True(answer.StatusCode == HttpStatusCode.ServiceUnavailable, $"{(int)answer.StatusCode} {text}");
        Assert.NotNull(answer.Headers.RetryAfter);
        Assert.Contains("index is being built", text, StringComparison.Ordinal);
        return null;
    }
}
