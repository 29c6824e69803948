using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>Entries of the lists: their ids, what they refer to, the overall state that follows examinations; pictures.</summary>
public sealed class EntryTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Archive Archive => fixture.Archive;

    [Theory]
    [InlineData("techniques", """{"kind":"lace","lace":"torchon"}""", """{"kind":"tucks","tuckKind":"pin"}""")]
    [InlineData("examinations", """{"date":"2026-01-01"}""", """{"date":"2026-01-02","note":"rain"}""")]
    [InlineData("condition", """{"what":"tear"}""", """{"what":"hole"}""")]
    [InlineData("repairs", """{"method":"darn"}""", """{"method":"patch"}""")]
    public async Task An_entry_is_added_changed_and_taken_out(string list, string first, string then)
    {
        var id = (await fixture.Enter("""{"name":"Cap"}""")).Garment.Id;
        var added = await Archive.AddEntry(id, 1, list, Json(first), "teacher", Stop);
        var entry = Guid.Parse((string)added.Entry["id"]!);
        Assert.Equal(2, added.Garment.Version);
        Assert.Equal(7, entry.Version);

        var put = await Archive.PutEntry(id, 2, list, entry, Json(then), "teacher", Stop);
        Assert.Equal(entry.ToString(), (string?)put.Entry["id"]);
        var stored = (await Archive.Find(id, Stop))!.State()[list]!;
        Assert.Equal(put.Entry.ToJsonString(), Assert.Single(stored.AsArray())!.ToJsonString());

        Assert.Equal(3, (await Archive.PutEntry(id, 3, list, entry, put.Entry, "teacher", Stop)).Garment.Version);

        var removed = await Archive.RemoveEntry(id, 3, list, entry, "teacher", Stop);
        Assert.Empty(removed.Garment.State()[list]!.AsArray());
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.RemoveEntry(id, 4, list, entry, "teacher", Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => Archive.PutEntry(id, 4, list, entry, Json(then), "teacher", Stop));
    }

    [Fact]
    public async Task A_patch_keeps_the_ids_it_sends_and_gives_the_others_theirs()
    {
        var saved = await fixture.Enter("""{"name":"Cap","techniques":[{"kind":"lace"},{"kind":"tucks"}]}""");
        var (lace, tucks) = (Id(saved.Garment, "techniques", 0), Id(saved.Garment, "techniques", 1));
        var changed = await Archive.Change(saved.Garment.Id, 1, Json($$"""{"techniques":[{"kind":"hem"},{"id":"{{tucks}}","kind":"tucks"},{"id":"{{lace}}","kind":"lace"}]}"""), "teacher", Stop);
        Assert.Equal([tucks, lace], [Id(changed.Garment, "techniques", 1), Id(changed.Garment, "techniques", 2)]);
        Assert.True(string.CompareOrdinal(Id(changed.Garment, "techniques", 0), tucks) > 0, "ids rise in the order of entry");
        var twice = await Assert.ThrowsAsync<FaultException>(() =>
            Archive.Change(saved.Garment.Id, 2, Json($$"""{"techniques":[{"id":"{{lace}}"},{"id":"{{lace}}"}]}"""), "teacher", Stop));
        Assert.Equal("techniques[1].id", Assert.Single(twice.Faults).Path);
    }

    [Fact]
    public async Task A_repair_answers_a_finding_and_ends_it_and_forgets_it_when_it_is_taken_out()
    {
        var saved = await fixture.Enter("""{"name":"Cap","examinations":[{"date":"2026-01-01"}],"condition":[{"what":"tear"},{"what":"hole"}],"repairs":[{"method":"darn"}]}""");
        var (id, tear, repair, seen) = (saved.Garment.Id, Id(saved.Garment, "condition", 0), Id(saved.Garment, "repairs", 0), Id(saved.Garment, "examinations", 0));
        await Archive.PutEntry(id, 1, "repairs", Guid.Parse(repair), Json($$"""{"method":"darn","answers":"{{tear}}"}"""), "teacher", Stop);
        await Archive.PutEntry(id, 2, "condition", Guid.Parse(Id(saved.Garment, "condition", 1)),
            Json($$$"""{"what":"hole","continues":"{{{tear}}}","examination":"{{{seen}}}","ended":{"repair":"{{{repair}}}"}}"""), "teacher", Stop);

        var without = await Archive.RemoveEntry(id, 3, "repairs", Guid.Parse(repair), "teacher", Stop);
        Assert.False(without.Garment.State()["condition"]![1]!.AsObject().ContainsKey("ended"));
        var last = (await Archive.Change(id, 4, Json("""{"examinations":[]}"""), "teacher", Stop)).Garment.State()["condition"]![1]!.AsObject();
        Assert.False(last.ContainsKey("examination"));
        Assert.Equal(tear, (string?)last["continues"]);
        Assert.Equal(last.ToJsonString(), (await Archive.Find(id, Stop))!.State()["condition"]![1]!.ToJsonString());
    }

    [Fact]
    public async Task An_entry_can_not_refer_to_itself_nor_to_another_list_and_pictures_are_not_entries_to_add()
    {
        var saved = await fixture.Enter("""{"name":"Cap","condition":[{"what":"tear"}],"techniques":[{"kind":"tucks"}]}""");
        var (tear, tucks) = (Id(saved.Garment, "condition", 0), Id(saved.Garment, "techniques", 0));
        await Assert.ThrowsAsync<ArgumentException>(() => Archive.AddEntry(saved.Garment.Id, 1, "pictures", [], "teacher", Stop));
        foreach (var wrong in new[] { tear, tucks })
        {
            var refused = await Assert.ThrowsAsync<FaultException>(() =>
                Archive.PutEntry(saved.Garment.Id, 1, "condition", Guid.Parse(tear), Json($$"""{"continues":"{{wrong}}"}"""), "teacher", Stop));
            Assert.Equal("continues", Assert.Single(refused.Faults).Path);
        }
    }

    [Theory]
    [InlineData("""{}""", """{"id":"0199a1b2-0000-7000-8000-000000000000"}""", "id")]
    [InlineData("""{"kind":"tucks"}""", """{"kind":"tucks","measuredFrom":"waist","turned":"down","lies":"towards-start"}""", "lies")]
    [InlineData("""{}""", """{"pictures":["0199a1b2-0000-7000-8000-000000000000"]}""", "pictures[0]")]
    public async Task A_faulty_entry_is_named_by_its_own_fields(string first, string then, string path)
    {
        var id = (await fixture.Enter("""{"name":"Cap"}""")).Garment.Id;
        Assert.Equal(path, Assert.Single((await Assert.ThrowsAsync<FaultException>(() => Archive.AddEntry(id, 1, "techniques", Json(then), "teacher", Stop))).Faults).Path);
        var entry = Guid.Parse((string)(await Archive.AddEntry(id, 1, "techniques", Json(first), "teacher", Stop)).Entry["id"]!);
        Assert.Equal(path, Assert.Single((await Assert.ThrowsAsync<FaultException>(() => Archive.PutEntry(id, 2, "techniques", entry, Json(then), "teacher", Stop))).Faults).Path);
    }

    [Fact]
    public async Task Two_thousand_entries_are_held_and_the_one_too_many_is_refused()
    {
        var full = new JsonObject
        {
            ["name"] = "Gown of many findings",
            ["condition"] = new JsonArray([.. Enumerable.Range(0, 1_500).Select(_ => new JsonObject { ["what"] = "stain" })]),
            ["techniques"] = new JsonArray([.. Enumerable.Range(0, 500).Select(_ => new JsonObject { ["kind"] = "hem" })]),
        };
        var saved = await Archive.Enter(full.DeepClone().AsObject(), "teacher", Stop);
        await Assert.ThrowsAsync<FaultException>(() => Archive.AddEntry(saved.Garment.Id, 1, "repairs", [], "teacher", Stop));
        await Assert.ThrowsAsync<FaultException>(() => Archive.Change(saved.Garment.Id, 1, Json("""{"repairs":[{}]}"""), "teacher", Stop));
        full["repairs"] = new JsonArray(new JsonObject());
        await Assert.ThrowsAsync<FaultException>(() => Archive.Enter(full, "teacher", Stop));
    }

    [Fact]
    public async Task The_overall_state_follows_the_latest_examination()
    {
        var id = (await fixture.Enter("""{"name":"Cap","overall":"sound","examinations":[{"date":"2026-01-01","overall":"fair"}]}""")).Garment.Id;
        Assert.Equal("fair", await Overall(id)); // sent together, the examination's wins

        await Archive.AddEntry(id, 1, "examinations", Json("""{"date":"2025-06-01","overall":"fragile"}"""), "teacher", Stop);
        Assert.Equal("fair", await Overall(id)); // an earlier one changes nothing

        await Archive.AddEntry(id, 2, "examinations", Json("""{"date":"2026-02-01"}"""), "teacher", Stop);
        Assert.Equal("fair", await Overall(id)); // nor one without a state

        await Archive.Change(id, 3, Json("""{"overall":"sound"}"""), "teacher", Stop);
        Assert.Equal("sound", await Overall(id)); // a later change of overall itself stands

        await Archive.Change(id, 4, Json("""{"name":"Lawn cap"}"""), "teacher", Stop);
        Assert.Equal("sound", await Overall(id));

        await Archive.AddEntry(id, 5, "examinations", Json("""{"date":"2026-01","overall":"weak"}"""), "teacher", Stop);
        Assert.Equal("weak", await Overall(id)); // of equal dates the one entered last, until the next

        var early = Id((await Archive.Find(id, Stop))!, "examinations", 0);
        await Archive.PutEntry(id, 6, "examinations", Guid.Parse(early), Json("""{"date":"2026-03-01","overall":"fragile"}"""), "teacher", Stop);
        Assert.Equal("fragile", await Overall(id)); // a change that makes one the latest

        await Archive.RemoveEntry(id, 7, "examinations", Guid.Parse(early), "teacher", Stop);
        Assert.Equal("fragile", await Overall(id)); // taking one out sets nothing
    }

    [Fact]
    public async Task The_one_entered_last_is_so_wherever_a_patch_puts_it()
    {
        var saved = await fixture.Enter("""{"name":"Cap","examinations":[{"date":"2026-01-01","overall":"fair"}]}""");
        var first = Id(saved.Garment, "examinations", 0);
        await Archive.Change(saved.Garment.Id, 1, Json($$"""{"examinations":[{"date":"2026-01-01","overall":"weak"},{"id":"{{first}}","date":"2026-01-01","overall":"fair"}]}"""), "teacher", Stop);
        Assert.Equal("weak", await Overall(saved.Garment.Id));
    }

    [Fact]
    public async Task Pictures_come_by_upload_each_with_its_owner_and_once()
    {
        var id = (await fixture.Enter("""{"name":"Cap"}""")).Garment.Id;
        JsonObject front = Json("""{"sha256":"aa","width":800,"height":600,"format":"jpeg","caption":"Front"}"""), back = Json("""{"sha256":"bb","width":80,"height":60,"format":"png"}""");
        var saved = await Archive.AddPictures(id, [front, back, front], "teacher", Stop);
        Assert.Equal(2, saved.Garment.Version);
        var pictures = saved.Garment.State()["pictures"]!.AsArray();
        Assert.Equal(2, pictures.Count);
        Assert.Equal("""["id","sha256","width","height","caption","tags"]""", new JsonArray([.. pictures[0]!.AsObject().Select(f => JsonValue.Create(f.Key))]).ToJsonString());
        Assert.Equal(2, (await Archive.AddPictures(id, [front], "teacher", Stop)).Garment.Version);

        await using var session = fixture.Store.QuerySession();
        var owner = await session.LoadAsync<PictureOwner>(Guid.Parse(Id(saved.Garment, "pictures", 1)), Stop);
        Assert.Equal((id, "bb", "png"), (owner!.Garment, owner.Sha256, owner.Format));
    }

    [Fact]
    public async Task A_picture_keeps_its_file_and_changes_caption_view_and_tags()
    {
        var id = (await fixture.Enter("""{"name":"Cap","techniques":[{"kind":"lace"}]}""")).Garment.Id;
        var saved = await Archive.AddPictures(id, [Json("""{"sha256":"aa","width":8,"height":6,"format":"webp"}"""), Json("""{"sha256":"bb","width":8,"height":6,"format":"webp"}""")], "teacher", Stop);
        var (first, second) = (Id(saved.Garment, "pictures", 0), Id(saved.Garment, "pictures", 1));
        var put = await Archive.PutEntry(id, 2, "pictures", Guid.Parse(first), Json("""{"caption":"Back","view":"back","tags":["class"],"sha256":"aa"}"""), "teacher", Stop);
        Assert.Equal("""{"id":"ID","sha256":"aa","width":8,"height":6,"caption":"Back","view":"back","tags":["class"]}""", put.Entry.ToJsonString().Replace(first, "ID", StringComparison.Ordinal));
        Assert.Equal(3, (await Archive.PutEntry(id, 3, "pictures", Guid.Parse(first), put.Entry, "teacher", Stop)).Garment.Version);
        Assert.Equal(3, (await Archive.Change(id, 3, put.Garment.State(), "teacher", Stop)).Garment.Version);
        Assert.Equal("width", Assert.Single((await Assert.ThrowsAsync<FaultException>(() =>
            Archive.PutEntry(id, 3, "pictures", Guid.Parse(first), Json("""{"width":9}"""), "teacher", Stop))).Faults).Path);

        var lace = Id(saved.Garment, "techniques", 0);
        await Archive.PutEntry(id, 3, "techniques", Guid.Parse(lace), Json($$"""{"kind":"lace","pictures":["{{first}}","{{second}}"]}"""), "teacher", Stop);
        var turned = await Archive.Change(id, 4, Json($$"""{"pictures":[{"id":"{{second}}"},{"id":"{{first}}"}]}"""), "teacher", Stop);
        Assert.Equal("bb", (string?)turned.Garment.State()["pictures"]![0]!["sha256"]);
        var left = await Archive.RemoveEntry(id, 5, "pictures", Guid.Parse(first), "teacher", Stop);
        Assert.Equal($"[\"{second}\"]", left.Garment.State()["techniques"]![0]!["pictures"]!.ToJsonString());
    }

    [Fact]
    public async Task Pictures_added_at_once_all_arrive()
    {
        var id = (await fixture.Enter("""{"name":"Cap"}""")).Garment.Id;
        await Task.WhenAll(Enumerable.Range(0, 12).Select(i =>
            Archive.AddPictures(id, [Json($$"""{"sha256":"{{i}}","width":8,"height":6,"format":"png"}""")], "teacher", Stop)));
        var garment = (await Archive.Find(id, Stop))!;
        Assert.Equal(13, garment.Version);
        Assert.Equal(12, garment.State()["pictures"]!.AsArray().Count);
    }

    private async Task<string?> Overall(Guid id) => (string?)(await Archive.Find(id, Stop))!.State()["overall"];

    private static string Id(Garment garment, string list, int place) => (string)garment.State()[list]![place]!["id"]!;
}
