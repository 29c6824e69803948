using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

/// <summary>The host killed again and again while a hundred pictures come in, half of them whole in one form, half in parts.</summary>
[Collection("Processes")]
public sealed class UploadKillTests : IDisposable
{
    private const int Files = 100, Kills = 8, Senders = 4;

    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_acknowledged_original_is_there_and_whole_nothing_half_shows_and_resumed_uploads_go_on()
    {
        var chance = new Random(20261126);
        var files = Enumerable.Range(0, Files).Select(Picture).ToArray();
        var acknowledged = new ConcurrentDictionary<int, byte>();
        var begun = new ConcurrentDictionary<int, string>();
        var (garment, resumed) = ("", 0);
        for (var life = 0; life <= Kills; life++)
        {
            await using var archive = await RunningArchive.Start(folder.Path).Ready();
            if (garment.Length == 0)
            {
                using var entered = await archive.Client.PostAsJsonAsync("/api/garments", new { name = "A nightgown, often photographed" }, Cancel);
                garment = JsonNode.Parse(await entered.Content.ReadAsStringAsync(Cancel))!["id"]!.ToString();
            }

            await IsWhole(archive.Client, garment, files, acknowledged.Keys);
            var left = new ConcurrentQueue<int>(Enumerable.Range(0, Files).Where(n => !acknowledged.ContainsKey(n)));
            // Each life has its share; the last does what is left.
            var share = life == Kills ? Files : (life + 1) * Files / (Kills + 1);
            using var end = new CancellationTokenSource();
            var senders = Enumerable.Range(0, Senders).Select(_ => Task.Run(async () =>
            {
                try
                {
                    while (!end.IsCancellationRequested && left.TryDequeue(out var n))
                    {
                        if (n % 2 == 0)
                        {
                            await Whole(archive.Client, garment, files[n]);
                        }
                        else if (await InParts(archive.Client, garment, files[n], begun.TryGetValue(n, out var at) ? at : null, at => begun[n] = at))
                        {
                            Interlocked.Increment(ref resumed);
                        }

                        acknowledged[n] = 1;
                    }
                }
                catch (HttpRequestException)
                {
                    // Killed, as meant: this one was not acknowledged.
                }
            }, Cancel)).ToArray();
            if (life < Kills)
            {
                await Wait.Until(() => acknowledged.Count >= share || senders.All(s => s.IsCompleted), $"{share} uploads are acknowledged", every: 2);
                await Task.Delay(chance.Next(120), Cancel);
                RunningArchive.Signal("KILL", archive.Id);
                end.Cancel();
            }

            await Task.WhenAll(senders);
        }

        await using var last = await RunningArchive.Start(folder.Path).Ready();
        Assert.Equal(Files, acknowledged.Count);
        await IsWhole(last.Client, garment, files, acknowledged.Keys, smaller: true);
        Assert.True(resumed > 0, "No upload in parts was ever caught in the middle.");

        // No bytes of an upload are left: all of them are originals.
        Assert.DoesNotContain(Directory.EnumerateFiles(Path.Combine(folder.Path, "pictures", "unfinished")), f => Path.GetExtension(f).Length == 0);
        using var begin = await last.Client.PostAsync("/api/pictures/check", null, Cancel);
        JsonNode? told = null;
        await Wait.Until(async () => (told = JsonNode.Parse(await last.Client.GetStringAsync("/api/pictures/check", Cancel)))!["last"] is not null && told["running"] is null, "the originals are checked");

        Assert.Equal(Files, told!["last"]!["checked"]!.GetValue<int>());
        Assert.Empty(told["last"]!["missing"]!.AsArray());
        Assert.Empty(told["last"]!["changed"]!.AsArray());
        Assert.Empty(told["last"]!["unknown"]!.AsArray());
    }

    // All that was acknowledged is in the record, and all that is in the record is there byte for byte, with its smaller pictures.
    private static async Task IsWhole(HttpClient client, string garment, byte[][] files, ICollection<int> acknowledged, bool smaller = false)
    {
        var pictures = JsonNode.Parse(await client.GetStringAsync("/api/garments/" + garment, Cancel))!["pictures"]!.AsArray();
        var byDigest = pictures.ToDictionary(p => p!["sha256"]!.ToString(), p => p!["id"]!.ToString());
        Assert.Equal(pictures.Count, byDigest.Count);
        foreach (var n in acknowledged)
        {
            Assert.True(byDigest.ContainsKey(Digest(files[n])), $"The acknowledged picture {n} is not in the record.");
        }

        foreach (var (sha256, id) in byDigest)
        {
            Assert.Equal(sha256, Digest(await client.GetByteArrayAsync($"/api/pictures/{id}/original", Cancel)));
            if (smaller)
            {
                Assert.NotEmpty(await client.GetByteArrayAsync($"/api/pictures/{id}/thumbnail", Cancel));
            }
        }
    }

    private static async Task Whole(HttpClient client, string garment, byte[] file)
    {
        using var form = new MultipartFormDataContent { { new ByteArrayContent(file), "file", "a.png" } };
        using var answer = await client.PostAsync($"/api/garments/{garment}/pictures", form, Cancel);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
    }

    // True when it went on from a part that an earlier life of the host had taken.
    private static async Task<bool> InParts(HttpClient client, string garment, byte[] file, string? upload, Action<string> begun)
    {
        var at = -1;
        if (upload is not null)
        {
            using var stands = await Send(client, HttpMethod.Head, upload);
            at = stands.IsSuccessStatusCode ? Offset(stands) : -1;
        }

        var resumed = at > 0;
        if (at < 0)
        {
            using var created = await Send(client, HttpMethod.Post, "/api/uploads", null,
                ("Upload-Length", Text(file.Length)), ("Upload-Metadata", "garment " + Convert.ToBase64String(Encoding.ASCII.GetBytes(garment))));
            Assert.Equal(HttpStatusCode.Created, created.StatusCode);
            (upload, at) = (created.Headers.Location!.ToString(), 0);
            begun(upload);
        }

        do
        {
            using var part = await Send(client, HttpMethod.Patch, upload!, file[at..Math.Min(file.Length, at + 4096)], ("Upload-Offset", Text(at)));
            Assert.Equal(HttpStatusCode.NoContent, part.StatusCode);
            at = Offset(part);
        }
        while (at < file.Length);
        return resumed;
    }

    private static async Task<HttpResponseMessage> Send(HttpClient client, HttpMethod method, string path, byte[]? body = null, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, path);
        request.Headers.Add("Tus-Resumable", "1.0.0");
        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        if (body is not null)
        {
            request.Content = new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/offset+octet-stream") } };
        }

        return await client.SendAsync(request, Cancel);
    }

    private static int Offset(HttpResponseMessage answer) => int.Parse(answer.Headers.GetValues("Upload-Offset").Single(), CultureInfo.InvariantCulture);

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Digest(byte[] file) => Convert.ToHexStringLower(SHA256.HashData(file));

    // Each another, some 20 kB that can't be packed, so that it comes in several parts.
    private static byte[] Picture(int seed)
    {
        var noise = new byte[80 * 80 * 3];
        new Random(seed).NextBytes(noise);
        return PngParts.Stored(80, 80, 2, 8, false, (x, y, c) => noise[(3 * ((80 * y) + x)) + c]);
    }
}
