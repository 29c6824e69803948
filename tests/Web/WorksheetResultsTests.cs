using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using PdfDocument = UglyToad.PdfPig.PdfDocument;

namespace HeirloomArchive.Web.Tests;

/// <summary>What comes of worksheets over HTTP: sections, what was made up, corrections, rule and hand-out.</summary>
public sealed class WorksheetResultsTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private const string Five = """{"plan":{"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}],"lead":"2 in","trail":"2 in"}}""";

    private const string Front = """
        {"sections":[{"plan":{"groups":[{"tucks":3,"width":"1/16 in","space":"1/4 in"}],"lead":"1/2 in","trail":"1/2 in"}},{"insertion":{"width":"1 in"}}],"mirrored":true}
        """;

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact] public async Task A_mirrored_front_is_made_kept_and_printed()
    {
        var (status, made) = await Post("/api/worksheets", Front);
        Assert.Equal(HttpStatusCode.Created, status);
        Assert.Equal("5 3/8 in", made["result"]!["finished"]!["text"]!.GetValue<string>()); // 2 × (1 11/16 + 1)
        Assert.Equal(4, made["result"]!["sections"]!.AsArray().Count);
        Assert.Equal(made.ToJsonString(), (await Get($"/api/worksheets/{made["id"]}")).ToJsonString());
        Assert.StartsWith("%PDF", Encoding.Latin1.GetString(await host.Client.GetByteArrayAsync($"/worksheets/{made["id"]}.pdf", Ct)), StringComparison.Ordinal);
        Assert.Contains("L1a", await host.Client.GetStringAsync($"/worksheets/{made["id"]}", Ct), StringComparison.Ordinal);
    }

    [Fact] public async Task What_came_of_it_is_kept_and_its_strip_makes_the_corrected_version()
    {
        var (_, sheet) = await Post("/api/worksheets", Five);
        var at = $"/api/worksheets/{sheet["id"]}";
        var (status, made) = await Post($"{at}/made-up", """{"date":"2026-01-05","cloth":"lawn","finished":"5 7/16 in","note":"pressed damp"}""");
        Assert.Equal(HttpStatusCode.Created, status);
        Assert.Equal("-3/16 in", made["difference"]!["text"]!.GetValue<string>());

        await Post($"{at}/made-up", """{"date":"2026-01-06","finished":"5 5/8 in"}""");
        var list = await Get($"{at}/made-up");
        Assert.Equal(2, list["total"]!.GetValue<int>());
        Assert.Equal(["2026-01-06", "2026-01-05"], list["items"]!.AsArray().Select(i => i!["date"]!.GetValue<string>()));

        var (corrected, better) = await Post($"{at}/corrected", new JsonObject { ["testStrip"] = made["testStrip"]!.DeepClone() }.ToJsonString());
        Assert.Equal(HttpStatusCode.Created, corrected);
        Assert.Equal("7 1/16 in", better["result"]!["plan"]!["cloth"]!["text"]!.GetValue<string>());
        Assert.Equal(sheet["id"]!.GetValue<string>(), better["correctedFrom"]!.GetValue<string>());
        Assert.Equal(sheet.ToJsonString(), (await Get(at)).ToJsonString());
    }

    [Theory]
    [InlineData("made-up", """{"date":"2026-01-05","finished":"9 in"}""", 422, "finished")]
    [InlineData("made-up", """{"date":"2026-01-05","finished":"5 in","picture":"018f3c3e-0000-7000-8000-00000000dead"}""", 422, "picture")]
    [InlineData("corrected", """{"testStrip":{"tucks":5,"width":"1/8","flat":"12 in","finished":"9 in"}}""", 400, "testStrip.width")]
    [InlineData("corrected", """{"testStrip":{"tucks":5,"width":"1/8 in","flat":"9 in","finished":"12 in"}}""", 422, "testStrip")]
    public async Task A_refusal_names_the_field(string what, string body, int expected, string path)
    {
        var (_, sheet) = await Post("/api/worksheets", Five);
        var (status, problem) = await Post($"/api/worksheets/{sheet["id"]}/{what}", body);
        Assert.Equal(expected, (int)status);
        Assert.Contains(problem["errors"]!.AsObject(), e => e.Key.StartsWith(path, StringComparison.Ordinal));
    }

    [Fact] public async Task A_picture_of_what_came_of_it_comes_by_form_and_one_that_is_none_keeps_nothing()
    {
        var (_, sheet) = await Post("/api/worksheets", Five);
        var at = $"/api/worksheets/{sheet["id"]}/made-up";
        var file = Made.Png(400, 300);

        var (status, made) = await Form(at, file);
        Assert.Equal(HttpStatusCode.Created, status);
        Assert.Equal("5 7/16 in", made["finished"]!["text"]!.GetValue<string>());
        Assert.Equal(file, await host.Client.GetByteArrayAsync($"/api/pictures/{made["picture"]}/original", Ct));

        foreach (var none in (string[])["no picture", "<svg/>"])
        {
            var (refused, problem) = await Form(at, Encoding.ASCII.GetBytes(none));
            Assert.Equal(HttpStatusCode.UnsupportedMediaType, refused);
            Assert.NotNull(problem["errors"]!["file[0]"]);
        }

        Assert.Equal(1, (await Get(at))["total"]!.GetValue<int>());
    }

    private async Task<(HttpStatusCode Status, JsonObject Answer)> Form(string path, byte[] file)
    {
        using var form = new MultipartFormDataContent();
        form.Add(new StringContent("2026-01-05"), "date");
        form.Add(new StringContent("5 7/16 in"), "finished");
        form.Add(new ByteArrayContent(file), "file", "made.png");
        using var answer = await host.Client.PostAsync(path, form, Ct);
        return (answer.StatusCode, JsonNode.Parse(await answer.Content.ReadAsStringAsync(Ct))!.AsObject());
    }

    [Fact] public async Task The_rule_is_printed_on_request_and_a_class_gets_a_hand_out_and_its_teacher_the_answers()
    {
        var (_, sheet) = await Post("/api/worksheets", Five);
        var without = await Text($"/worksheets/{sheet["id"]}.pdf");
        var with = await Text($"/worksheets/{sheet["id"]}.pdf?rule=true");
        Assert.DoesNotContain("Folding rule, piece 1", without, StringComparison.Ordinal);
        Assert.Contains("Folding rule, piece 1 of 1", with, StringComparison.Ordinal);

        Assert.DoesNotContain("6 7/8", await Text($"/worksheets/{sheet["id"]}/teaching.pdf"), StringComparison.Ordinal);
        var answers = await Text($"/worksheets/{sheet["id"]}/teaching.pdf?answers=true&pupils=12");
        Assert.Contains("6 7/8", answers, StringComparison.Ordinal);
        Assert.Contains("For a class of 12", answers, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(".pdf?rule=perhaps", 400, "rule")]
    [InlineData(".pdf?printer=mine", 400, "printer")]
    [InlineData("/teaching.pdf?answers=1", 400, "answers")]
    [InlineData("/teaching.pdf?pupils=many", 400, "pupils")]
    [InlineData("/teaching.pdf?pupils=0", 422, "pupils")]
    public async Task A_question_that_can_not_be_read_is_refused(string query, int expected, string field)
    {
        var (_, sheet) = await Post("/api/worksheets", Five);
        using var answer = await host.Client.GetAsync($"/worksheets/{sheet["id"]}{query}", Ct);
        Assert.Equal(expected, (int)answer.StatusCode);
        Assert.NotNull(JsonNode.Parse(await answer.Content.ReadAsStringAsync(Ct))!["errors"]![field]);
    }

    private async Task<string> Text(string path)
    {
        using var print = PdfDocument.Open(await host.Client.GetByteArrayAsync(path, Ct));
        return string.Join(' ', print.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
    }

    private async Task<(HttpStatusCode Status, JsonObject Answer)> Post(string path, string json)
    {
        using var body = new StringContent(json, Encoding.UTF8, "application/json");
        using var answer = await host.Client.PostAsync(path, body, Ct);
        return (answer.StatusCode, JsonNode.Parse(await answer.Content.ReadAsStringAsync(Ct))!.AsObject());
    }

    private async Task<JsonNode> Get(string path) => JsonNode.Parse(await host.Client.GetStringAsync(path, Ct))!;
}
