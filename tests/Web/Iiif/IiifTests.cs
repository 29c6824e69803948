using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using SkiaSharp;

namespace HeirloomArchive.Web.Tests.Iiif;

/// <summary>IIIF over the whole service: the Image API 3.0 by its pixels and headers, manifests by another's reader and by the rules.</summary>
public sealed class IiifTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private const int Width = 1500, Height = 1000;

    // The quarters of Made: upper left, upper right, lower left, lower right.
    private static readonly SKColor Red = Made.TopLeft, Green = Made.TopRight, Blue = Made.BottomLeft, Pale = Made.BottomRight;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_base_address_leads_to_the_information_and_that_says_what_there_is()
    {
        var (_, picture) = await Piece();
        using var at = await host.Client.GetAsync(Relative($"/iiif/image/{picture}"), Cancel);
        Assert.Equal(HttpStatusCode.SeeOther, at.StatusCode);
        Assert.Equal($"{host.Address}iiif/image/{picture}/info.json", at.Headers.Location!.ToString());
        using var answer = await host.Client.GetAsync(at.Headers.Location, Cancel);
        // Section 5.1: JSON-LD with the context as its profile.
        Assert.Equal("application/ld+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains(answer.Content.Headers.ContentType.Parameters, p => p is { Name: "profile", Value: "\"http://iiif.io/api/image/3/context.json\"" });
        Assert.Equal("<http://iiif.io/api/image/3/level2.json>;rel=\"profile\"", answer.Headers.GetValues("Link").Single());
        var info = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!.AsObject();
        // Section 5.2: the context first; the required properties and their values.
        Assert.Equal("@context", info.First().Key);
        Assert.Equal($"{host.Address}iiif/image/{picture}", info["id"]!.ToString());
        Assert.Equal(("ImageService3", "http://iiif.io/api/image", "level2"), (info["type"]!.ToString(), info["protocol"]!.ToString(), info["profile"]!.ToString()));
        Assert.Equal((Width, Height), ((int)info["width"]!, (int)info["height"]!));
    }

    /// <summary>The rows of Image API Compliance 3.0, level 2, and what is offered beyond: another's reader says it is supported, and it is.</summary>
    [Fact]
    public async Task Everything_that_level_2_asks_for_is_answered_with_an_image_of_that_size()
    {
        var (_, picture) = await Piece();
        (string Request, int Width, int Height)[] asked =
        [
            ("full/max/0/default.jpg", Width, Height), ("0,0,512,512/max/0/default.jpg", 512, 512), ("pct:10,10,50,50/max/0/default.jpg", 750, 500), ("square/max/0/default.jpg", 1000, 1000),
            ("full/300,/0/default.jpg", 300, 200), ("full/,100/0/default.jpg", 150, 100), ("full/pct:20/0/default.jpg", 300, 200), ("full/!300,300/0/default.jpg", 300, 200), ("full/300,300/0/default.jpg", 300, 300),
            ("full/300,/90/default.jpg", 200, 300), ("full/300,/180/default.jpg", 300, 200), ("full/300,/270/default.jpg", 200, 300),
            ("full/300,/0/color.jpg", 300, 200), ("full/300,/0/gray.jpg", 300, 200), ("full/300,/0/default.png", 300, 200), ("full/300,/0/default.webp", 300, 200),
            ("100,100,100,50/^400,/0/default.jpg", 400, 200), ("full/300,/!90/default.jpg", 200, 300), ("1024,512,476,488/476,488/0/default.jpg", 476, 488), ("0,0,1024,1000/512,500/0/default.jpg", 512, 500),
        ];
        var info = JsonNode.Parse(await host.Client.GetStringAsync(Relative($"/iiif/image/{picture}/info.json"), Cancel))!;
        var read = await OutsideReader.Ask(new() { ["images"] = new JsonArray(new JsonObject { ["info"] = info, ["requests"] = new JsonArray([.. asked.Select(a => (JsonNode)$"{host.Address}iiif/image/{picture}/{a.Request}")]) }) });
        Assert.True((bool)read["images"]![0]!["isService"]!);
        Assert.Equal(2, (int)read["images"]![0]!["level"]!);
        Assert.All(read["images"]![0]!["requests"]!.AsArray(), r => Assert.True((bool)r!["supported"]!, r.ToString()));
        foreach (var (request, width, height) in asked)
        {
            using var answer = await host.Client.GetAsync(Relative($"/iiif/image/{picture}/{request}"), Cancel);
            Assert.True(answer.IsSuccessStatusCode, $"{request}: {answer.StatusCode} {await answer.Content.ReadAsStringAsync(Cancel)}");
            Assert.Equal(request[^4..] switch { ".jpg" => "image/jpeg", ".png" => "image/png", _ => "image/webp" }, answer.Content.Headers.ContentType!.MediaType);
            var bytes = await answer.Content.ReadAsByteArrayAsync(Cancel);
            using var codec = SKCodec.Create(new MemoryStream(bytes));
            Assert.Equal(request[^4..] switch { ".jpg" => SKEncodedImageFormat.Jpeg, ".png" => SKEncodedImageFormat.Png, _ => SKEncodedImageFormat.Webp }, codec.EncodedFormat);
            using var image = SKBitmap.Decode(bytes);
            Assert.Equal((request, width, height), (request, image.Width, image.Height));
        }
    }

    [Fact]
    public async Task What_comes_is_what_was_asked_for()
    {
        var (_, picture) = await Piece();
        // Upper left red, upper right green, lower left blue, lower right pale.
        Assert.Equal([Red, Green, Blue, Pale], await Corners(picture, "full/300,/0/default.png"));
        Assert.Equal([Blue, Red, Pale, Green], await Corners(picture, "full/300,/90/default.png"));
        Assert.Equal([Pale, Blue, Green, Red], await Corners(picture, "full/300,/180/default.png"));
        Assert.Equal([Green, Pale, Red, Blue], await Corners(picture, "full/300,/270/default.png"));
        Assert.Equal([Green, Red, Pale, Blue], await Corners(picture, "full/300,/!0/default.png"));
        // Section 4.6: mirrored first, then turned.
        Assert.Equal([Pale, Green, Blue, Red], await Corners(picture, "full/300,/!90/default.png"));
        Assert.Equal([Green, Green, Green, Green], await Corners(picture, "800,100,200,200/max/0/default.png"));
        Assert.Equal([Blue, Pale, Blue, Pale], await Corners(picture, "pct:25,60,50,30/200,/0/default.png"));
        using var gray = SKBitmap.Decode(await host.Client.GetByteArrayAsync(Relative($"/iiif/image/{picture}/full/100,/0/gray.png"), Cancel));
        Assert.True(gray.GetPixel(5, 5) is var p && p.Red == p.Green && p.Green == p.Blue, "gray has a colour");
    }

    [Fact]
    public async Task Each_image_says_its_canonical_address_and_is_not_sent_twice()
    {
        var (_, picture) = await Piece();
        using var answer = await host.Client.GetAsync(Relative($"/iiif/image/{picture}/pct:0,0,100,100/!300,300/0/color.jpg"), Cancel);
        Assert.Contains($"<{host.Address}iiif/image/{picture}/full/300,200/0/default.jpg>;rel=\"canonical\"", answer.Headers.GetValues("Link"));
        using var request = new HttpRequestMessage(HttpMethod.Get, Relative($"/iiif/image/{picture}/full/300,200/0/default.jpg"));
        request.Headers.IfNoneMatch.Add(answer.Headers.ETag!);
        using var again = await host.Client.SendAsync(request, Cancel);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
    }

    [Theory]
    [InlineData("full/max/45/default.jpg", 400)]
    [InlineData("full/max/0/default.tif", 400)]
    [InlineData("full/5000,/0/default.jpg", 400)]
    [InlineData("full/^5000,/0/default.jpg", 400)]
    [InlineData("2000,0,10,10/max/0/default.jpg", 400)]
    [InlineData("x/y/z/default.jpg", 400)]
    [InlineData("full/max/0", 404)]
    public async Task What_can_not_be_answered_is_said_in_words(string request, int status)
    {
        var (_, picture) = await Piece();
        using var answer = await host.Client.GetAsync(Relative($"/iiif/image/{picture}/{request}"), Cancel);
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.False(string.IsNullOrEmpty((string?)JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["detail"]));
        using var none = await host.Client.GetAsync(Relative($"/iiif/image/{Guid.NewGuid()}/full/max/0/default.jpg"), Cancel);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    [Fact]
    public async Task Pages_of_other_sites_get_nothing_and_the_archives_own_other_name_does()
    {
        var (garment, picture) = await Piece();
        foreach (var path in new[] { $"/iiif/image/{picture}/info.json", $"/iiif/image/{picture}/full/100,/0/default.jpg", $"/iiif/garments/{garment}/manifest" })
        {
            using var foreign = await Ask(path, "https://example.org");
            Assert.Equal(HttpStatusCode.Forbidden, foreign.StatusCode);
            Assert.False(foreign.Headers.Contains("Access-Control-Allow-Origin"));
            var own = $"http://localhost:{host.Address.Port}";
            using var near = await Ask(path, own);
            Assert.True(near.IsSuccessStatusCode);
            Assert.Equal(own, near.Headers.GetValues("Access-Control-Allow-Origin").Single());
        }
    }

    [Fact]
    public async Task A_manifest_is_read_by_another_without_a_warning_and_holds_nothing_private()
    {
        var (garment, picture) = await Piece();
        var marked = """{"body":[{"type":"TextualBody","value":"needle holes"},"/api/words/laces/torchon"],"target":{"selector":{"type":"FragmentSelector","value":"xywh=10,20,300,200"}}}""";
        using var made = await host.Client.PostAsync(Relative($"/api/pictures/{picture}/regions"), new StringContent(marked, Encoding.UTF8, "application/ld+json"), Cancel);
        Assert.Equal(HttpStatusCode.Created, made.StatusCode);
        using var answer = await host.Client.GetAsync(Relative($"/iiif/garments/{garment}/manifest"), Cancel);
        Assert.Contains(answer.Content.Headers.ContentType!.Parameters, p => p is { Name: "profile", Value: "\"http://iiif.io/api/presentation/3/context.json\"" });
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        var manifest = JsonNode.Parse(text)!.AsObject();
        ManifestRules.Check(manifest);
        foreach (var secret in new[] { "Secret aunt", "Secret shelf", "Secret museum", "Secret maker", "Secret story" })
        {
            Assert.DoesNotContain(secret, text, StringComparison.Ordinal);
        }

        var read = (await OutsideReader.Ask(new() { ["manifests"] = new JsonArray(manifest.DeepClone()) }))["manifests"]![0]!;
        Assert.Empty(read["warnings"]!.AsArray());
        Assert.Equal((1, 2), ((int)read["canvases"]!, (int)read["annotations"]!));
        // Nothing had to be put right; only the bare address of a body it writes as an object, which the model allows as well.
        var body = read["upgraded"]!["items"]![0]!["annotations"]![0]!["items"]![0]!["body"]![2]!;
        body["source"] = body["source"]!["id"]!.DeepClone();
        Assert.True(JsonNode.DeepEquals(manifest, read["upgraded"]), read["upgraded"]!.ToJsonString());
        var canvas = read["again"]!["items"]![0]!;
        Assert.Equal((Width, Height), ((int)canvas["width"]!, (int)canvas["height"]!));
        Assert.Equal(manifest["items"]![0]!["id"]!.ToString(), canvas["id"]!.ToString());

        var image = new Uri(manifest["items"]![0]!["items"]![0]!["items"]![0]!["body"]!["id"]!.ToString());
        using var pixels = SKBitmap.Decode(await host.Client.GetByteArrayAsync(image, Cancel));
        Assert.Equal((Width, Height), (pixels.Width, pixels.Height));
        using var empty = await host.Client.PostAsync(Relative("/api/garments"), new StringContent("""{"name":"No picture"}""", Encoding.UTF8, "application/json"), Cancel);
        using var none = await host.Client.GetAsync(Relative($"/iiif/garments/{JsonNode.Parse(await empty.Content.ReadAsStringAsync(Cancel))!["id"]}/manifest"), Cancel);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    [Fact]
    public async Task A_lesson_is_read_by_another_in_its_own_order()
    {
        var (first, firstPicture) = await Piece();
        var (second, secondPicture) = await Piece();
        using var made = await host.Client.PostAsync(Relative("/api/lessons"), Json("""{"name":"White on white","shared":true}"""), Cancel);
        foreach (var garment in new[] { second, first })
        {
            using var added = await host.Client.PostAsync(Relative($"{made.Headers.Location}/entries"), Json($$"""{"garment":"{{garment}}"}"""), Cancel);
            Assert.Equal(HttpStatusCode.Created, added.StatusCode);
        }

        var text = await host.Client.GetStringAsync(Relative($"{made.Headers.Location!.ToString().Replace("/api/", "/iiif/", StringComparison.Ordinal)}/manifest"), Cancel);
        var manifest = JsonNode.Parse(text)!.AsObject();
        ManifestRules.Check(manifest);
        Assert.DoesNotContain("Secret", text, StringComparison.Ordinal);
        var read = (await OutsideReader.Ask(new() { ["manifests"] = new JsonArray(manifest.DeepClone()) }))["manifests"]![0]!;
        Assert.Empty(read["warnings"]!.AsArray());
        Assert.Equal(2, (int)read["canvases"]!);
        var order = read["again"]!["items"]!.AsArray().Select(c => c!["items"]![0]!["items"]![0]!["body"]!["id"]!.ToString()).ToList();
        Assert.Contains(secondPicture, order[0], StringComparison.Ordinal);
        Assert.Contains(firstPicture, order[1], StringComparison.Ordinal);
    }

    private static StringContent Json(string text) => new(text, Encoding.UTF8, "application/json");

    private async Task<SKColor[]> Corners(string picture, string request)
    {
        using var image = SKBitmap.Decode(await host.Client.GetByteArrayAsync(Relative($"/iiif/image/{picture}/{request}"), Cancel));
        var (x, y) = (image.Width / 10, image.Height / 10);
        return [.. new[] { image.GetPixel(x, y), image.GetPixel(image.Width - x, y), image.GetPixel(x, image.Height - y), image.GetPixel(image.Width - x, image.Height - y) }.Select(Nearest)];
    }

    // Scaling and the way through colour conversion may move a value a little.
    private static SKColor Nearest(SKColor seen) => new[] { Red, Green, Blue, Pale }
        .FirstOrDefault(c => Math.Abs(c.Red - seen.Red) + Math.Abs(c.Green - seen.Green) + Math.Abs(c.Blue - seen.Blue) < 24, seen);

    private async Task<(string Garment, string Picture)> Piece()
    {
        const string Sent = """{"name":"Dress with a picture","number":null,"kind":"dress","dated":"1908~","description":"White on white.","acquired":{"from":"Secret aunt"},"place":{"shelf":"Secret shelf"},"whereabouts":{"is":"here","to":"Secret museum"},"maker":{"text":"Secret maker"},"story":{"text":"Secret story"}}""";
        using var entered = await host.Client.PostAsync(Relative("/api/garments"), new StringContent(Sent, Encoding.UTF8, "application/json"), Cancel);
        var text = await entered.Content.ReadAsStringAsync(Cancel);
        Assert.True(entered.IsSuccessStatusCode, text);
        var garment = JsonNode.Parse(text)!["id"]!.ToString();
        using var form = new MultipartFormDataContent { { new ByteArrayContent(Made.Png(Width, Height)), "file", "a.png" } };
        using var taken = await host.Client.PostAsync(Relative($"/api/garments/{garment}/pictures"), form, Cancel);
        return (garment, JsonNode.Parse(await taken.Content.ReadAsStringAsync(Cancel))![0]!["id"]!.ToString());
    }

    private async Task<HttpResponseMessage> Ask(string path, string origin)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, Relative(path));
        request.Headers.TryAddWithoutValidation("Origin", origin);
        return await host.Client.SendAsync(request, Cancel);
    }

    private static Uri Relative(string path) => new(path, UriKind.Relative);
}
