using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;

namespace HeirloomArchive.Web.Tests;

/// <summary>Worksheets over HTTP: made from a piece, kept, read, listed, printed.</summary>
public sealed class WorksheetsApiTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    private const string Fitting = """
        "tucks":{"from":6,"to":20},"width":{"from":"1/8 in","to":"1/8 in"},"space":{"from":"1/8 in","to":"1/2 in"},"ends":{"from":"1 in","to":"3 in"},"finest":"1/16 in"
        """;

    [Fact] public async Task One_is_made_from_a_recorded_technique_and_read_again_as_it_was_answered()
    {
        var (garment, technique) = await Piece();
        var (status, made, location) = await Post($$"""{"garment":"{{garment}}","technique":"{{technique}}","onto":{"finished":"12 in",{{Fitting}}} }""");

        Assert.Equal(HttpStatusCode.Created, status);
        Assert.Equal($"/api/worksheets/{made["id"]}", location);
        Assert.Equal(1, made["recordVersion"]!.GetValue<long>());
        Assert.Equal("12 in", made["result"]!["plan"]!["finished"]!["text"]!.GetValue<string>());
        Assert.Equal("centre-front", made["result"]!["datum"]!["line"]!.GetValue<string>());
        Assert.Equal(made.ToJsonString(), (await Get(location!)).ToJsonString());
    }

    [Fact] public async Task Setting_the_piece_aside_leaves_its_worksheet_as_it_was()
    {
        var (garment, technique) = await Piece();
        var (_, made, location) = await Post($$"""{"garment":"{{garment}}","technique":"{{technique}}","onto":{"finished":"12 in",{{Fitting}}} }""");
        var print = await host.Client.GetByteArrayAsync($"/worksheets/{made["id"]}.pdf", Ct);
        using var aside = new HttpRequestMessage(HttpMethod.Delete, $"/api/garments/{garment}");
        aside.Headers.TryAddWithoutValidation("If-Match", "\"1\"");
        (await host.Client.SendAsync(aside, Ct)).EnsureSuccessStatusCode();

        Assert.Equal(made.ToJsonString(), (await Get(location!)).ToJsonString());
        Assert.Equal(print, await host.Client.GetByteArrayAsync($"/worksheets/{made["id"]}.pdf", Ct));
    }

    [Fact] public async Task The_print_is_a_pdf_with_its_title()
    {
        var (_, made, _) = await Post("""{"title":"Pin tucks on lawn","plan":{"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}]}}""");
        using var answer = await host.Client.GetAsync($"/worksheets/{made["id"]}.pdf", Ct);

        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        using var print = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync(Ct));
        Assert.Equal("Pin tucks on lawn", print.Information.Title);
    }

    [Fact] public async Task The_list_has_the_newest_first_and_a_page_after_the_last_is_empty()
    {
        await Post("""{"title":"Older","plan":{"groups":[{"tucks":1,"width":"1/8 in"}]}}""");
        var (_, newer, _) = await Post("""{"title":"Newer","plan":{"groups":[{"tucks":1,"width":"1/8 in"}]}}""");
        var list = await Get("/api/worksheets?page=1&size=2");
        var total = list["total"]!.GetValue<int>();

        Assert.True(total >= 2);
        Assert.Equal(["Newer", "Older"], list["items"]!.AsArray().Select(i => i!["title"]!.GetValue<string>()));
        Assert.Equal(newer["id"]!.GetValue<string>(), list["items"]![0]!["id"]!.GetValue<string>());
        Assert.Null(list["items"]![0]!["garment"]);
        Assert.Empty((await Get($"/api/worksheets?page={total + 1}&size=1"))["items"]!.AsArray());
    }

    [Fact] public async Task What_does_not_fit_is_422_with_its_reason_and_the_nearest_that_does()
    {
        var (status, problem, _) = await Post($$"""{"onto":{"finished":"3 in",{{Fitting}}} }""");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.NotEmpty(problem["reason"]!.GetValue<string>());
        Assert.NotEmpty(problem["nearest"]!.AsArray());
    }

    [Theory]
    [InlineData("""{"plan":{"groups":[{"tucks":1,"width":"1/8 in"}]},"wibble":1}""", 400, "wibble")]
    [InlineData("""{"onto":{"tucks":{"from":1,"to":1},"width":{"from":"1 in","to":"1 in"},"ends":{"from":"0 in","to":"9 in"},"finest":"1/16 in"}}""", 422, "onto.finished")]
    [InlineData("""{"plan":{"groups":[{"tucks":1,"width":"1/8 in"}]},"trims":[{}]}""", 422, "trims[0].edge")]
    public async Task A_refusal_names_the_field(string request, int expected, string path)
    {
        var (status, problem, _) = await Post(request);

        Assert.Equal(expected, (int)status);
        Assert.Contains(path, problem["errors"]!.AsObject().Select(e => e.Key));
    }

    [Theory]
    [InlineData("/api/worksheets/018f3c3e-0000-7000-8000-00000000dead", 404)]
    [InlineData("/worksheets/018f3c3e-0000-7000-8000-00000000dead.pdf", 404)]
    [InlineData("/api/worksheets?page=0", 400)]
    public async Task What_is_not_there_or_not_a_page_is_refused(string path, int expected)
    {
        using var answer = await host.Client.GetAsync(path, Ct);
        Assert.Equal(expected, (int)answer.StatusCode);
    }

    [Fact] public async Task An_unknown_garment_is_404_and_an_unknown_technique_422()
    {
        var (garment, _) = await Piece();
        const string plan = """
            "plan":{"groups":[{"tucks":1,"width":"1/8 in"}]}
            """;

        Assert.Equal(HttpStatusCode.NotFound, (await Post($$"""{"garment":"018f3c3e-0000-7000-8000-00000000dead",{{plan}}}""")).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Post($$"""{"garment":"{{garment}}","technique":"018f3c3e-0000-7000-8000-00000000dead",{{plan}}}""")).Status);
    }

    [Fact] public async Task Ticks_are_kept_beside_the_worksheet()
    {
        var (_, made, location) = await Post("""{"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}]}}""");
        Assert.Empty((await Get($"{location}/ticks"))["done"]!.AsArray());

        Assert.Equal(HttpStatusCode.OK, await Put($"{location}/ticks", """{"done":[3,1,3]}"""));
        Assert.Equal([1, 3], (await Get($"{location}/ticks"))["done"]!.AsArray().Select(n => n!.GetValue<int>()));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, await Put($"{location}/ticks", """{"done":[1,999]}"""));
        Assert.Equal(HttpStatusCode.BadRequest, await Put($"{location}/ticks", """{"done":["one"]}"""));
        Assert.Equal(made.ToJsonString(), (await Get(location!)).ToJsonString());
    }

    [Fact] public async Task A_tick_is_a_decision_about_its_own_step_and_those_of_many_hands_at_once_all_stay()
    {
        var (_, made, location) = await Post("""{"plan":{"groups":[{"tucks":12,"width":"1/8 in","space":"1/4 in"}]}}""");
        var steps = Enumerable.Range(1, made["result"]!["steps"]!.AsArray().Count).ToList();
        Assert.InRange(steps.Count, 12, 100);
        Assert.All(await Task.WhenAll(steps.Select(n => Patch($"{location}/ticks", $$"""{"done":[{{n}}]}"""))), status => Assert.Equal(HttpStatusCode.OK, status));
        Assert.Equal(steps, await Done());

        Assert.Equal(HttpStatusCode.OK, await Patch($"{location}/ticks", """{"undone":[2,3]}"""));
        Assert.Equal(HttpStatusCode.OK, await Patch($"{location}/ticks", """{"done":[3]}"""));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, await Patch($"{location}/ticks", """{"done":[2],"undone":[2]}"""));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, await Patch($"{location}/ticks", """{"undone":[999]}"""));
        Assert.Equal(HttpStatusCode.BadRequest, await Patch($"{location}/ticks", """{"undone":["one"]}"""));
        Assert.Equal(steps.Where(n => n != 2), await Done());

        async Task<IEnumerable<int>> Done() => (await Get($"{location}/ticks"))["done"]!.AsArray().Select(n => n!.GetValue<int>());
    }

    [Fact] public async Task For_a_measured_printer_the_marks_are_drawn_so_that_they_come_out_true()
    {
        var (_, made, _) = await Post("""{"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}]}}""");
        var (status, printer, _) = await Post("""{"name":"The one upstairs","measured":"48 mm"}""", "/api/printers");
        Assert.Equal(HttpStatusCode.Created, status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Post("""{"name":"No","measured":"5 in"}""", "/api/printers")).Status);

        using var print = PdfDocument.Open(await host.Client.GetByteArrayAsync($"/worksheets/{made["id"]}.pdf?printer={printer["id"]}", Ct));
        var drawn = print.GetPages().Last().Paths.SelectMany(p => p).SelectMany(s => s.Commands).OfType<PdfSubpath.Line>()
            .Where(l => Math.Abs(l.From.Y - l.To.Y) < 0.001).Select(l => Math.Abs(l.To.X - l.From.X) * 25.4 / 72);
        Assert.Contains(drawn, l => Math.Abs((l * 48 / 50) - 50) < 0.01);
    }

    private Task<HttpStatusCode> Put(string path, string json) => Send(HttpMethod.Put, path, json);

    private Task<HttpStatusCode> Patch(string path, string json) => Send(HttpMethod.Patch, path, json);

    private async Task<HttpStatusCode> Send(HttpMethod method, string path, string json)
    {
        using var request = new HttpRequestMessage(method, path) { Content = new StringContent(json, Encoding.UTF8, "application/json") };
        using var answer = await host.Client.SendAsync(request, Ct);
        return answer.StatusCode;
    }

    private async Task<(string Garment, string Technique)> Piece()
    {
        var (_, state, _) = await Post("""
            {"name":"A tucked yoke","kind":"baby-dress","techniques":[{"kind":"tucks","tuckKind":"pin","part":"yoke",
             "groups":[{"tucks":6,"width":"1/16 in","space":"3/16 in"}],"measuredFrom":"centre-front","turned":"to-sides","sewn":"hand"}]}
            """, "/api/garments");
        return (state["id"]!.GetValue<string>(), state["techniques"]![0]!["id"]!.GetValue<string>());
    }

    private async Task<(HttpStatusCode Status, JsonObject Answer, string? Location)> Post(string json, string path = "/api/worksheets")
    {
        using var body = new StringContent(json, Encoding.UTF8, "application/json");
        using var answer = await host.Client.PostAsync(path, body);
        return (answer.StatusCode, JsonNode.Parse(await answer.Content.ReadAsStringAsync())!.AsObject(), answer.Headers.Location?.ToString());
    }

    private async Task<JsonNode> Get(string path) => JsonNode.Parse(await host.Client.GetStringAsync(path, Ct))!;
}
