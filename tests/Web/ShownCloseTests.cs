using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using UglyToad.PdfPig;

namespace HeirloomArchive.Web.Tests;

/// <summary>Where a technique is marked on a picture, that place is shown and printed in worksheets, lessons and examples; else the whole picture, as ever.</summary>
public sealed class ShownCloseTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    // The mark, 400 by 200 pixels, and 15 in the hundred of its longer side around it.
    private const string Marked = "xywh=200,300,400,200", Cut = "140,240,520,320";

    private static readonly (int Width, int Height) Size = (480, 295), Whole = (320, 240);

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_worksheet_shows_and_prints_the_marked_place_and_the_whole_picture_before()
    {
        var piece = await Piece();
        var sheet = $"/worksheets/{await Sheet(piece)}";
        Assert.Contains($"src=\"/api/pictures/{piece.Picture}/thumbnail\"", await Text(sheet), StringComparison.Ordinal);
        Assert.Equal([Whole], await Printed($"{sheet}.pdf"));

        await Mark(piece);
        var page = await Text(sheet);
        Assert.Contains($"src=\"{Address(piece)}\" alt=\"Pin tucks, yoke, seen close on the piece\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("/thumbnail", page, StringComparison.Ordinal);
        using var image = Made.Decoded(await host.Client.GetByteArrayAsync(new Uri(Address(piece), UriKind.Relative), Ct));
        Assert.Equal(Size, (image.Width, image.Height));
        Assert.Equal([Size], await Printed($"{sheet}.pdf"));
        Assert.Equal(await host.Client.GetByteArrayAsync($"{sheet}.pdf", Ct), await host.Client.GetByteArrayAsync($"{sheet}.pdf", Ct));
    }

    [Fact]
    public async Task A_lesson_its_hand_out_and_its_print_show_the_marked_place_of_a_technique_and_of_a_worksheet()
    {
        var (piece, other) = (await Piece(), await Piece());
        await Mark(piece);
        var sheet = await Sheet(piece);
        var lesson = (await Send("/api/lessons", $$"""
            {"name":"Pin tucks seen close","entries":[{"garment":"{{piece.Id}}","technique":"{{piece.Technique}}"},{"worksheet":"{{sheet}}"},{"garment":"{{other.Id}}","technique":"{{other.Technique}}"},{"garment":"{{piece.Id}}"}]}
            """))["id"];
        foreach (var way in new[] { $"/lessons/{lesson}", $"/lessons/{lesson}/hand-out" })
        {
            var page = await Text(way);
            Assert.Equal(3, page.Split($"src=\"{Address(piece)}\"").Length);
            Assert.Contains("Seen close on the piece: Pin tucks, yoke.", page, StringComparison.Ordinal);
            Assert.Contains($"src=\"/api/pictures/{other.Picture}/screen\"", page, StringComparison.Ordinal);
            Assert.Contains($"src=\"/api/pictures/{piece.Picture}/screen\"", page, StringComparison.Ordinal); // The whole piece.
        }

        Assert.Equal([Size, Size, Whole, Whole], await Printed($"/lessons/{lesson}.pdf"));
    }

    [Fact]
    public async Task Examples_of_a_technique_show_the_place_where_it_is_marked()
    {
        var piece = await Piece();
        await Mark(piece);
        var page = "";
        // The index follows the record in its own time.
        await Wait.Until(async () => (page = await Text($"/examples?q={piece.Name}+pin+tucks&tuckKind=pin")).Contains($"/pieces/{piece.Id}", StringComparison.Ordinal), "the piece is found");
        Assert.Contains($"src=\"{Address(piece)}\"", page, StringComparison.Ordinal);
    }

    private static string Address(Taken piece) => $"/iiif/image/{piece.Picture}/{Cut}/!480,480/0/default.jpg";

    private async Task<string> Sheet(Taken piece) => (await Send("/api/worksheets", $$$"""
        {"garment":"{{{piece.Id}}}","technique":"{{{piece.Technique}}}","plan":{"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}]}}
        """))["id"]!.ToString();

    private async Task<Taken> Piece()
    {
        var name = $"Dress{Guid.NewGuid():N}";
        var garment = await Send("/api/garments", $$"""{"name":"{{name}}"}""");
        using var form = new MultipartFormDataContent { { new ByteArrayContent(Made.Jpeg(1600, 1200)), "file", "a.jpg" } };
        using var taken = await host.Client.PostAsync(new Uri($"/api/garments/{garment["id"]}/pictures", UriKind.Relative), form, Ct);
        var picture = JsonNode.Parse(await taken.Content.ReadAsStringAsync(Ct))![0]!["id"]!.ToString();
        using var add = new HttpRequestMessage(HttpMethod.Post, $"/api/garments/{garment["id"]}/techniques") { Content = Json($$"""{"kind":"tucks","tuckKind":"pin","part":"yoke","pictures":["{{picture}}"]}""") };
        add.Headers.TryAddWithoutValidation("If-Match", $"\"{JsonNode.Parse(await Text($"/api/garments/{garment["id"]}"))!["version"]}\"");
        using var answer = await host.Client.SendAsync(add, Ct);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync(Ct));
        var whole = JsonNode.Parse(await Text($"/api/garments/{garment["id"]}"))!;
        return new(whole["id"]!.ToString(), name, whole["techniques"]![0]!["id"]!.ToString(), picture);
    }

    private async Task Mark(Taken piece) => await Send($"/api/pictures/{piece.Picture}/regions", new JsonObject
    {
        ["@context"] = "http://www.w3.org/ns/anno.jsonld", ["type"] = "Annotation",
        ["body"] = new JsonObject { ["type"] = "SpecificResource", ["source"] = $"/api/garments/{piece.Id}/techniques/{piece.Technique}", ["purpose"] = "identifying" },
        ["target"] = new JsonObject
        {
            ["type"] = "SpecificResource", ["source"] = $"/iiif/garments/{piece.Id}/canvas/{piece.Picture}",
            ["selector"] = new JsonObject { ["type"] = "FragmentSelector", ["conformsTo"] = "http://www.w3.org/TR/media-frags/", ["value"] = Marked },
        },
    }.ToJsonString());

    /// <summary>The pictures of a print in their order, as many pixels as they have.</summary>
    private async Task<List<(int, int)>> Printed(string way)
    {
        using var print = PdfDocument.Open(await host.Client.GetByteArrayAsync(new Uri(way, UriKind.Relative), Ct));
        return [.. print.GetPages().SelectMany(p => p.GetImages()).Select(i => (i.WidthInSamples, i.HeightInSamples))];
    }

    private Task<string> Text(string way) => host.Client.GetStringAsync(new Uri(way, UriKind.Relative), Ct);

    private async Task<JsonObject> Send(string way, string body)
    {
        using var answer = await host.Client.PostAsync(new Uri(way, UriKind.Relative), Json(body), Ct);
        var text = await answer.Content.ReadAsStringAsync(Ct);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    private static StringContent Json(string text) => new(text, Encoding.UTF8, new MediaTypeHeaderValue("application/json"));

    private sealed record Taken(string Id, string Name, string Technique, string Picture);
}
