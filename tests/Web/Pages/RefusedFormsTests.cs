using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Tests.Backups;

namespace HeirloomArchive.Web.Tests.Pages;

/// <summary>A form that is refused shows again with what was typed, at the thing it was typed for, and with the status that says why.</summary>
public sealed partial class RefusedFormsTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_note_for_a_lesson_that_changed_in_between_stays_in_its_field()
    {
        var piece = await Kept.Enter(host.Client, new { name = "A blouse" });
        var lesson = await Lesson(new { name = "Knots", entries = new[] { new { garment = piece["id"]!.ToString(), note = "As it was." } } });
        await Change("POST", $"/api/lessons/{lesson["id"]}/entries", new { garment = piece["id"]!.ToString() });
        var (status, page) = await Post($"/lessons/{lesson["id"]}?handler=Entry", ("version", "1"), ("entry", lesson["entries"]![0]!["id"]!.ToString()), ("show", "sample"), ("note", "Look at the knots."));
        Assert.Equal(HttpStatusCode.PreconditionFailed, status);
        Assert.Contains("Look at the knots.", page, StringComparison.Ordinal);
        Assert.Equal(1, page.Split("""<option value="sample" selected""").Length - 1);
        Assert.Contains("<details open", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_came_back_and_can_not_be_read_stays_typed_and_the_next_time_stays_as_proposed()
    {
        var piece = (await Kept.Enter(host.Client, new { name = "A bonnet" }))["id"]!.ToString();
        var lesson = await Lesson(new { name = "Bonnets", entries = new[] { new { garment = piece } }, given = new[] { new { date = "2026-03-02", @out = new[] { piece } } } });
        var (status, page) = await Post($"/lessons/{lesson["id"]}/given?handler=Back", ("version", "1"), ("time", "0"), ("back", piece), ("needlesBack", "twelve"), ("changed", "A spot on the crown"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Matches("""name="needlesBack" value="twelve"[^>]*aria-invalid="true""", page);
        Assert.Contains(">A spot on the crown</textarea>", page, StringComparison.Ordinal);
        Assert.Matches($"""name="back" value="{piece}" checked""", page);
        Assert.Matches("""name="date" value="2\d\d\d-""", page);
        Assert.Matches($"""name="out" value="{piece}" checked""", page);
    }

    [Fact]
    public async Task A_lesson_taken_away_in_between_is_said_and_the_note_for_it_stays()
    {
        var piece = (await Kept.Enter(host.Client, new { name = "A slip" }))["id"]!.ToString();
        var lesson = await Lesson(new { name = "Slips" });
        await Change("DELETE", $"/api/lessons/{lesson["id"]}", null, 1);
        var (status, page) = await Post("/lessons/add", ("e", piece), ("lesson", lesson["id"]!.ToString()), ("note", "Look at the hem."), ("show", "piece"));
        Assert.Equal(HttpStatusCode.NotFound, status);
        Assert.Contains("took this lesson away", page, StringComparison.Ordinal);
        Assert.Contains(">Look at the hem.</textarea>", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Words_for_a_picture_that_got_its_own_in_between_are_not_shown_beside_another_picture()
    {
        var (piece, picture) = await Pictured("A chemise");
        await Pictured("A later chemise, without words");
        await Change("PUT", $"/api/garments/{piece}/pictures/{picture}", new { view = "front", tags = new[] { "linen" } }, 2);
        (string, string)[] typed = [("piece", piece), ("picture", picture), ("version", "2"), ("view", "left sleeve from behind"), ("tags", "darned"), ("caption", "The darn at the wrist")];
        var (status, page) = await Post("/pictures/untagged", typed);
        Assert.Equal(HttpStatusCode.PreconditionFailed, status);
        Assert.Contains($"""name="picture" value="{picture}""", page, StringComparison.Ordinal);
        Assert.Contains("""name="version" value="3""", page, StringComparison.Ordinal);
        Assert.Contains("""value="left sleeve from behind""", page, StringComparison.Ordinal);
        Assert.Contains(">The darn at the wrist</textarea>", page, StringComparison.Ordinal);

        await Change("DELETE", $"/api/garments/{piece}/pictures/{picture}", null, 3);
        (status, page) = await Post("/pictures/untagged", typed);
        Assert.Equal(HttpStatusCode.NotFound, status);
        Assert.DoesNotContain("A later chemise", page, StringComparison.Ordinal);
        Assert.Contains("The darn at the wrist", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_words_for_pictures_that_were_not_chosen_stay_typed()
    {
        var piece = (await Kept.Enter(host.Client, new { name = "A cap" }))["id"]!.ToString();
        var (status, page) = await Post($"/pieces/{piece}?handler=Picture", ("caption", "The crown"), ("view", "wrong side"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Matches("""name="caption" value="The crown""", page);
        Assert.Matches("""name="view" value="wrong side""", page);
        Assert.Contains("""id="f-file">Choose one picture""", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_mark_that_was_changed_in_between_is_not_taken_away()
    {
        var (_, picture) = await Pictured("A yoke");
        var mark = await Change("POST", $"/api/pictures/{picture}/regions", JsonNode.Parse(
            """{"type":"Annotation","body":[{"type":"TextualBody","value":"a spot"}],"target":{"selector":{"type":"FragmentSelector","value":"xywh=1,1,5,5"}}}""")!);
        var region = mark["id"]!.ToString().Split('/')[^1];
        var (status, page) = await Post($"/pictures/{picture}?handler=Remove", ("region", region), ("version", "7"));
        Assert.Equal(HttpStatusCode.PreconditionFailed, status);
        Assert.Contains("do what you wanted once more", page, StringComparison.Ordinal);
        Assert.Contains("a spot", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_run_that_can_not_be_kept_leads_back_to_its_question()
    {
        var (browser, token) = await Browser();
        using var form = Form(token, ("groups[0].tucks", "0"), ("groups[0].width", "1/4 in"));
        using var answer = await browser.PostAsync(new Uri("/work-it-out/tucks?handler=Keep", UriKind.Relative), form, Ct);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var back = answer.Headers.Location!.ToString();
        Assert.DoesNotContain("RequestVerificationToken", back, StringComparison.Ordinal);
        using var question = await browser.GetAsync(new Uri(back, UriKind.Relative), Ct);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, question.StatusCode);
        Assert.Contains("value=\"1/4 in\"", WebUtility.HtmlDecode(await question.Content.ReadAsStringAsync(Ct)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/lessons/019a0000-0000-7000-8000-00000000dead.pdf")]
    [InlineData("/worksheets/019a0000-0000-7000-8000-00000000dead.pdf")]
    public async Task A_print_that_is_not_there_is_a_page_in_a_browser_and_JSON_for_a_program(string address)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, address) { Headers = { { "Accept", "text/html,application/xhtml+xml,*/*;q=0.8" } } };
        using var page = await host.Client.SendAsync(request, Ct);
        Assert.Equal((HttpStatusCode.NotFound, "text/html"), (page.StatusCode, page.Content.Headers.ContentType!.MediaType));
        Assert.Contains("Nothing is kept here", await page.Content.ReadAsStringAsync(Ct), StringComparison.Ordinal);
        using var json = await host.Client.GetAsync(new Uri(address, UriKind.Relative), Ct);
        Assert.Equal((HttpStatusCode.NotFound, "application/problem+json"), (json.StatusCode, json.Content.Headers.ContentType!.MediaType));
    }

    private async Task<(string Piece, string Picture)> Pictured(string name)
    {
        var piece = (await Kept.Enter(host.Client, new { name }))["id"]!.ToString();
        await Kept.Upload(host.Client, piece, Made.Png());
        var state = (await host.Client.GetFromJsonAsync<JsonObject>($"/api/garments/{piece}", Ct))!;
        return (piece, state["pictures"]![0]!["id"]!.ToString());
    }

    private Task<JsonObject> Lesson(object lesson) => Change("POST", "/api/lessons", lesson);

    private async Task<JsonObject> Change(string method, string address, object? body, int? version = null)
    {
        using var request = new HttpRequestMessage(new(method), address) { Content = body is null ? null : JsonContent.Create(body) };
        if (version is not null) request.Headers.TryAddWithoutValidation("If-Match", $"\"{version}\"");
        using var answer = await host.Client.SendAsync(request, Ct);
        var text = await answer.Content.ReadAsStringAsync(Ct);
        Assert.True(answer.IsSuccessStatusCode, text);
        return text.Length == 0 ? [] : JsonNode.Parse(text)!.AsObject();
    }

    private async Task<(HttpStatusCode Status, string Page)> Post(string address, params (string Name, string Value)[] fields)
    {
        var (browser, token) = await Browser();
        using var form = Form(token, fields);
        using var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = form, Headers = { { "Accept", "text/html" } } };
        using var answer = await browser.SendAsync(request, Ct);
        return (answer.StatusCode, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Ct)));
    }

    // Any form's token is good for all forms of that browser.
    private async Task<(HttpClient Browser, string Token)> Browser()
    {
        var browser = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = host.Address };
        return (browser, Token().Match(await browser.GetStringAsync(new Uri("/tape", UriKind.Relative), Ct)).Groups[1].Value);
    }

    private static FormUrlEncodedContent Form(string token, params (string Name, string Value)[] fields) =>
        new([KeyValuePair.Create("__RequestVerificationToken", token), .. fields.Select(f => KeyValuePair.Create(f.Name, f.Value))]);

    [GeneratedRegex("""name="__RequestVerificationToken"[^>]*value="([^"]+)""")]
    private static partial Regex Token();
}
