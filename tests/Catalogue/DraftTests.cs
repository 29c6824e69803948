using System.Text.Json.Nodes;
using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>A draft keeps its steps, and each can be taken back.</summary>
public sealed class DraftTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private readonly Drafts drafts = new(fixture.Store, TimeProvider.System);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Each_step_is_taken_back_to_the_form_as_it_was_begun()
    {
        foreach (var name in (string[])["a", "ab", "abc", "abc"])
        {
            await drafts.Keep("teacher", "steps", Json($$"""{"name":"{{name}}"}"""), Stop);
        }

        foreach (var name in (string?[])["ab", "a", null, null])
        {
            var kept = (await Back("steps"))!;
            Assert.Equal(name, kept.Fields["name"]?.ToString());
            Assert.Equal(name is not null, kept.CanStepBack);
        }

        Assert.Null(await Back("never-begun"));
    }

    [Fact]
    public async Task Steps_that_look_alike_in_the_form_are_one()
    {
        await drafts.Keep("teacher", "alike", Json("""{"name":"a"}"""), Stop);
        await drafts.Keep("teacher", "alike", Json("""{"name":"ab"}"""), Stop);
        await drafts.Keep("teacher", "alike", Json("""{"name":"ab","kind":""}"""), Stop);
        Assert.Equal("a", (await Back("alike"))!.Fields["name"]!.ToString());
    }

    [Fact]
    public async Task Twenty_steps_are_kept_and_fewer_of_very_large_ones()
    {
        for (var n = 1; n <= 30; n++)
        {
            await drafts.Keep("teacher", "many", Json($$"""{"n":{{n}}}"""), Stop);
            await drafts.Keep("teacher", "large", new JsonObject { ["n"] = n, ["story"] = new string('a', 500_000) }, Stop);
        }

        Assert.Equal(Drafts.MostSteps - 1, await StepsBack("many"));
        Assert.Equal(3, await StepsBack("large"));
    }

    [Fact]
    public async Task Two_people_do_not_share_a_draft()
    {
        await drafts.Keep("teacher", "shared", Json("""{"name":"hers"}"""), Stop);
        await drafts.Keep("pupil", "shared", Json("""{"name":"other"}"""), Stop);
        Assert.Equal("hers", (await drafts.Find("teacher", "shared", Stop))!.Fields["name"]!.ToString());
        await drafts.Forget("teacher", "shared", Stop);
        Assert.Null(await drafts.Find("teacher", "shared", Stop));
        Assert.NotNull(await drafts.Find("pupil", "shared", Stop));
    }

    // As a form looks: what is blank does not show.
    private Task<KeptDraft?> Back(string form) => drafts.StepBack("teacher", form, f => new JsonObject(f.Where(m => m.Value!.ToString().Length > 0).Select(m => KeyValuePair.Create(m.Key, m.Value?.DeepClone()))), Stop);

    private async Task<int> StepsBack(string form)
    {
        var steps = 0;
        while (steps < 100 && (await drafts.Find("teacher", form, Stop))!.CanStepBack)
        {
            await Back(form);
            steps++;
        }

        return steps;
    }
}
