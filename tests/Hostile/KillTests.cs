using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Support;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Hostile.Tests;

/// <summary>Workers killed at random moments of 100 uploads: each is whole or refused with a reason, and nothing half shows.</summary>
[Collection("one after another")] // One kills the workers of this process, whosesoever.
public sealed class KillTests(ArchiveHost host, ITestOutputHelper output) : IClassFixture<ArchiveHost>
{
    private const int Uploads = 100, AtOnce = 4;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_is_acknowledged_is_whole_and_what_is_not_leaves_nothing()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Children are looked for in /proc.");
        var garment = (await host.Services.GetRequiredService<Archive>().Enter(new JsonObject { ["name"] = "A blouse to photograph" }, "owner", Cancel)).Garment.Id;
        using var stop = new CancellationTokenSource();
        var finished = 0;
        var killing = Kill(() => finished, stop.Token);
        var taken = new System.Collections.Concurrent.ConcurrentDictionary<string, (string Id, byte[] File)>();
        var refused = 0;
        var original = Made.Jpeg(1500, 1100);
        try
        {
            await Parallel.ForAsync(0, Uploads, new ParallelOptions { MaxDegreeOfParallelism = AtOnce, CancellationToken = Cancel }, async (i, ct) =>
            {
                var file = JpegParts.With(original, 0xFE, BitConverter.GetBytes(i));
                using var form = new MultipartFormDataContent { { new ByteArrayContent(file), "file", "picture.jpg" } };
                using var answer = await host.Client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), form, ct);
                var said = JsonNode.Parse(await answer.Content.ReadAsStringAsync(ct))!;
                Interlocked.Increment(ref finished);
                if (answer.StatusCode == HttpStatusCode.Created)
                {
                    taken[said[0]!["sha256"]!.ToString()] = (said[0]!["id"]!.ToString(), file);
                }
                else
                {
                    Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
                    Assert.Contains("ended without an answer", said["errors"]!["file[0]"]![0]!.ToString(), StringComparison.Ordinal);
                    Interlocked.Increment(ref refused);
                }
            });
        }
        finally
        {
            await stop.CancelAsync(); // Else it would go on killing the workers of other tests.
        }

        var killed = await killing;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{killed} workers killed: {taken.Count} pictures taken, {refused} refused."));
        await Wait.Until(() => host.Services.GetRequiredService<MakingAgain>().Progress is var p && p.Done >= p.Total, "all smaller pictures are made", TimeSpan.FromMinutes(15));
        Assert.True(killed > 5, $"Only {killed} workers were killed.");
        Assert.Equal(Uploads, taken.Count + refused);
        var pictures = Path.Combine(host.Folder, "pictures");
        Assert.Equal(taken.Keys.Order(), Directory.EnumerateFiles(Path.Combine(pictures, "originals"), "*", SearchOption.AllDirectories).Select(f => Path.GetFileName(f)).Order());
        Assert.Empty(Directory.EnumerateDirectories(Path.Combine(pictures, "incoming")).SelectMany(Directory.EnumerateFiles));
        Assert.Equal(taken.Count, (await host.Services.GetRequiredService<Archive>().Find(garment, Cancel))!.Fields["pictures"]?.AsArray().Count ?? 0);
        foreach (var (sha256, (id, file)) in taken)
        {
            Assert.Equal(sha256, Convert.ToHexStringLower(SHA256.HashData(await host.Client.GetByteArrayAsync(new Uri($"/api/pictures/{id}/original", UriKind.Relative), Cancel))));
            using var screen = Made.Decoded(await host.Client.GetByteArrayAsync(new Uri($"/api/pictures/{id}/screen", UriKind.Relative), Cancel));
            Assert.Equal((1500, 1100), (screen.Width, screen.Height));
            Assert.Equal(sha256, Convert.ToHexStringLower(SHA256.HashData(file)));
        }
    }

    /// <summary>Kills one of this process's workers a random moment after every other upload, so that on a slow machine too some come through.</summary>
    private static async Task<int> Kill(Func<int> finished, CancellationToken stop)
    {
        var random = new Random(20_261_126);
        var (killed, last) = (0, 0);
        while (!stop.IsCancellationRequested)
        {
            await Task.Delay(random.Next(1, 300), CancellationToken.None);
            var workers = finished() >= last + 2 ? Process.GetProcesses().Where(IsWorker).ToList() : [];
            if (workers.Count > 0 && !stop.IsCancellationRequested)
            {
                last = finished();
                workers[random.Next(workers.Count)].Kill();
                killed++;
            }
        }

        return killed;
    }

    internal static bool IsWorker(Process process)
    {
        try
        {
            return File.ReadAllText($"/proc/{process.Id}/cmdline").Contains(PictureWorker.Verb, StringComparison.Ordinal)
                && File.ReadAllText($"/proc/{process.Id}/stat").Split(") ").Last().Split(' ')[1] == Environment.ProcessId.ToString(CultureInfo.InvariantCulture);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false; // It has just ended.
        }
    }
}
