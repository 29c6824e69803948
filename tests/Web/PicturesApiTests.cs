using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Support;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests;

/// <summary>Pictures uploaded to the whole service, with real workers.</summary>
public class PicturesApiTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static readonly byte[] Jpeg = Made.Jpeg(2000, 1000), Png = Made.Png(300, 200), WebP = Made.WebP(200, 300);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Pictures_of_every_format_are_taken_and_the_originals_come_back_byte_for_byte()
    {
        var garment = await Enter();
        using var answer = await Upload(garment, "a yoke, from the front", Jpeg, Png, WebP);
        var taken = await Taken(answer);
        Assert.Equal("\"2\"", answer.Headers.ETag!.Tag);
        Assert.True(long.Parse(answer.Headers.GetValues("X-Position").Single(), System.Globalization.CultureInfo.InvariantCulture) > 0);
        Assert.Equal([(2000, 1000), (300, 200), (200, 300)], taken.Select(p => ((int)p["width"]!, (int)p["height"]!)));
        Assert.Equal([Jpeg, Png, WebP], await Task.WhenAll(taken.Select(p => host.Client.GetByteArrayAsync(Address(p, "original"), Cancel))));
        foreach (var (picture, bytes, type) in taken.Zip([Jpeg, Png, WebP], ["image/jpeg", "image/png", "image/webp"]))
        {
            Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(bytes)), (string?)picture["sha256"]);
            Assert.False(picture.ContainsKey("already"));
            using var original = await host.Client.GetAsync(Address(picture, "original"), Cancel);
            Assert.Equal(type, original.Content.Headers.ContentType!.MediaType);
            Assert.Equal("nosniff", original.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.Contains("immutable", original.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        }

        var pictures = (await State(garment)).Fields["pictures"]!.AsArray();
        Assert.Equal(taken.Select(p => (string?)p["id"]), pictures.Select(p => (string?)p!["id"]));
        Assert.All(pictures, p => Assert.Equal("a yoke, from the front", (string?)p!["caption"]));
    }

    [Fact]
    public async Task Smaller_pictures_are_there_and_made_again_when_they_are_lost()
    {
        var picture = (await Taken(await Upload(await Enter(), null, Jpeg))).Single();
        foreach (var (kind, side) in new[] { ("screen", 1600), ("thumbnail", 320) })
        {
            var before = await host.Client.GetByteArrayAsync(Address(picture, kind), Cancel);
            using var image = Made.Decoded(before);
            Assert.Equal((side, side / 2), (image.Width, image.Height));
            File.Delete(Files().Single(f => f.Name == $"{picture["sha256"]}.{kind}.jpeg").FullName);
            using var again = await host.Client.GetAsync(Address(picture, kind), Cancel);
            Assert.Equal("image/jpeg", again.Content.Headers.ContentType!.MediaType);
            Assert.Equal(before, await again.Content.ReadAsByteArrayAsync(Cancel));
        }
    }

    [Fact]
    public async Task A_browser_that_has_a_picture_is_not_sent_it_again_and_a_part_can_be_asked_for()
    {
        var picture = (await Taken(await Upload(await Enter(), null, Jpeg))).Single();
        foreach (var kind in new[] { "original", "screen", "thumbnail" })
        {
            using var first = await host.Client.GetAsync(Address(picture, kind), Cancel);
            using var request = new HttpRequestMessage(HttpMethod.Get, Address(picture, kind));
            request.Headers.IfNoneMatch.Add(first.Headers.ETag!);
            using var second = await host.Client.SendAsync(request, Cancel);
            Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);
        }

        using var part = new HttpRequestMessage(HttpMethod.Get, Address(picture, "original"));
        part.Headers.Range = new RangeHeaderValue(100, 199);
        using var answer = await host.Client.SendAsync(part, Cancel);
        Assert.Equal(HttpStatusCode.PartialContent, answer.StatusCode);
        Assert.Equal(Jpeg[100..200], await answer.Content.ReadAsByteArrayAsync(Cancel));
    }

    /// <summary>RFC 9110, 13 and 14: what comes of a range and of a condition, from beginning, middle and end.</summary>
    [Theory]
    [InlineData("bytes=0-0", null, 206, 0, 1)]
    [InlineData("bytes=100-", null, 206, 100, null)]
    [InlineData("bytes=-10", null, 206, -10, null)]
    [InlineData("bytes=5-9999999", null, 206, 5, null)]
    [InlineData("bytes=99999999-", null, 416, 0, 0)]
    [InlineData("bytes=5-9", "its own", 206, 5, 10)]
    [InlineData("bytes=5-9", "another", 200, 0, null)]
    public async Task An_original_comes_in_parts(string range, string? ifRange, int status, int from, int? to)
    {
        var picture = (await Taken(await Upload(await Enter(), null, Png))).Single();
        var tag = $"\"{picture["sha256"]}\"";
        using var request = new HttpRequestMessage(HttpMethod.Get, Address(picture, "original"));
        request.Headers.TryAddWithoutValidation("Range", range);
        if (ifRange is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Range", ifRange == "its own" ? tag : "\"another\"");
        }

        using var answer = await host.Client.SendAsync(request, Cancel);
        Assert.Equal(status, (int)answer.StatusCode);
        if (status < 300)
        {
            Assert.Equal(tag, answer.Headers.ETag!.Tag);
            Assert.Equal(Png[(from < 0 ? Png.Length + from : from)..(to ?? Png.Length)], await answer.Content.ReadAsByteArrayAsync(Cancel));
            Assert.Equal(status == 206, answer.Content.Headers.ContentRange is { } told && told.Length == Png.Length);
        }
    }

    [Fact]
    public async Task An_original_that_is_no_longer_there_is_404()
    {
        var picture = (await Taken(await Upload(await Enter(), null, Made.Png(31, 29)))).Single();
        File.Delete(Files().Single(f => f.Name == (string?)picture["sha256"]).FullName);
        using var answer = await host.Client.GetAsync(Address(picture, "original"), Cancel);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task A_file_that_the_garment_has_is_answered_with_its_id_and_changes_nothing()
    {
        var garment = await Enter();
        var first = (await Taken(await Upload(garment, null, Png, Png))).ToList();
        Assert.Equal(first[0]["id"]!.ToString(), first[1]["id"]!.ToString());
        Assert.True((bool)first[1]["already"]!);
        using var again = await Upload(garment, null, Png);
        var second = (await Taken(again)).Single();
        Assert.Equal(first[0]["id"]!.ToString(), second["id"]!.ToString());
        Assert.True((bool)second["already"]!);
        Assert.False(again.Headers.Contains("X-Position"));
        Assert.Equal("\"2\"", again.Headers.ETag!.Tag);
        Assert.Equal(2, (await State(garment)).Version);
    }

    [Fact]
    public async Task The_same_file_uploaded_several_times_at_once_is_one_picture()
    {
        var garment = await Enter();
        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Upload(garment, null, WebP)));
        var taken = (await Task.WhenAll(answers.Select(Taken))).SelectMany(t => t).ToList();
        Assert.Single(taken.Select(t => (string?)t["id"]).Distinct());
        Assert.Equal(3, taken.Count(t => t.ContainsKey("already")));
        Assert.Single((await State(garment)).Fields["pictures"]!.AsArray());
    }

    [Fact]
    public async Task Two_garments_may_have_the_same_file()
    {
        var first = (await Taken(await Upload(await Enter(), null, Png))).Single();
        var second = (await Taken(await Upload(await Enter(), null, Png))).Single();
        Assert.NotEqual((string?)first["id"], (string?)second["id"]);
        Assert.False(second.ContainsKey("already"));
        Assert.Single(Files(), f => f.FullName.Contains("originals", StringComparison.Ordinal) && f.Name == (string?)second["sha256"]);
    }

    [Theory]
    [InlineData("cut off", 422, "cut off")]
    [InlineData("tiff", 415, "TIFF")]
    [InlineData("bomb", 422, "30000 × 30000")]
    [InlineData("large", 413, "60 MB")]
    public async Task One_bad_file_refuses_the_whole_upload_and_nothing_is_kept(string bad, int status, string says)
    {
        var file = bad switch
        {
            "cut off" => Jpeg[..^20],
            "tiff" => [.. "II*\0"u8, .. new byte[200]],
            "bomb" => PngParts.Saying(30_000, 30_000),
            _ => new byte[60_000_001],
        };
        var garment = await Enter();
        var good = Made.Png(77, 55);
        await Settled();
        var before = Files().Select(f => f.FullName).ToList();
        using var answer = await Upload(garment, null, good, file);
        var problem = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!;
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains(says, (string?)problem["errors"]!["file[1]"]![0], StringComparison.Ordinal);
        Assert.Null(problem["errors"]!["file[0]"]);
        Assert.Equal(1, (await State(garment)).Version);
        Assert.Equal(before, Files().Select(f => f.FullName));
    }

    [Fact]
    public async Task Every_bad_file_of_an_upload_is_named()
    {
        using var answer = await Upload(await Enter(), null, Jpeg[..100], Png, Encoding.UTF8.GetBytes("hello"));
        var problem = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!;
        Assert.Equal(["file[0]", "file[2]"], problem["errors"]!.AsObject().Select(e => e.Key));
    }

    [Fact]
    public async Task An_unknown_garment_is_404_and_one_set_aside_409()
    {
        using var unknown = await Upload(Guid.NewGuid(), null, Png);
        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);
        var garment = await Enter();
        await host.Services.GetRequiredService<Archive>().SetAside(garment, 1, "owner", Cancel);
        using var aside = await Upload(garment, null, Png);
        Assert.Equal(HttpStatusCode.Conflict, aside.StatusCode);
    }

    [Theory]
    [InlineData("original")]
    [InlineData("screen")]
    [InlineData("thumbnail")]
    public async Task An_unknown_picture_is_404(string kind)
    {
        using var answer = await host.Client.GetAsync(new Uri($"/api/pictures/{Guid.NewGuid()}/{kind}", UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task A_form_that_is_none_is_refused_with_what_would_be_right()
    {
        var garment = await Enter();
        using var json = await Post(garment, new StringContent("{}", Encoding.UTF8, "application/json"));
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, json.StatusCode);
        using var empty = await Post(garment, new MultipartFormDataContent { { new StringContent("a caption"), "caption" } });
        Assert.Equal(HttpStatusCode.BadRequest, empty.StatusCode);
        using var unknown = await Post(garment, new MultipartFormDataContent { { new StringContent("front"), "view" }, { new ByteArrayContent(Png), "file", "a.png" } });
        Assert.Equal(HttpStatusCode.BadRequest, unknown.StatusCode);
        var broken = new ByteArrayContent(Encoding.ASCII.GetBytes("--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.png\"\r\n\r\nhalf"));
        broken.Headers.ContentType = MediaTypeHeaderValue.Parse("multipart/form-data; boundary=x");
        using var cut = await Post(garment, broken);
        Assert.Equal(HttpStatusCode.BadRequest, cut.StatusCode);
        Assert.Equal(1, (await State(garment)).Version);
        await Settled();
        Assert.DoesNotContain(Files(), f => f.Directory!.Parent!.Name == "incoming");
    }

    /// <summary>Until what is made in the background of earlier uploads is made.</summary>
    private Task Settled() => Wait.Until(() => host.Services.GetRequiredService<MakingAgain>().Progress is var p && p.Done >= p.Total, "all smaller pictures are made");

    private async Task<Guid> Enter() =>
        (await host.Services.GetRequiredService<Archive>().Enter(new JsonObject { ["name"] = "A blouse to photograph" }, "owner", Cancel)).Garment.Id;

    private async Task<Garment> State(Guid garment) =>
        (await host.Services.GetRequiredService<Archive>().Find(garment, Cancel))!;

    private Task<HttpResponseMessage> Upload(Guid garment, string? caption, params byte[][] files)
    {
        var form = new MultipartFormDataContent();
        foreach (var file in files)
        {
            form.Add(new ByteArrayContent(file), "file", "picture.jpg");
        }

        if (caption is not null)
        {
            form.Add(new StringContent(caption), "caption");
        }

        return Post(garment, form);
    }

    private Task<HttpResponseMessage> Post(Guid garment, HttpContent content) =>
        host.Client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), content, Cancel);

    private static async Task<IEnumerable<JsonObject>> Taken(HttpResponseMessage answer)
    {
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return JsonNode.Parse(text)!.AsArray().Select(p => p!.AsObject());
    }

    private static Uri Address(JsonObject picture, string kind) => new($"/api/pictures/{picture["id"]}/{kind}", UriKind.Relative);

    private IEnumerable<FileInfo> Files() =>
        new DirectoryInfo(Path.Combine(host.Folder, "pictures")).EnumerateFiles("*", SearchOption.AllDirectories).OrderBy(f => f.FullName);
}
