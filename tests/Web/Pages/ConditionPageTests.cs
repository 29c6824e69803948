using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Pages;

/// <summary>The pages of condition and care, over HTTP.</summary>
public sealed partial class ConditionPageTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_finding_looked_at_again_is_one_thing_with_both_looks_and_its_caution()
    {
        var (id, findings) = await Piece("""[{"date":"2024-05-10","what":"mould","part":"yoke","severity":"slight","attention":"watch"},{"date":"2024-05-10","what":"stain","attention":"before-handling"}]""");
        await Add(id, "condition", $$"""{"date":"2025-05-10","what":"mould","part":"yoke","severity":"moderate","attention":"soon","continues":"{{findings[0]}}"}""");
        var page = await Get($"/pieces/{id}");
        Assert.Equal(2, Followed().Count(page));
        Assert.Equal(["Stain", "Mould, yoke"], Titles().Matches(page).Select(m => m.Groups[1].Value));
        Assert.Contains("Worse than before", page, StringComparison.Ordinal);
        Assert.Contains("always wear gloves and a fitted mask", page, StringComparison.Ordinal);
        Assert.Contains($"id=\"{findings[0]}\"", page, StringComparison.Ordinal);
        Assert.Equal(Ids().Matches(page).Select(m => m.Value).Distinct().Count(), Ids().Count(page));
    }

    [Fact]
    public async Task The_form_that_looks_again_takes_over_what_and_where_and_leaves_how_bad_to_be_seen()
    {
        var (id, findings) = await Piece("""[{"date":"2024-05-10","what":{"own":"ribbon mark"},"part":"neck","side":"left","face":"inside","at":"at the seam","severity":"severe","extent":"2 in"}]""");
        var page = await Get($"/pieces/{id}/condition/new?continues={findings[0]}");
        Assert.Matches("""name="what\.own"[^>]*value="ribbon mark"|value="ribbon mark"[^>]*name="what\.own""", page);
        foreach (var chosen in new[] { "neck", "left", "inside", findings[0] })
        {
            Assert.Matches($"""<option value="{chosen}" selected""", page);
        }

        Assert.Contains("at the seam", page, StringComparison.Ordinal);
        Assert.DoesNotMatch("""<option value="severe" selected""", page);
        Assert.Contains("How it was before", page, StringComparison.Ordinal);

        var repair = await Get($"/pieces/{id}/repairs/new?answers={findings[0]}");
        Assert.Matches($"""<option value="{findings[0]}" selected""", repair);
        Assert.Contains("What it mends", repair, StringComparison.Ordinal);
        // What leads nowhere begins an ordinary finding.
        Assert.DoesNotContain("How it was before", await Get($"/pieces/{id}/condition/new?continues={Guid.NewGuid()}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_examinations_are_compared_and_one_that_is_not_there_is_named()
    {
        var (id, _) = await Piece("""[{"date":"2024-05-10","what":"tear","severity":"slight"}]""", """[{"date":"2024-05-10"},{"date":"2026-05-10"}]""");
        Assert.Contains("looked over the second time, nothing new", await Get($"/pieces/{id}/condition"), StringComparison.Ordinal);
        using var answer = await host.Client.GetAsync($"/pieces/{id}/condition?first=never", Ct);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("“never” is none of the times", WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Ct)), StringComparison.Ordinal);
        using var nowhere = await host.Client.GetAsync($"/pieces/{Guid.NewGuid()}/condition", Ct);
        Assert.Equal(HttpStatusCode.NotFound, nowhere.StatusCode);
    }

    [Fact]
    public async Task A_piece_never_looked_over_has_its_page_as_well()
    {
        var (id, _) = await Piece("[]");
        var page = await Get($"/pieces/{id}/condition");
        Assert.Contains("No finding is recorded", page, StringComparison.Ordinal);
        Assert.DoesNotContain("What two examinations differ in", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Ending_what_is_followed_ends_all_of_it_in_one_change_and_it_asks_for_care_no_more()
    {
        var (id, findings) = await Piece("""[{"date":"2024-05-10","what":"tear","attention":"before-handling"}]""");
        await Add(id, "condition", $$"""{"date":"2025-05-10","what":"tear","attention":"soon","continues":"{{findings[0]}}"}""");
        var before = await Garment(id);
        using var answer = await End(id, before["version"]!.ToString(), before["condition"]![1]!["id"]!.ToString(), "2026-06-01");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var after = await Garment(id);
        Assert.Equal(before["version"]!.GetValue<long>() + 1, after["version"]!.GetValue<long>());
        Assert.All(after["condition"]!.AsArray(), f => Assert.Equal("2026-06-01", f!["ended"]!["date"]!.ToString()));
        Assert.DoesNotContain(id, await host.Client.GetStringAsync("/api/search?attention=before-handling&attention=soon&size=100", Ct), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_another_finding_still_goes_on_from_is_not_ended_with_one_of_the_two()
    {
        var (id, findings) = await Piece("""[{"date":"2024-05-10","what":"tear"}]""");
        await Add(id, "condition", $$"""{"date":"2025-05-10","what":"tear","continues":"{{findings[0]}}"}""");
        await Add(id, "condition", $$"""{"date":"2025-05-10","what":"hole","continues":"{{findings[0]}}"}""");
        var before = await Garment(id);
        using var answer = await End(id, before["version"]!.ToString(), before["condition"]![1]!["id"]!.ToString(), "2026-06-01");
        Assert.Equal([false, true, false], (await Garment(id))["condition"]!.AsArray().Select(f => f!["ended"] is not null));
    }

    [Theory]
    [InlineData("2026-13-40", HttpStatusCode.UnprocessableEntity)]
    [InlineData("", HttpStatusCode.UnprocessableEntity)]
    public async Task An_end_without_a_day_or_with_no_such_day_is_asked_again_and_nothing_changes(string date, HttpStatusCode status)
    {
        var (id, findings) = await Piece("""[{"date":"2024-05-10","what":"tear"}]""");
        using var answer = await End(id, "1", findings[0], date);
        Assert.Equal(status, answer.StatusCode);
        var again = await answer.Content.ReadAsStringAsync(Ct);
        Assert.Contains("Tear: over and done with", again, StringComparison.Ordinal);
        Assert.Matches($"""name="date" value="{date}"[^>]*aria-invalid="true""", again);
        Assert.Equal(1, (await Garment(id))["version"]!.GetValue<long>());
    }

    [Fact]
    public async Task An_end_over_a_newer_record_is_refused_and_what_is_no_finding_is_not_there()
    {
        var (id, findings) = await Piece("""[{"date":"2024-05-10","what":"tear"}]""");
        await Add(id, "condition", """{"what":"stain"}""");
        using var stale = await End(id, "1", findings[0], "2026-06-01");
        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.StatusCode);
        using var nothing = await End(id, "2", "nothing", "2026-06-01");
        Assert.Equal(HttpStatusCode.NotFound, nothing.StatusCode);
    }

    [Fact]
    public async Task A_repair_and_what_it_mends_lead_to_each_other()
    {
        var (id, findings) = await Piece("""[{"date":"2024-05-10","what":"tear","part":"hem"}]""");
        await Add(id, "repairs", $$"""{"method":"darn","part":"hem","sewn":"hand","handStitch":"running","when":"later","why":"mend","holds":"pulls-the-cloth","thread":"silk","by":"a niece","answers":"{{findings[0]}}"}""");
        var repair = (await Garment(id))["repairs"]![0]!["id"]!.ToString();
        var page = await Get($"/pieces/{id}");
        Assert.Contains($"Mended: <a href=\"/pieces/{id}#{repair}\">Darn, hem</a>, which pulls the cloth", page, StringComparison.Ordinal);
        Assert.Contains($"Mends: <a href=\"#{findings[0]}\">Tear, hem</a>", page, StringComparison.Ordinal);
        foreach (var fact in new[] { "Later", "Mend", "Pulls the cloth", "silk", "a niece", "Running stitch" })
        {
            Assert.Contains($"<dd>{fact}</dd>", page, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task The_lists_of_care_are_pages_and_what_is_no_list_is_not_there()
    {
        var (id, _) = await Piece("""[{"what":"tear","attention":"before-handling","severity":"severe"}]""");
        await Change(id, """{"whereabouts":{"is":"lent","since":"2026-01","dueBack":"2026-02-03"},"shown":[{"hoursOfLight":300},{"hoursOfLight":1}]}""");
        Assert.Contains("Tear: severe", await Get("/care?list=before-handling"), StringComparison.Ordinal);
        var away = await Get("/care?list=away");
        Assert.Contains("Lent since January 2026, due back 3 February 2026", away, StringComparison.Ordinal);
        Assert.Contains("Overdue", away, StringComparison.Ordinal);
        Assert.DoesNotContain("are overdue", away, StringComparison.Ordinal);
        var light = await Get("/care?list=light");
        Assert.Contains("Shown 2 times, 301 hours of light in all", light, StringComparison.Ordinal);
        Assert.Contains("Let it rest", light, StringComparison.Ordinal);
        Assert.Contains("No level of light is harmless", light, StringComparison.Ordinal);
        foreach (var address in new[] { "/care?list=nothing", "/care?number=0", "/care?number=20000" })
        {
            using var answer = await host.Client.GetAsync(address, Ct);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }
    }

    [Fact]
    public async Task What_children_wore_and_a_new_arrival_show_their_cautions()
    {
        using var entered = await host.Client.PostAsJsonAsync("/api/garments", JsonNode.Parse("""{"name":"A bonnet","kind":"bonnet","handling":"keep-apart"}"""), Ct);
        var page = await Get(entered.Headers.Location!.ToString().Replace("/api/garments", "/pieces", StringComparison.Ordinal));
        Assert.Contains("No cords or neck ribbons", page, StringComparison.Ordinal);
        Assert.Contains("Kept apart.", page, StringComparison.Ordinal);
        Assert.Contains("Look it over for insects, mould and damp", page, StringComparison.Ordinal);
    }

    private async Task<string> Get(string address)
    {
        using var answer = await host.Client.GetAsync(address, Ct);
        var text = await answer.Content.ReadAsStringAsync(Ct);
        Assert.True(answer.IsSuccessStatusCode, $"{address}: {answer.StatusCode}");
        return WebUtility.HtmlDecode(text);
    }

    private async Task<(string Id, string[] Findings)> Piece(string findings, string examinations = "[]")
    {
        using var answer = await host.Client.PostAsJsonAsync("/api/garments", new JsonObject { ["name"] = "A gown", ["condition"] = JsonNode.Parse(findings), ["examinations"] = JsonNode.Parse(examinations) }, Ct);
        var state = (await answer.Content.ReadFromJsonAsync<JsonObject>(Ct))!;
        return (state["id"]!.ToString(), [.. state["condition"]!.AsArray().Select(f => f!["id"]!.ToString())]);
    }

    private async Task<JsonObject> Garment(string id) => (await host.Client.GetFromJsonAsync<JsonObject>($"/api/garments/{id}", Ct))!;

    private Task Add(string id, string list, string entry) => Send(HttpMethod.Post, id, $"/{list}", entry);

    private Task Change(string id, string patch) => Send(HttpMethod.Patch, id, "", patch);

    private async Task Send(HttpMethod method, string id, string where, string body)
    {
        using var request = new HttpRequestMessage(method, $"/api/garments/{id}{where}") { Content = new StringContent(body, new MediaTypeHeaderValue("application/json")) };
        request.Headers.TryAddWithoutValidation("If-Match", $"\"{(await Garment(id))["version"]}\"");
        using var answer = await host.Client.SendAsync(request, Ct);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync(Ct));
    }

    // As the form on the piece's page does it: with the token of that page.
    private async Task<HttpResponseMessage> End(string id, string version, string finding, string date)
    {
        using var browser = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = host.Address };
        var token = Token().Match(await browser.GetStringAsync($"/pieces/{id}", Ct)).Groups[1].Value;
        return await browser.PostAsync($"/pieces/{id}/condition?handler=End", new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["__RequestVerificationToken"] = token, ["version"] = version, ["finding"] = finding, ["date"] = date,
        }), Ct);
    }

    [GeneratedRegex("""name="__RequestVerificationToken"[^>]*value="([^"]+)""")]
    private static partial Regex Token();

    [GeneratedRegex("""<h3>\s*<a href="[^"]*/condition/[^"]*">([^<]*)</a>""")]
    private static partial Regex Titles();

    [GeneratedRegex("class=\"entry followed\"")]
    private static partial Regex Followed();

    [GeneratedRegex(""" id="[^"]+""")]
    private static partial Regex Ids();
}
