using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Support;
using Microsoft.Extensions.DependencyInjection;
using SkiaSharp;

[assembly: AssemblyFixture(typeof(PostgresServer))]

namespace HeirloomArchive.Hostile.Tests;

/// <summary>
/// Every hostile file through the real route of the whole service: each comes to a correct picture or to a clear refusal, as
/// stated beside it; the host keeps its memory, and nothing is left lying about.
/// </summary>
[Collection("one after another")] // One kills the workers of this process, whosesoever.
public sealed class UploadTests(ArchiveHost host, ITestOutputHelper output) : IClassFixture<ArchiveHost>
{
    private const int Batch = 8;
    private const long Most = 50 << 20;

    private readonly List<string> wrong = [];
    private readonly HashSet<string> digests = [];

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private MakingProgress Making => host.Services.GetRequiredService<MakingAgain>().Progress;

    private static IEnumerable<HostileFile> Files => [.. Jpegs.All(), .. Pngs.All(), .. Others.All()];

    [Fact]
    public void There_are_more_than_200_and_no_two_alike()
    {
        Assert.True(Files.Count() >= 200);
        Assert.Equal(Files.Count(), Files.Select(f => f.Name).Distinct().Count());
    }

    [Fact]
    public async Task Each_is_a_correct_picture_or_a_clear_refusal()
    {
        var garment = (await host.Services.GetRequiredService<Archive>().Enter(new JsonObject { ["name"] = "A blouse to photograph" }, "owner", Cancel)).Garment.Id;
        await Send(garment, [new("a picture before all others", () => Made.Jpeg(900, 900), new Taken(900, 900, Jpegs.Quarters))]);
        await Settled();
        var before = GC.GetTotalMemory(forceFullCollection: true);

        // A worker's start is what takes time: files with the same kind of answer share an upload, each with its own answer.
        foreach (var alike in Files.GroupBy(f => f.Expected is Refused r ? r.Status : 201))
        {
            foreach (var batch in alike.Chunk(Batch))
            {
                await Send(garment, batch);
            }
        }

        await Settled();
        var after = GC.GetTotalMemory(forceFullCollection: true);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Files.Count()} files, {digests.Count} pictures; managed heap {before >> 20} MiB before, {after >> 20} MiB after; the whole process {Environment.WorkingSet >> 20} MiB."));
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        Assert.InRange(after, 0, before + Most);
        NothingIsLeft();
    }

    /// <summary>A form's name is never used, whatever is in it; that of an upload in parts is shown, so it is refused. Sent as bytes: a client lets none pass.</summary>
    [Fact]
    public async Task A_name_with_NUL_in_it_does_no_harm_in_a_form_and_is_refused_in_parts()
    {
        var garment = (await host.Services.GetRequiredService<Archive>().Enter(new JsonObject { ["name"] = "A blouse to photograph" }, "owner", Cancel)).Garment.Id;
        using var form = new ByteArrayContent(
        [
            .. "--border\r\nContent-Disposition: form-data; name=\"file\"; filename=\"picture.png\0.exe\"\r\n\r\n"u8, .. Made.Png(), .. "\r\n--border--\r\n"u8,
        ]);
        form.Headers.ContentType = MediaTypeHeaderValue.Parse("multipart/form-data; boundary=border");
        using var whole = await host.Client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), form, Cancel);
        Assert.Equal(HttpStatusCode.Created, whole.StatusCode);

        using var parts = new HttpRequestMessage(HttpMethod.Post, "/api/uploads");
        foreach (var (name, value) in new[] { ("Tus-Resumable", "1.0.0"), ("Upload-Length", "100"), ("Upload-Metadata", "filename " + Convert.ToBase64String("picture.png\0.exe"u8)) })
        {
            parts.Headers.TryAddWithoutValidation(name, value);
        }

        using var begun = await host.Client.SendAsync(parts, Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, begun.StatusCode);
        Assert.Contains("control character", await begun.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(host.Folder, "pictures", "unfinished")));
        Assert.Single((await host.Services.GetRequiredService<Archive>().Find(garment, Cancel))!.Fields["pictures"]!.AsArray());
    }

    /// <summary>The files are sound and only what is said of them is not: they are taken back, and nobody goes on making smaller pictures of them.</summary>
    [Fact]
    public async Task Sound_files_that_the_record_refuses_leave_nothing_either()
    {
        var garment = (await host.Services.GetRequiredService<Archive>().Enter(new JsonObject { ["name"] = "A blouse to photograph" }, "owner", Cancel)).Garment.Id;
        await Settled();
        var (before, asked) = (Left(), Making.Total);
        using var form = new MultipartFormDataContent { { new ByteArrayContent(Made.Jpeg(1300, 1100)), "file", "picture.jpg" }, { new StringContent(new string('a', 20_001)), "caption" } };
        using var answer = await host.Client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), form, Cancel);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        await Settled();
        Assert.Equal(before, Left());
        Assert.Equal(asked, Making.Total);

        List<string> Left() => [.. Directory.EnumerateFiles(Path.Combine(host.Folder, "pictures"), "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
    }

    private async Task Send(Guid garment, HostileFile[] files)
    {
        using var form = new MultipartFormDataContent("a-border-of-the-tests");
        foreach (var file in files)
        {
            var content = new ByteArrayContent(file.Bytes());
            // As bytes: a client would not let such names pass.
            content.Headers.TryAddWithoutValidation("Content-Disposition", $"form-data; name=\"file\"; filename=\"{Latin(file.SentAs)}\"");
            form.Add(content);
        }

        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri($"/api/garments/{garment}/pictures", UriKind.Relative)) { Content = form };
        using var answer = await host.Client.SendAsync(request, Cancel);
        var said = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel));
        for (var i = 0; i < files.Length; i++)
        {
            await (files[i].Expected switch
            {
                Taken taken => Check(files[i], taken, answer.StatusCode == HttpStatusCode.Created ? said![i] : null, said),
                Refused refused => Check(files[i], refused, answer, said!["errors"]?[$"file[{i}]"]?[0]?.ToString()),
                _ => throw new InvalidOperationException(files[i].Name),
            });
        }
    }

    private Task Check(HostileFile file, Refused refused, HttpResponseMessage answer, string? message)
    {
        if ((int)answer.StatusCode != refused.Status || answer.Content.Headers.ContentType!.MediaType != "application/problem+json"
            || message?.Contains(refused.Says, StringComparison.Ordinal) is not true)
        {
            wrong.Add($"{file.Name}: {(int)answer.StatusCode} \"{message}\" instead of {refused.Status} \"…{refused.Says}…\"");
        }

        return Task.CompletedTask;
    }

    private async Task Check(HostileFile file, Taken taken, JsonNode? picture, JsonNode? said)
    {
        if (picture is null)
        {
            wrong.Add($"{file.Name}: refused with {said?["errors"]?.ToJsonString() ?? said?.ToJsonString()}");
            return;
        }

        digests.Add(picture["sha256"]!.ToString());
        var (width, height) = ((int)picture["width"]!, (int)picture["height"]!);
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri($"/api/pictures/{picture["id"]}/screen", UriKind.Relative));
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("image/jpeg"));
        using var screen = await host.Client.SendAsync(request, Cancel);
        using var image = Made.Decoded(await screen.Content.ReadAsByteArrayAsync(Cancel));
        var (x, y) = (image.Width / 4, image.Height / 4);
        SKColor[] corners = [image.GetPixel(x, y), image.GetPixel(image.Width - 1 - x, y), image.GetPixel(x, image.Height - 1 - y), image.GetPixel(image.Width - 1 - x, image.Height - 1 - y)];
        if ((width, height) != (taken.Width, taken.Height) || corners.Zip([.. taken.Corners, .. taken.Corners, .. taken.Corners, .. taken.Corners]).Any(c => Away(c.First, c.Second) > taken.Near))
        {
            wrong.Add($"{file.Name}: {width} × {height} with {string.Join(' ', corners)} instead of {taken.Width} × {taken.Height} with {string.Join(' ', taken.Corners)}");
        }
    }

    private static int Away(SKColor a, SKColor b) => Math.Max(Math.Abs(a.Red - b.Red), Math.Max(Math.Abs(a.Green - b.Green), Math.Abs(a.Blue - b.Blue)));

    private static string Latin(byte[] bytes) => System.Text.Encoding.Latin1.GetString(bytes);

    private Task Settled() => Wait.Until(() => Making is var p && p.Done >= p.Total, "all smaller pictures are made", TimeSpan.FromMinutes(15));

    /// <summary>Only the originals acknowledged, what was made of them, and the lock of the running service.</summary>
    private void NothingIsLeft()
    {
        var pictures = new DirectoryInfo(Path.Combine(host.Folder, "pictures"));
        var left = pictures.EnumerateFiles("*", SearchOption.AllDirectories).Where(f => !digests.Contains(f.Name.Split('.')[0]) && f.Extension != ".lock");
        Assert.Empty(left.Select(f => f.FullName));
        Assert.Equal(digests.Count, Directory.EnumerateFiles(Path.Combine(pictures.FullName, "originals"), "*", SearchOption.AllDirectories).Count());
        Assert.Equal(0, Making.Failed);
    }
}
