using HeirloomArchive.Sewing;
using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>Everything can be seen in its history and put back.</summary>
public sealed class HistoryTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Archive Archive => fixture.Archive;

    [Fact]
    public async Task The_history_tells_who_and_what_newest_first()
    {
        var before = DateTimeOffset.UtcNow.AddSeconds(-1);
        var id = (await fixture.Enter("""{"name":"Cap","overall":"sound"}""")).Garment.Id;
        await Archive.Change(id, 1, Json("""{"name":"Lawn cap","tags":["a"]}"""), "helper", Stop);
        var entry = Guid.Parse((string)(await Archive.AddEntry(id, 2, "examinations", Json("""{"date":"2026-01-01","overall":"weak"}"""), "teacher", Stop)).Entry["id"]!);
        await Archive.PutEntry(id, 3, "examinations", entry, Json("""{"date":"2026-01-02","overall":"weak"}"""), "teacher", Stop);
        await Archive.RemoveEntry(id, 4, "examinations", entry, "teacher", Stop);
        await Archive.SetAside(id, 5, "teacher", Stop);
        await Archive.BringBack(id, "teacher", Stop);
        await Archive.PutBack(id, 7, 1, "name", "teacher", Stop);

        var history = await Archive.History(id, 1, 100, Stop);
        Assert.Equal(8, (long?)history["total"]);
        var items = history["items"]!.AsArray();
        Assert.Equal([8, 7, 6, 5, 4, 3, 2, 1], items.Select(i => (long)i!["version"]!));
        Assert.Equal(
            ["put back name of version 1", "brought back", "set aside", "taken out of examinations", "changed in examinations", "added to examinations", "changed name, tags", "entered"],
            items.Select(i => (string?)i!["what"]));
        Assert.Equal("helper", (string?)items[6]!["who"]);
        Assert.InRange(DateTimeOffset.Parse((string)items[0]!["when"]!, System.Globalization.CultureInfo.InvariantCulture), before, DateTimeOffset.UtcNow.AddSeconds(1));
        Assert.Equal("""[{"path":"name","old":"Lawn cap","new":"Cap"}]""", items[0]!["changes"]!.ToJsonString());
        Assert.Equal("[]", items[2]!["changes"]!.ToJsonString());
        Assert.Equal("""[{"path":"examinations[0].date","old":"2026-01-01","new":"2026-01-02"}]""", items[4]!["changes"]!.ToJsonString());
        Assert.Equal(["examinations[0]", "overall"], items[5]!["changes"]!.AsArray().Select(c => (string?)c!["path"]));
        Assert.Equal("""[{"path":"name","old":"Cap","new":"Lawn cap"},{"path":"tags","old":null,"new":["a"]}]""", items[6]!["changes"]!.ToJsonString());
    }

    [Fact]
    public async Task The_history_comes_in_pages()
    {
        var id = (await fixture.Enter("""{"name":"0"}""")).Garment.Id;
        for (var i = 1; i < 7; i++)
        {
            await Archive.Change(id, i, new() { ["name"] = $"{i}" }, "teacher", Stop);
        }

        async Task<IEnumerable<string?>> News(int page) =>
            (await Archive.History(id, page, 3, Stop))["items"]!.AsArray().Select(i => (string?)i!["changes"]![0]!["new"]);
        Assert.Equal(["6", "5", "4"], await News(1));
        Assert.Equal(["3", "2", "1"], await News(2));
        Assert.Equal(["0"], await News(3));
        Assert.Empty(await News(4));
    }

    [Fact]
    public async Task A_version_put_back_is_the_record_as_it_was_in_a_new_version()
    {
        var first = (await fixture.Enter(Examples.BabyDress)).Garment;
        await Archive.Change(first.Id, 1, Json("""{"techniques":[],"name":"Another","tags":["a"],"description":"b"}"""), "teacher", Stop);
        var back = (await Archive.PutBack(first.Id, 2, 1, null, "teacher", Stop)).Garment;
        Assert.Equal(3, back.Version);
        Assert.Empty(Differences.Between(first.Fields, back.Fields));
        Assert.Empty(Differences.Between(first.Fields, (await Archive.Find(first.Id, Stop))!.Fields));
        Assert.Equal(3, (await Archive.PutBack(first.Id, 3, 1, null, "teacher", Stop)).Garment.Version); // it stands so already
    }

    [Fact]
    public async Task One_field_put_back_leaves_the_others_as_they_are()
    {
        var id = (await fixture.Enter("""{"name":"Cap","overall":"sound"}""")).Garment.Id;
        await Archive.Change(id, 1, Json("""{"overall":"weak","datedText":"1900"}"""), "teacher", Stop);
        Assert.Equal("sound", (string?)(await Archive.PutBack(id, 2, 1, "overall", "teacher", Stop)).Garment.State()["overall"]);
        var state = (await Archive.PutBack(id, 3, 1, "datedText", "teacher", Stop)).Garment.State();
        Assert.False(state.ContainsKey("datedText"));
        Assert.Equal("sound", (string?)state["overall"]);
    }

    [Fact]
    public async Task What_can_not_be_put_back_says_so()
    {
        var id = (await fixture.Enter("""{"name":"Cap"}""")).Garment.Id;
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.PutBack(id, 1, 0, null, "teacher", Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.PutBack(id, 1, 2, null, "teacher", Stop));
        await Assert.ThrowsAsync<StaleException>(() => Archive.PutBack(id, 7, 1, null, "teacher", Stop));
        var refused = await Assert.ThrowsAsync<FaultException>(() => Archive.PutBack(id, 1, 1, "nmae", "teacher", Stop));
        Assert.Contains("name", Assert.Single(refused.Faults).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Set_aside_leaves_the_list_still_opens_and_refuses_changes_until_it_is_brought_back()
    {
        var id = (await fixture.Enter("""{"name":"A mistake","techniques":[{"kind":"hem"}]}""")).Garment.Id;
        var entry = Guid.Parse((string)(await Archive.Find(id, Stop))!.State()["techniques"]![0]!["id"]!);
        Assert.Equal(1, (await Archive.BringBack(id, "teacher", Stop)).Garment.Version); // it is not set aside
        var (before, _) = await Archive.Page(1, 100, Stop);
        var aside = (await Archive.SetAside(id, 1, "helper", Stop)).Garment;
        Assert.Equal("helper", (string?)aside.State()["setAside"]!["who"]);
        Assert.Equal(aside.State().ToJsonString(), (await Archive.Find(id, Stop))!.State().ToJsonString());

        var (total, items) = await Archive.Page(1, 100, Stop);
        Assert.Equal(before - 1, total);
        Assert.DoesNotContain(items, g => g.Id == id);

        await Assert.ThrowsAsync<SetAsideException>(() => Archive.Change(id, 2, Json("""{"name":"x"}"""), "teacher", Stop));
        await Assert.ThrowsAsync<SetAsideException>(() => Archive.AddEntry(id, 2, "repairs", [], "teacher", Stop));
        await Assert.ThrowsAsync<SetAsideException>(() => Archive.PutEntry(id, 2, "techniques", entry, [], "teacher", Stop));
        await Assert.ThrowsAsync<SetAsideException>(() => Archive.RemoveEntry(id, 2, "techniques", entry, "teacher", Stop));
        await Assert.ThrowsAsync<SetAsideException>(() => Archive.PutBack(id, 2, 1, null, "teacher", Stop));
        await Assert.ThrowsAsync<SetAsideException>(() => Archive.SetAside(id, 2, "teacher", Stop));
        await Assert.ThrowsAsync<SetAsideException>(() => Archive.AddPictures(id, [Json("""{"sha256":"aa","width":8,"height":6,"format":"png"}""")], "teacher", Stop));

        var back = (await Archive.BringBack(id, "teacher", Stop)).Garment;
        Assert.Equal(3, back.Version);
        Assert.Null(back.State()["setAside"]);
        Assert.Equal(before, (await Archive.Page(1, 100, Stop)).Total);
        Assert.Equal("x", (await Archive.Change(id, 3, Json("""{"name":"x"}"""), "teacher", Stop)).Garment.Name);
    }

    [Fact]
    public async Task The_list_is_newest_first_in_pages()
    {
        var ids = new List<Guid>();
        for (var i = 0; i < 5; i++)
        {
            ids.Insert(0, (await fixture.Enter("""{"name":"One of five"}""")).Garment.Id);
            await Task.Delay(2, Stop);
        }

        var (total, first) = await Archive.Page(1, 3, Stop);
        var (_, second) = await Archive.Page(2, 3, Stop);
        Assert.True(total >= 5);
        Assert.Equal(ids, first.Concat(second).Take(5).Select(g => g.Id));
        Assert.Empty((await Archive.Page(1_000, 3, Stop)).Items);
    }
}
