using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

/// <summary>The disk is full, or may not be written to.</summary>
[Collection("Processes")]
public sealed class DiskTests : IDisposable
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(60);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Pictures_that_find_no_room_are_refused_in_plain_words_and_come_in_once_there_is_some()
    {
        using var disk = Small(5);
        await using var archive = await RunningArchive.Start(folder.Path, ["--Archive:Folder=" + folder.Path, "--Archive:Pictures=" + disk.Path]).Ready();
        var garment = await Enter(archive.Client, new { name = "A nightgown, often photographed" });
        var kept = new List<byte[]>();
        HttpResponseMessage answer;
        for (var n = 0; ; n++)
        {
            Assert.True(n < 40, "The disk never gets full.");
            var file = Picture(n);
            answer = await Send(archive.Client, garment, file);
            if (answer.StatusCode != HttpStatusCode.Created) break;
            kept.Add(file);
        }

        Assert.NotEmpty(kept);
        await SaysTheDiskIsFull(answer);
        await AreWhole(archive.Client, garment, kept);
        // In parts it is no other: what can't be taken is said, and what was taken stands.
        Assert.Equal((HttpStatusCode)507, await InParts(archive.Client, garment, Picture(100)));
        // The record lies elsewhere and goes on.
        await Enter(archive.Client, new { name = "Entered meanwhile" });

        disk.Resize(40);
        var last = Picture(200);
        answer = await Send(archive.Client, garment, last);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, await answer.Content.ReadAsStringAsync(Cancel));
        await AreWhole(archive.Client, garment, [.. kept, last]);
    }

    [Fact]
    public async Task A_full_disk_loses_no_acknowledged_piece_and_with_room_all_goes_on_by_itself()
    {
        using var disk = Small(260);
        var inside = Path.Combine(disk.Path, "archive");
        await using var archive = await RunningArchive.Start(inside).Ready();
        var kept = new List<string> { await Enter(archive.Client, new { name = "Before" }) };
        disk.Fill(but: 512 * 1024);
        var story = new byte[14_000];
        var clock = Stopwatch.StartNew();
        HttpResponseMessage answer;
        while (true)
        {
            Assert.True(clock.Elapsed < TimeSpan.FromMinutes(2), $"The disk never gets full: {disk.Free} bytes are free.");
            new Random(kept.Count).NextBytes(story);   // can't be packed
            answer = await archive.Client.PostAsJsonAsync("/api/garments", new { name = "Piece " + kept.Count, description = Convert.ToBase64String(story) }, Cancel);
            if (answer.StatusCode != HttpStatusCode.Created) break;
            kept.Add(JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["id"]!.ToString());
        }

        await SaysTheDiskIsFull(answer);
        Assert.Equal("live", await archive.Client.GetStringAsync("/health/live", Cancel));

        disk.Empty();
        await archive.Ready();
        foreach (var id in kept) Assert.Equal(HttpStatusCode.OK, (await archive.Client.GetAsync("/api/garments/" + id, Cancel)).StatusCode);
        var after = await Enter(archive.Client, new { name = "Afterwards, a pinafore" });
        clock.Restart();
        while (true)
        {
            var found = await archive.Client.GetAsync("/api/search?q=pinafore", Cancel);
            if (found.IsSuccessStatusCode && JsonNode.Parse(await found.Content.ReadAsStringAsync(Cancel))!["items"]!.AsArray().Any(i => i!["id"]!.ToString() == after)) break;
            Assert.True(clock.Elapsed < Soon, $"It is not found. The service said: {archive.Said}");
            await Task.Delay(100, Cancel);
        }

        RunningArchive.Signal("TERM", archive.Id);
        Assert.Equal(0, await archive.Code(Soon));
    }

    [Fact]
    public async Task A_folder_that_may_not_be_written_to_stops_the_start_and_is_named()
    {
        using var disk = Small(260);
        var inside = Path.Combine(disk.Path, "archive");
        await using (var archive = await RunningArchive.Start(inside).Ready())
        {
            // While it runs: where pictures come in, nothing can be written for a while.
            var garment = await Enter(archive.Client, new { name = "A bonnet" });
            var incoming = Directory.EnumerateDirectories(Path.Combine(inside, "pictures", "incoming")).Single();
            disk.Protect(incoming, on: true);
            var refused = await Send(archive.Client, garment, Picture(1));
            var text = await refused.Content.ReadAsStringAsync(Cancel);
            Assert.True(refused.StatusCode == HttpStatusCode.ServiceUnavailable, text);
            Assert.NotNull(refused.Headers.RetryAfter);
            Assert.Contains("may not be written to", text, StringComparison.Ordinal);
            Assert.Contains(inside, text, StringComparison.Ordinal);
            disk.Protect(incoming, on: false);
            Assert.Equal(HttpStatusCode.Created, (await Send(archive.Client, garment, Picture(1))).StatusCode);

            RunningArchive.Signal("TERM", archive.Id);
            Assert.Equal(0, await archive.Code(Soon));
        }

        disk.Protect();
        await Refuses(inside, "cannot be used");
        await Refuses(Path.Combine(disk.Path, "another"), "cannot be used");
    }

    [Fact]
    public async Task A_record_that_belongs_to_another_user_is_left_alone_and_said_so()
    {
        Assert.SkipUnless(Environment.IsPrivilegedProcess && OperatingSystem.IsLinux(), "Only root gives a folder to another user.");
        await using (var archive = await RunningArchive.Start(folder.Path).Ready())
        {
            RunningArchive.Signal("TERM", archive.Id);
            Assert.Equal(0, await archive.Code(Soon));
        }

        using (var give = Process.Start("chown", ["-R", "12345", Path.Combine(folder.Path, "pg18")])) await give.WaitForExitAsync(Cancel);
        await Refuses(folder.Path, "belongs to another user");
    }

    private static async Task Refuses(string inside, string why)
    {
        await using var archive = RunningArchive.Start(inside);
        Assert.NotEqual(0, await archive.Code(Soon));
        Assert.Contains(inside, archive.Said, StringComparison.Ordinal);
        Assert.Contains(why, archive.Said, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", archive.Said, StringComparison.Ordinal);
    }

    private static SmallDisk Small(int megabytes)
    {
        var (disk, reason) = SmallDisk.Make(megabytes);
        Assert.SkipWhen(disk is null, reason);
        return disk!;
    }

    private static async Task SaysTheDiskIsFull(HttpResponseMessage answer)
    {
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(answer.StatusCode == (HttpStatusCode)507, $"{(int)answer.StatusCode} {text}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains("disk is full", text, StringComparison.Ordinal);
        Assert.Contains("Make room", text, StringComparison.Ordinal);
    }

    // The piece has exactly these pictures, byte for byte, each with what is made of it.
    private static async Task AreWhole(HttpClient client, string garment, List<byte[]> files)
    {
        var pictures = JsonNode.Parse(await client.GetStringAsync("/api/garments/" + garment, Cancel))!["pictures"]!.AsArray();
        Assert.Equal(files.Select(Digest), pictures.Select(p => p!["sha256"]!.ToString()));
        foreach (var picture in pictures)
        {
            Assert.Equal(picture!["sha256"]!.ToString(), Digest(await client.GetByteArrayAsync($"/api/pictures/{picture["id"]}/original", Cancel)));
            Assert.NotEmpty(await client.GetByteArrayAsync($"/api/pictures/{picture["id"]}/thumbnail", Cancel));
        }
    }

    private static async Task<HttpResponseMessage> Send(HttpClient client, string garment, byte[] file)
    {
        using var form = new MultipartFormDataContent { { new ByteArrayContent(file), "file", "a.png" } };
        return await client.PostAsync($"/api/garments/{garment}/pictures", form, Cancel);
    }

    private static async Task<HttpStatusCode> InParts(HttpClient client, string garment, byte[] file)
    {
        using var begin = new HttpRequestMessage(HttpMethod.Post, "/api/uploads");
        begin.Headers.Add("Tus-Resumable", "1.0.0");
        begin.Headers.Add("Upload-Length", $"{file.Length}");
        begin.Headers.Add("Upload-Metadata", "garment " + Convert.ToBase64String(System.Text.Encoding.ASCII.GetBytes(garment)));
        using var begun = await client.SendAsync(begin, Cancel);
        if (!begun.IsSuccessStatusCode) return begun.StatusCode;
        using var part = new HttpRequestMessage(HttpMethod.Patch, begun.Headers.Location) { Content = new ByteArrayContent(file) { Headers = { ContentType = new MediaTypeHeaderValue("application/offset+octet-stream") } } };
        part.Headers.Add("Tus-Resumable", "1.0.0");
        part.Headers.Add("Upload-Offset", "0");
        return (await client.SendAsync(part, Cancel)).StatusCode;
    }

    private static async Task<string> Enter(HttpClient client, object piece)
    {
        var answer = await client.PostAsJsonAsync("/api/garments", piece, Cancel);
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return JsonNode.Parse(text)!["id"]!.ToString();
    }

    // Each another, some 400 kB that can't be packed.
    private static byte[] Picture(int seed)
    {
        var noise = new byte[400 * 340 * 3];
        new Random(seed).NextBytes(noise);
        return PngParts.Stored(400, 340, 2, 8, false, (x, y, c) => noise[(3 * ((400 * y) + x)) + c]);
    }

    private static string Digest(byte[] file) => Convert.ToHexStringLower(SHA256.HashData(file));
}
