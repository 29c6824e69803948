using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

[Collection("Processes")]
public sealed class RecoveryTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Killed_in_the_middle_of_writing_it_starts_again_with_every_piece_it_acknowledged(bool postgresToo)
    {
        var acknowledged = new ConcurrentDictionary<string, string>();
        await using (var archive = await RunningArchive.StartFromSource(folder.Path).Ready())
        {
            int[] killed = [archive.Id, archive.HostId(), .. postgresToo ? [archive.PostgresId] : Array.Empty<int>()];
            var writers = Enumerable.Range(0, 4).Select(w => WriteUntilItDies(archive.Client, w, acknowledged)).ToArray();
            await Wait.Until(() => acknowledged.Count >= 40 || writers.Any(w => w.IsCompleted), "40 pieces are acknowledged", every: 5);
            RunningArchive.Signal("KILL", killed);
            await Task.WhenAll(writers);
        }
        Assert.NotEmpty(acknowledged);

        await using var again = await RunningArchive.Start(folder.Path).Ready();
        foreach (var (id, number) in acknowledged)
        {
            var found = await again.Client.GetAsync("/api/garments/" + id, Cancel);
            Assert.Equal(HttpStatusCode.OK, found.StatusCode);
            Assert.Equal(number, JsonNode.Parse(await found.Content.ReadAsStringAsync(Cancel))!["number"]!.GetValue<string>());
        }
    }

    [Fact]
    public async Task Killed_while_she_types_it_starts_again_with_the_last_draft_it_acknowledged()
    {
        var acknowledged = 0;
        await using (var archive = await RunningArchive.Start(folder.Path).Ready())
        {
            var typing = Task.Run(async () =>
            {
                try
                {
                    for (var n = 1; ; n++)
                    {
                        var answer = await archive.Client.PutAsJsonAsync("/api/drafts/new-piece", new { name = new string('a', n) }, Cancel);
                        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
                        Volatile.Write(ref acknowledged, n);
                    }
                }
                catch (HttpRequestException)
                {
                    // Killed, as meant: the last draft was not acknowledged.
                }
            }, Cancel);
            await Wait.Until(() => Volatile.Read(ref acknowledged) >= 25 || typing.IsCompleted, "25 drafts are acknowledged", every: 5);
            RunningArchive.Signal("KILL", archive.Id, archive.PostgresId);
            await typing;
        }

        await using var again = await RunningArchive.Start(folder.Path).Ready();
        var draft = JsonNode.Parse(await again.Client.GetStringAsync("/api/drafts/new-piece", Cancel))!;
        // One more may have been written whose answer did not come through.
        Assert.InRange(draft["name"]!.GetValue<string>().Length, acknowledged, acknowledged + 1);
    }

    [Fact]
    public async Task A_postgres_that_the_killed_host_left_alive_is_not_left_running_beside_the_new_one()
    {
        var killed = RunningArchive.Start(folder.Path);
        await killed.Ready();
        var left = killed.PostgresId;
        RunningArchive.Signal("KILL", killed.Id);
        await killed.Code(TimeSpan.FromSeconds(5));
        Assert.True(RunningArchive.Runs(left));
        await using var again = await RunningArchive.Start(folder.Path).Ready();
        Assert.False(RunningArchive.Runs(left));
        Assert.NotEqual(left, again.PostgresId);
    }

    private static async Task WriteUntilItDies(HttpClient client, int writer, ConcurrentDictionary<string, string> acknowledged)
    {
        try
        {
            for (var n = 0; ; n++)
            {
                var number = $"K-{writer.ToString(CultureInfo.InvariantCulture)}-{n.ToString(CultureInfo.InvariantCulture)}";
                var answer = await client.PostAsJsonAsync("/api/garments", new { number, name = "Lawn slip", kind = "slip" }, Cancel);
                Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
                acknowledged[JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["id"]!.GetValue<string>()] = number;
            }
        }
        catch (HttpRequestException)
        {
            // Killed, as meant: the last piece was not acknowledged.
        }
    }
}
