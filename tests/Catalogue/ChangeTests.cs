using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>Entering a garment and changing it, on the real store.</summary>
public sealed class ChangeTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Archive Archive => fixture.Archive;

    [Fact]
    public async Task A_garment_entered_is_found_as_it_was_answered()
    {
        var saved = await fixture.Enter(Examples.Everything.Replace("E-001", "E-002", StringComparison.Ordinal));
        var found = await Archive.Find(saved.Garment.Id, Stop);
        Assert.Equal(1, saved.Garment.Version);
        Assert.True(saved.Position > 0);
        Assert.Equal(saved.Garment.State().ToJsonString(), found!.State().ToJsonString());
    }

    [Fact]
    public async Task The_state_has_id_version_and_every_list_and_leaves_absent_fields_out()
    {
        var state = (await fixture.Enter("""{"name":"Cap"}""")).Garment.State();
        Assert.Equal(
            ["id", "version", "setAside", "name", "materials", "measures", "marks", "alterations", "belongsWith", "shown", "tags", "examinations", "condition", "repairs", "techniques", "pictures"],
            state.Select(f => f.Key));
        Assert.Null(state["setAside"]);
        Assert.Equal(1, (long?)state["version"]);
    }

    [Fact]
    public async Task A_change_is_one_version_more_and_keeps_all_else()
    {
        var saved = await fixture.Enter("""{"name":"Petticoat","overall":"fair","tags":["lawn"],"place":{"shelf":"1","box":"2"}}""");
        var changed = await Archive.Change(saved.Garment.Id, 1, Json("""{"overall":null,"datedText":"about 1900","place":{"box":"3"}}"""), "helper", Stop);
        Assert.Equal(2, changed.Garment.Version);
        Assert.True(changed.Position > saved.Position);
        var state = (await Archive.Find(saved.Garment.Id, Stop))!.State();
        Assert.False(state.ContainsKey("overall"));
        Assert.Equal("about 1900", (string?)state["datedText"]);
        Assert.Equal("""{"shelf":"1","box":"3"}""", state["place"]!.ToJsonString());
        Assert.Equal("""["lawn"]""", state["tags"]!.ToJsonString());
        Assert.Equal(changed.Garment.State().ToJsonString(), state.ToJsonString());
    }

    [Fact]
    public async Task A_change_that_changes_nothing_is_no_event()
    {
        var saved = await fixture.Enter(Examples.BabyDress);
        foreach (var patch in new[] { new JsonObject(), Json("""{"overall":"fair","description":""}"""), saved.Garment.State() })
        {
            var same = await Archive.Change(saved.Garment.Id, 1, patch, "teacher", Stop);
            Assert.Equal(1, same.Garment.Version);
            Assert.Equal(saved.Position, same.Position);
        }
    }

    [Fact]
    public async Task What_was_read_can_be_sent_back_with_one_thing_changed()
    {
        var saved = await fixture.Enter(Examples.BabyDress);
        var state = saved.Garment.State();
        state["techniques"]![0]!["sure"] = "perhaps";
        var changed = (await Archive.Change(saved.Garment.Id, 1, state, "teacher", Stop)).Garment;
        Assert.Equal(2, changed.Version);
        var difference = Assert.Single(Differences.Between(saved.Garment.Fields, changed.Fields));
        Assert.Equal("techniques[0].sure", difference.Path);
    }

    [Theory]
    [InlineData("""{"id":"0199a1b2-0000-7000-8000-000000000000"}""", "id")]
    [InlineData("""{"version":7}""", "version")]
    [InlineData("""{"setAside":{"when":"2026-01-01T00:00:00Z","who":"me"}}""", "setAside")]
    [InlineData("""{"name":null}""", "name")]
    [InlineData("""{"name":" "}""", "name")]
    [InlineData("""{"techniques":[{"id":"0199a1b2-0000-7000-8000-000000000000"}]}""", "techniques[0].id")]
    [InlineData("""{"pictures":[{"caption":"front"}]}""", "pictures[0]")]
    [InlineData("""{"condition":[{"examination":"0199a1b2-0000-7000-8000-000000000000"}]}""", "condition[0].examination")]
    [InlineData("""{"condition":[{"continues":"0199a1b2-0000-7000-8000-000000000000"}]}""", "condition[0].continues")]
    [InlineData("""{"condition":[{"ended":{"repair":"0199a1b2-0000-7000-8000-000000000000"}}]}""", "condition[0].ended.repair")]
    [InlineData("""{"repairs":[{"answers":"0199a1b2-0000-7000-8000-000000000000"}]}""", "repairs[0].answers")]
    [InlineData("""{"techniques":[{"kind":"tucks","under":"0199a1b2-0000-7000-8000-000000000000"}]}""", "techniques[0].under")]
    [InlineData("""{"techniques":[{"kind":"tucks","crosses":"0199a1b2-0000-7000-8000-000000000000"}]}""", "techniques[0].crosses")]
    [InlineData("""{"techniques":[{"pictures":["0199a1b2-0000-7000-8000-000000000000"]}]}""", "techniques[0].pictures[0]")]
    [InlineData("""{"belongsWith":["0199a1b2-0000-7000-8000-000000000000"]}""", "belongsWith[0]")]
    public async Task A_change_that_makes_no_sense_names_the_field_and_changes_nothing(string patch, string path)
    {
        var id = (await fixture.Enter("""{"name":"Bib"}""")).Garment.Id;
        var refused = await Assert.ThrowsAsync<FaultException>(() => Archive.Change(id, 1, Json(patch), "teacher", Stop));
        Assert.Equal(path, Assert.Single(refused.Faults).Path);
        Assert.False(refused.Unreadable);
        Assert.Equal(1, (await Archive.Find(id, Stop))!.Version);
    }

    [Fact]
    public async Task What_can_not_be_read_is_told_before_anything_else()
    {
        var unreadable = Json("""{"nosuchfield":1}""");
        Assert.True((await Assert.ThrowsAsync<FaultException>(() => Archive.Change(Guid.NewGuid(), 1, unreadable, "teacher", Stop))).Unreadable);
        Assert.True((await Assert.ThrowsAsync<FaultException>(() => Archive.PutEntry(Guid.NewGuid(), 1, "pictures", Guid.Empty, unreadable, "teacher", Stop))).Unreadable);
    }

    [Fact]
    public async Task A_stale_change_is_told_where_it_and_the_record_differ()
    {
        var id = (await fixture.Enter("""{"name":"Cap","overall":"fair","place":{"shelf":"1"}}""")).Garment.Id;
        await Archive.Change(id, 1, Json("""{"overall":"weak","tags":["a"]}"""), "helper", Stop);
        var stale = await Assert.ThrowsAsync<StaleException>(() =>
            Archive.Change(id, 1, Json("""{"name":"Cap","overall":"sound","place":{"box":"9"}}"""), "teacher", Stop));
        Assert.Equal(2, stale.Version);
        Assert.Equal(
            """[{"path":"overall","yours":"sound","now":"weak"},{"path":"place.box","yours":"9","now":null}]""",
            new JsonArray([.. stale.Differs.OrderBy(d => (string?)d!["path"]).Select(d => d!.DeepClone())]).ToJsonString());
    }

    [Fact]
    public async Task Of_many_who_change_one_version_at_once_one_wins_and_the_others_are_told()
    {
        var id = (await fixture.Enter("""{"name":"Cap"}""")).Garment.Id;
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 16).Select(async i =>
        {
            try
            {
                return (await Archive.Change(id, 1, new JsonObject { ["datedText"] = $"guess {i}" }, "teacher", Stop)).Garment.Version;
            }
            catch (StaleException e)
            {
                return -e.Version;
            }
        }));
        Assert.Equal(1, outcomes.Count(o => o == 2));
        Assert.Equal(15, outcomes.Count(o => o == -2));
        Assert.Equal(2, (await Archive.Find(id, Stop))!.Version);
    }

    [Fact]
    public async Task A_garment_that_is_not_there_can_not_be_changed()
    {
        var id = Guid.CreateVersion7();
        Assert.Null(await Archive.Find(id, Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.Change(id, 1, Json("""{"name":"x"}"""), "teacher", Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.SetAside(id, 1, "teacher", Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.BringBack(id, "teacher", Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.PutBack(id, 1, 1, null, "teacher", Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.History(id, 1, 20, Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.AddPictures(id, [], "teacher", Stop));
    }

    [Theory]
    [InlineData("""{"name":"a","id":"0199a1b2-0000-7000-8000-000000000000"}""", "id")]
    [InlineData("""{"name":"a","version":1}""", "version")]
    [InlineData("""{"kind":"dress"}""", "name")]
    [InlineData("""{"name":"a","condition":[{"what":"tear","examination":"0199a1b2-0000-7000-8000-000000000000"}]}""", "condition[0].examination")]
    public async Task A_new_garment_that_makes_no_sense_is_not_entered(string json, string path)
    {
        var refused = await Assert.ThrowsAsync<FaultException>(() => fixture.Enter(json));
        Assert.Equal(path, Assert.Single(refused.Faults).Path);
    }

    [Fact]
    public async Task Pieces_that_belong_together_name_each_other()
    {
        var dress = (await fixture.Enter("""{"name":"Dress"}""")).Garment.Id;
        var slip = await Archive.Enter(new() { ["name"] = "Slip", ["belongsWith"] = new JsonArray(dress.ToString()) }, "teacher", Stop);
        Assert.Equal(dress.ToString(), (string?)slip.Garment.State()["belongsWith"]![0]);
        await Assert.ThrowsAsync<FaultException>(() =>
            Archive.Change(dress, 1, new() { ["belongsWith"] = new JsonArray(dress.ToString()) }, "teacher", Stop));
    }
}
