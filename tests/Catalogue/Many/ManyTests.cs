using System.Diagnostics;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using Marten;
using Microsoft.Extensions.Logging.Abstractions;
using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests.Many;

/// <summary>A place, tags or a kind changed on many pieces at once, and undone as one.</summary>
public sealed class ManyTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Archive Archive => fixture.Archive;

    [Fact]
    public async Task Each_piece_is_changed_by_one_event_and_the_undo_puts_it_back()
    {
        var a = await Enter("""{"name":"A","kind":"cap","tags":["lent out","blue box"],"place":{"shelf":"1","box":"2"}}""");
        var b = await Enter("""{"name":"B"}""");
        var many = New();
        var asked = await many.Ask(Json($$$"""{"pieces":["{{{a}}}","{{{b}}}"],"change":{"kind":"bonnet","place":{"shelf":"7"}},"tags":{"add":["spring class"],"remove":["lent out"]}}"""), "teacher", Stop);
        await Run(many);
        Assert.Equal(2, (await many.Find(asked.Id, Stop)).Count(ManyOutcome.Changed));
        var (first, second) = (await State(a), await State(b));
        Assert.Equal("""{"shelf":"7","box":"2"}""", first["place"]!.ToJsonString());
        Assert.Equal("""["blue box","spring class"]""", first["tags"]!.ToJsonString());
        Assert.Equal(("bonnet", "bonnet", 2L), ((string)first["kind"]!, (string)second["kind"]!, (long)second["version"]!));
        var history = (await Archive.History(a, 1, 1, Stop))["items"]![0]!;
        Assert.Equal(("teacher", "changed kind, tags, place, many at once"), ((string)history["who"]!, (string)history["what"]!));

        await many.Undo(asked.Id, Stop);
        await Run(many);
        Assert.Equal(2, (await many.Find(asked.Id, Stop)).Count(ManyOutcome.Undone));
        Assert.Equal("""{"shelf":"1","box":"2"}""", (await State(a))["place"]!.ToJsonString());
        Assert.Equal("""["lent out","blue box"]""", (await State(a))["tags"]!.ToJsonString());
        Assert.Null((await State(b))["kind"]);
        Assert.Null((await State(b))["place"]);
        Assert.Equal(3, (long)(await State(b))["version"]!);
        await many.Undo(asked.Id, Stop);
        await Run(many);
        Assert.Equal(3, (long)(await State(b))["version"]!);
    }

    [Fact]
    public async Task What_was_changed_since_is_left_alone_and_said()
    {
        var (a, b, c) = (await Enter("""{"name":"Still"}"""), await Enter("""{"name":"Moved on"}"""), await Enter("""{"name":"Half"}"""));
        var many = New();
        var asked = await many.Ask(Json($$$$"""{"pieces":["{{{{a}}}}","{{{{b}}}}","{{{{c}}}}"],"change":{"kind":"cap","place":{"box":"9"}}}"""), "teacher", Stop);
        await Run(many);
        await Archive.Change(b, 2, Json("""{"kind":"bonnet","place":{"box":"10"}}"""), "helper", Stop);
        await Archive.Change(c, 2, Json("""{"kind":"bonnet"}"""), "helper", Stop);
        await many.Undo(asked.Id, Stop);
        await Run(many);
        var progress = await many.Find(asked.Id, Stop);
        Assert.Equal((1, 2), (progress.Count(ManyOutcome.Undone), progress.Count(ManyOutcome.ChangedSince)));
        Assert.Equal([(b, "kind, place"), (c, "kind")], (await many.Left(asked.Id, 1, 10, Stop)).Select(p => (p.Garment, p.Why!)));
        Assert.Equal(("bonnet", "10"), ((string)(await State(b))["kind"]!, (string)(await State(b))["place"]!["box"]!));
        Assert.Equal("bonnet", (string)(await State(c))["kind"]!);
        Assert.Null((await State(c))["place"]);
    }

    [Fact]
    public async Task Pieces_set_aside_already_so_or_beyond_sense_are_reported()
    {
        var hundred = new JsonObject { ["name"] = "Full of tags", ["tags"] = new JsonArray([.. Enumerable.Range(0, 100).Select(i => JsonValue.Create($"tag {i}"))]) };
        var (aside, same, full) = (await Enter("""{"name":"Aside"}"""), await Enter("""{"name":"Same","tags":["new"]}"""), await Enter(hundred.ToJsonString()));
        await Archive.SetAside(aside, 1, "teacher", Stop);
        var many = New();
        var asked = await many.Ask(Json($$$"""{"pieces":["{{{aside}}}","{{{same}}}","{{{full}}}"],"tags":{"add":["new"]}}"""), "teacher", Stop);
        await Run(many);
        var progress = await many.Find(asked.Id, Stop);
        Assert.Equal((3, 1, 1, 1), (progress.Done, progress.Count(ManyOutcome.Aside), progress.Count(ManyOutcome.Same), progress.Count(ManyOutcome.Refused)));
        var left = await many.Left(asked.Id, 1, 10, Stop);
        Assert.Equal([aside, full], left.Select(p => p.Garment));
        Assert.Contains("101", left[1].Why, StringComparison.Ordinal);
        Assert.Equal(1, (long)(await State(same))["version"]!);
    }

    [Fact]
    public async Task All_that_match_are_those_of_the_list()
    {
        var ids = new List<Guid>();
        for (var i = 0; i < 5; i++)
        {
            ids.Add(await Enter($$$"""{"name":"Match {{{i}}}","tags":["to move"],"place":{"shelf":"Attic"}}"""));
        }

        await Archive.SetAside(ids[4], 1, "teacher", Stop);
        var many = New();
        var asked = await many.Ask(Json("""{"all":{"tag":"to move","place":"attic"},"change":{"place":{"shelf":"Cellar"}}}"""), "teacher", Stop);
        Assert.Equal(4, asked.Total);
        await Run(many);
        Assert.All(await Task.WhenAll(ids[..4].Select(State)), s => Assert.Equal("Cellar", (string)s["place"]!["shelf"]!));
        Assert.Equal("Attic", (string)(await State(ids[4]))["place"]!["shelf"]!);
    }

    [Fact]
    public async Task After_a_stop_in_the_middle_it_goes_on_and_no_piece_is_changed_twice()
    {
        var ids = new List<Guid>();
        for (var i = 0; i < 120; i++)
        {
            ids.Add(await Enter($$$"""{"name":"Long {{{i}}}"}"""));
        }

        var asked = await New().Ask(new() { ["pieces"] = new JsonArray([.. ids.Select(i => JsonValue.Create(i.ToString()))]), ["tags"] = new JsonObject { ["add"] = new JsonArray("once") } }, "teacher", Stop);
        var starts = 0;
        for (var open = true; open; starts++)
        {
            var many = New();
            await many.StartAsync(Stop);
            var before = (await many.Find(asked.Id, Stop)).Done;
            await Until(async () => await many.Find(asked.Id, Stop) is var progress && (!progress.Many.Open || progress.Done >= before + 20));
            await many.StopAsync(Stop);
            open = (await many.Find(asked.Id, Stop)).Many.Open;
        }

        Assert.True(starts > 1, "it was never stopped in the middle");
        Assert.All(await Task.WhenAll(ids.Select(State)), s => Assert.Equal((2, "once"), ((int)(long)s["version"]!, (string)s["tags"]![0]!)));
    }

    [Fact]
    public async Task Undone_before_its_turn_the_rest_is_left()
    {
        var a = await Enter("""{"name":"Never"}""");
        var many = New();
        var asked = await many.Ask(Json($$$"""{"pieces":["{{{a}}}"],"change":{"kind":"cap"}}"""), "teacher", Stop);
        await many.Undo(asked.Id, Stop);
        await Run(many);
        Assert.Equal(1, (await many.Find(asked.Id, Stop)).Count(ManyOutcome.Stopped));
        Assert.Equal(1, (long)(await State(a))["version"]!);
    }

    [Fact]
    public async Task An_undo_that_is_asked_for_while_the_change_ends_is_not_lost()
    {
        var a = await Enter("""{"name":"Just done"}""");
        Task? undo = null;
        var id = Guid.Empty;
        await using var watched = fixture.Another(o => o.Listeners.Add(new Meanwhile(async session =>
        {
            if (undo is null && session.PendingChanges.AllChangedFor<ManyChange>().Any(m => !m.Open))
            {
                // It has to wait for the end that is being saved; where it does not, it is through by then.
                undo = New().Undo(id, Stop);
                await Task.WhenAny(undo, Task.Delay(1_000, Stop));
            }
        })));
        var many = new ManyAtOnce(watched, new(watched, TimeProvider.System), TimeProvider.System, NullLogger<ManyAtOnce>.Instance);
        id = (await many.Ask(Json($$$"""{"pieces":["{{{a}}}"],"change":{"kind":"cap"}}"""), "teacher", Stop)).Id;
        await Run(many);
        await undo!;
        await Run(New());
        Assert.Equal(1, (await New().Find(id, Stop)).Count(ManyOutcome.Undone));
        Assert.Null((await State(a))["kind"]);
    }

    [Fact]
    public async Task What_she_may_not_see_she_can_not_choose_pieces_by_nor_read_in_what_others_asked()
    {
        await Enter("""{"name":"Kept away","place":{"shelf":"Under the stairs"}}""");
        var asked = await New().Ask(Json("""{"all":{"place":"under the stairs"},"change":{"place":{"shelf":"Under the eaves"}}}"""), "teacher", Stop);
        Assert.Equal(1, asked.Total);
        await Run(New());

        Viewer.Enter(new("a program", Sight.Pieces));
        var refused = await Assert.ThrowsAsync<FaultException>(() => New().Ask(Json("""{"all":{"place":"under the eaves"},"change":{"kind":"cap"}}"""), "a program", Stop));
        Assert.Equal("all", Assert.Single(refused.Faults).Path);
        Assert.DoesNotContain("eaves", (await New().Find(asked.Id, Stop)).Many.Asked.ToJsonString(), StringComparison.Ordinal);
        Assert.All(await New().Latest(100, Stop), m => Assert.DoesNotContain("eaves", m.Asked.ToJsonString(), StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{"change":{"kind":"cap"}}""", "pieces", false)]
    [InlineData("""{"pieces":[],"change":{"kind":"cap"}}""", "pieces", false)]
    [InlineData("""{"pieces":["0199a1b2-0000-7000-8000-000000000000"],"all":{},"change":{"kind":"cap"}}""", "pieces", false)]
    [InlineData("""{"pieces":["0199a1b2-0000-7000-8000-000000000000"],"change":{"kind":"cap"}}""", "pieces[0]", false)]
    [InlineData("""{"pieces":["17"],"change":{"kind":"cap"}}""", "pieces[0]", false)]
    [InlineData("""{"all":{}}""", "change", false)]
    [InlineData("""{"all":{},"change":{"kind":"capp"}}""", "change.kind", false)]
    [InlineData("""{"all":{},"change":{"name":"All one name"}}""", "change.name", true)]
    [InlineData("""{"all":{"colour":"white"},"change":{"kind":"cap"}}""", "all.colour", true)]
    [InlineData("""{"all":{"overall":"good"},"change":{"kind":"cap"}}""", "all.overall", false)]
    [InlineData("""{"all":{"tag":"there is no such tag"},"change":{"kind":"cap"}}""", "all", false)]
    [InlineData("""{"all":{},"tags":{"add":["a"],"remove":["a"]}}""", "tags.remove", false)]
    [InlineData("""{"all":{},"tags":"a"}""", "tags", true)]
    public async Task What_can_not_be_asked_says_so(string body, string path, bool unreadable)
    {
        var refused = await Assert.ThrowsAsync<FaultException>(() => New().Ask(Json(body), "teacher", Stop));
        Assert.Contains(refused.Faults, f => f.Path == path);
        Assert.Equal(unreadable, refused.Unreadable);
    }

    private ManyAtOnce New() => new(fixture.Store, Archive, TimeProvider.System, NullLogger<ManyAtOnce>.Instance);

    private static async Task Run(ManyAtOnce many)
    {
        await many.StartAsync(Stop);
        await Until(async () => !(await many.Latest(1, Stop))[0].Open);
        await many.StopAsync(Stop);
    }

    private static async Task Until(Func<Task<bool>> isSo)
    {
        for (var waited = Stopwatch.StartNew(); !await isSo();)
        {
            Assert.True(waited.Elapsed < TimeSpan.FromMinutes(2), "It did not come to an end.");
            await Task.Delay(5, Stop);
        }
    }

    private sealed class Meanwhile(Func<IDocumentSession, Task> saving) : DocumentSessionListenerBase
    {
        public override Task BeforeSaveChangesAsync(IDocumentSession session, CancellationToken token) => saving(session);
    }

    private async Task<Guid> Enter(string json) => (await fixture.Enter(json)).Garment.Id;

    private async Task<JsonObject> State(Guid id) => (await Archive.Find(id, Stop))!.State();
}
