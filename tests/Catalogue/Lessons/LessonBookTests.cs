using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Sewing;
using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests.Lessons;

/// <summary>A lesson keeps what it was given, shows what it showed, and loses nothing.</summary>
public sealed class LessonBookTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static readonly Guid Sheet = Guid.CreateVersion7();

    private readonly LessonBook book = new(fixture.Store, TimeProvider.System, (id, _) => Task.FromResult(id == Sheet));

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_version_is_kept_and_one_taken_away_comes_back_as_it_was()
    {
        var lesson = await book.Make(Json("""{"name":"Pin tucks","pupils":8}"""), "teacher", Stop);
        lesson = await book.Put(lesson.Id, 1, Json("""{"name":"Pin tucks by hand","pupils":6,"notes":"Bring lawn."}"""), "teacher", Stop);
        await book.TakeAway(lesson.Id, 2, "teacher", Stop);
        Assert.Null(await book.Find(lesson.Id, Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => book.Put(lesson.Id, 3, Json("""{"name":"x"}"""), "teacher", Stop));

        var back = await book.BringBack(lesson.Id, "teacher", Stop);
        Assert.Equal(4, back.Version);
        Assert.Equal("Pin tucks by hand", back.Name);
        Assert.Equal(["brought back", "taken away", "changed", "made"], (await book.Versions(lesson.Id, Stop)).Select(v => v.What));
        Assert.Equal("""{"name":"Pin tucks","pupils":8}""", (await book.Versions(lesson.Id, Stop))[^1].Fields.ToJsonString());
        Assert.Equal(4, (await book.BringBack(lesson.Id, "teacher", Stop)).Version);
    }

    [Fact]
    public async Task A_change_that_changes_nothing_makes_no_version_and_a_stale_one_says_where_they_differ()
    {
        var lesson = await book.Make(Json("""{"name":"Whipped tucks"}"""), "teacher", Stop);
        Assert.Equal(1, (await book.Put(lesson.Id, 1, lesson.State(), "teacher", Stop)).Version);
        await book.Put(lesson.Id, 1, Json("""{"name":"Whipped tucks","level":"second year"}"""), "teacher", Stop);

        var stale = await Assert.ThrowsAsync<StaleException>(() => book.Put(lesson.Id, 1, Json("""{"name":"Shell tucks","level":"second year"}"""), "teacher", Stop));
        Assert.Equal(2, stale.Version);
        Assert.Equal("""[{"path":"name","yours":"Shell tucks","now":"Whipped tucks"}]""", stale.Differs.ToJsonString());
    }

    [Fact]
    public async Task What_is_for_those_who_teach_is_told_to_nobody_else_by_a_refusal_or_by_earlier_versions()
    {
        var lesson = await book.Make(Json("""{"name":"Roll and whip","notes":"Hide the scissors."}"""), "teacher", Stop);
        await book.Put(lesson.Id, 1, Json("""{"name":"Roll and whip","notes":"Hide the scissors.","given":[{"group":"Tuesday"}],"shared":true}"""), "teacher", Stop);
        var unshared = await book.Make(Json("""{"name":"Not yet"}"""), "teacher", Stop);

        Viewer.Enter(new("a program", Sight.Pieces));
        var stale = await Assert.ThrowsAsync<StaleException>(() => book.Put(lesson.Id, 1, Json("""{"name":"Rolled and whipped","shared":true}"""), "a program", Stop));
        Assert.Equal("""[{"path":"name","yours":"Rolled and whipped","now":"Roll and whip"}]""", stale.Differs.ToJsonString());
        Assert.Equal([2], (await book.Versions(lesson.Id, Stop)).Select(v => v.Version));
        Assert.Empty(await book.Versions(unshared.Id, Stop));
    }

    [Fact]
    public async Task Entries_added_by_many_at_once_are_all_there()
    {
        var piece = (await fixture.Enter("""{"name":"Sampler"}""")).Garment.Id;
        var lesson = await book.Make(Json("""{"name":"Added to by many"}"""), "teacher", Stop);
        await Task.WhenAll(Enumerable.Range(0, 12).Select(n => book.Add(lesson.Id, [Json($$"""{"garment":"{{piece}}","note":"{{n}}"}""")], "teacher", Stop)));

        var now = (await book.Find(lesson.Id, Stop))!;
        Assert.Equal(13, now.Version);
        Assert.Equal(Enumerable.Range(0, 12), now.Entries.Select(e => int.Parse(e["note"]!.ToString(), System.Globalization.CultureInfo.InvariantCulture)).Order());
    }

    [Fact]
    public async Task What_it_showed_is_shown_when_an_entry_is_removed_and_when_the_piece_is_set_aside()
    {
        var piece = (await fixture.Enter("""{"number":"L-1","name":"Yoke","techniques":[{"kind":"tucks","groups":[{"tucks":9,"width":"1/16 in"}]}],"repairs":[{"method":"darn"}]}""")).Garment;
        var (tucks, darn) = (Id(piece, "techniques"), Id(piece, "repairs"));
        var lesson = await book.Make(new JsonObject
        {
            ["name"] = "What goes", ["entries"] = new JsonArray(
                new JsonObject { ["garment"] = $"{piece.Id}", ["technique"] = tucks },
                new JsonObject { ["garment"] = $"{piece.Id}", ["repair"] = darn },
                new JsonObject { ["worksheet"] = $"{Sheet}" }),
        }, "teacher", Stop);

        // Corrected after it was put in the lesson, then taken out: it is shown as it last stood.
        await fixture.Archive.PutEntry(piece.Id, 1, "techniques", Guid.Parse(tucks), Json("""{"kind":"tucks","groups":[{"tucks":10,"width":"1/16 in"}]}"""), "teacher", Stop);
        await fixture.Archive.RemoveEntry(piece.Id, 2, "techniques", Guid.Parse(tucks), "teacher", Stop);
        await fixture.Archive.SetAside(piece.Id, 3, "teacher", Stop);

        var shown = await book.Look(lesson, ct: Stop);
        Assert.Equal([true, false, false], shown.Select(s => s.Gone));
        Assert.Equal(10, shown[0].What!["groups"]![0]!["tucks"]!.GetValue<int>());
        Assert.Equal("darn", shown[1].What!["method"]!.ToString());
        Assert.NotNull(shown[1].Piece!["setAside"]);
        Assert.Null(shown[2].Piece);

        // It can still be put back as it was read, in another order.
        var state = lesson.State();
        state["entries"] = new JsonArray([.. state["entries"]!.AsArray().Reverse().Select(e => e!.DeepClone())]);
        Assert.Equal(2, (await book.Put(lesson.Id, 1, state, "teacher", Stop)).Version);
    }

    [Fact]
    public async Task What_points_nowhere_is_refused_by_its_path()
    {
        var piece = (await fixture.Enter("""{"name":"Cap","techniques":[{"kind":"tucks"}]}""")).Garment;
        var (id, none) = ($"{piece.Id}", $"{Guid.CreateVersion7()}");
        var lesson = await book.Make(Json("""{"name":"Where it points"}"""), "teacher", Stop);
        foreach (var (entry, path) in new (string, string)[]
        {
            ($$"""{"garment":"{{none}}"}""", "garment"), ($$"""{"garment":"{{id}}","technique":"{{none}}"}""", "technique"), ($$"""{"garment":"{{id}}","picture":"{{none}}"}""", "picture"),
            ($$"""{"worksheet":"{{none}}"}""", "worksheet"), ($$"""{"garment":"{{id}}","worksheet":"{{Sheet}}"}""", "worksheet"), ("""{"note":"nothing"}""", "garment"),
            ($$"""{"garment":"{{id}}","technique":"{{Id(piece, "techniques")}}","repair":"{{none}}"}""", "repair"), ($$"""{"garment":"{{id}}","show":"film"}""", "show"), ($$"""{"garment":"{{id}}","id":"{{none}}"}""", "id"),
        })
        {
            var refused = await Assert.ThrowsAsync<FaultException>(() => book.Add(lesson.Id, [Json(entry)], "teacher", Stop));
            Assert.Contains(path, refused.Faults.Select(f => f.Path));
            var whole = await Assert.ThrowsAsync<FaultException>(() => book.Put(lesson.Id, 1, Json($$"""{"name":"a","entries":[{{entry}}]}"""), "teacher", Stop));
            Assert.Contains($"entries[0].{path}", whole.Faults.Select(f => f.Path));
        }

        var given = await Assert.ThrowsAsync<FaultException>(() => book.Put(lesson.Id, 1, Json($$"""{"name":" ","given":[{"date":"soon","out":["{{none}}"],"needlesOut":-1}]}"""), "teacher", Stop));
        Assert.Equal(["given[0].date", "given[0].needlesOut", "given[0].out[0]", "name"], given.Faults.Select(f => f.Path).Order());
        Assert.Equal(1, (await book.Find(lesson.Id, Stop))!.Version);
    }

    private static string Id(Garment garment, string list) => garment.Fields[list]![0]!["id"]!.ToString();
}
