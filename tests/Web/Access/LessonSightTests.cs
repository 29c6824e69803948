using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Access;

/// <summary>A pupil sees the lessons that are shared with her, and of them nothing that is for those who teach.</summary>
public sealed class LessonSightTests(Household house) : IClassFixture<Household>
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_lesson_is_seen_by_those_it_is_for()
    {
        var (keeper, pupil) = (house.As("keeper"), house.As("pupil"));
        var own = await Make(keeper, """{"name":"Not shared","notes":"Remember the scissors."}""");
        var shared = await Make(keeper, """{"name":"Shared with all","notes":"Remember the scissors.","shared":true,"given":[{"date":"2026-03-02","group":"Tuesday"}]}""");

        Assert.Equal(HttpStatusCode.NotFound, (await pupil.GetAsync(own, Ct)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await pupil.GetAsync(own.Replace("/api", "", StringComparison.Ordinal), Ct)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await pupil.GetAsync(own.Replace("/api", "", StringComparison.Ordinal) + ".pdf", Ct)).StatusCode);
        var list = await pupil.GetStringAsync("/api/lessons", Ct);
        Assert.Contains("Shared with all", list, StringComparison.Ordinal);
        Assert.DoesNotContain("Not shared", list, StringComparison.Ordinal);
        foreach (var address in (string[])[shared, shared.Replace("/api", "", StringComparison.Ordinal), shared.Replace("/api", "", StringComparison.Ordinal) + "/hand-out"])
        {
            var text = await pupil.GetStringAsync(address, Ct);
            Assert.Contains("Shared with all", text, StringComparison.Ordinal);
            Assert.DoesNotContain("scissors", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Tuesday", text, StringComparison.Ordinal);
        }

        Assert.Contains("scissors", await keeper.GetStringAsync(shared, Ct), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, (await pupil.PostAsJsonAsync($"{shared}/entries", new JsonObject(), Ct)).StatusCode);
    }

    [Fact]
    public async Task Everybody_keeps_questions_of_her_own()
    {
        var kept = await house.As("pupil").PostAsJsonAsync("/api/questions", new JsonObject { ["name"] = "The pupil's own", ["search"] = "q=tucks" }, Ct);
        Assert.Equal(HttpStatusCode.Created, kept.StatusCode);
        Assert.Contains("The pupil's own", await house.As("pupil").GetStringAsync("/api/questions", Ct), StringComparison.Ordinal);
        Assert.DoesNotContain("The pupil's own", await house.As("keeper").GetStringAsync("/api/questions", Ct), StringComparison.Ordinal);
    }

    private static async Task<string> Make(HttpClient keeper, string body)
    {
        using var answer = await keeper.PostAsync("/api/lessons", new StringContent(body, System.Text.Encoding.UTF8, "application/json"), Ct);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return answer.Headers.Location!.ToString();
    }
}
