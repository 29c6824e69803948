using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>What is private is not answered to those who may not see it: in the state, in the history, in single values.</summary>
public sealed class SightTests(ArchiveFixture record) : IClassFixture<ArchiveFixture>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private const string Secret = "seven guineas from a friend";

    private static readonly string Whole = $$"""
        {"number":"S-{{Guid.NewGuid():N}}","name":"Tea gown","acquired":{"price":"{{Secret}}","from":"{{Secret}}" },"place":{"shelf":"{{Secret}} shelf"},
         "whereabouts":{"is":"lent","to":"{{Secret}}" },"description":"Lawn","condition":[{"what":"tear","note":"a remark"}],
         "techniques":[{"kind":"tucks","note":"a remark","evidence":{"note":"a remark","stitchesPerInch":9} }]}
        """;

    [Fact]
    public void Every_field_marked_private_is_hidden_from_who_reads_pieces()
    {
        foreach (var path in Marked(GarmentShape.Garment.Fields, ""))
        {
            Assert.True(Sight.Pieces.Hides(path), path);
            Assert.False(Sight.Everything.Hides(path), path);
            Assert.Equal(path != "place", Sight.WithPlace.Hides(path));
        }
    }

    [Fact]
    public async Task State_and_history_hold_nothing_private_for_who_may_not_see_it()
    {
        var archive = record.Archive;
        var entered = (await archive.Enter(JsonNode.Parse(Whole)!.AsObject(), "owner", Stop)).Garment;
        await archive.Change(entered.Id, 1, JsonNode.Parse($$"""{"acquired":{"papers":"{{Secret}}" },"overall":"fair"}""")!.AsObject(), "owner", Stop);
        await archive.Change(entered.Id, 2, JsonNode.Parse($$"""{"acquired":{"papers":"{{Secret}} 2"} }""")!.AsObject(), "owner", Stop);

        var (state, history) = await Seen(archive, entered.Id, Sight.Pieces);
        Assert.DoesNotContain(Secret, state + history, StringComparison.Ordinal);
        Assert.DoesNotContain("acquired", state + history, StringComparison.Ordinal);
        Assert.Contains("\"is\":\"lent\"", state, StringComparison.Ordinal);
        Assert.Contains("a remark", state, StringComparison.Ordinal);

        (state, history) = await Seen(archive, entered.Id, Sight.WithPlace);
        Assert.Contains(Secret + " shelf", state, StringComparison.Ordinal);
        Assert.DoesNotContain("acquired", state + history, StringComparison.Ordinal);

        (state, history) = await Seen(archive, entered.Id, Sight.Everything);
        Assert.Contains("acquired", state, StringComparison.Ordinal);
        Assert.Contains("acquired", history, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_visitor_sees_only_what_is_shown_to_her_and_of_that_only_what_is_meant_for_her()
    {
        var archive = record.Archive;
        var shown = (await archive.Enter(JsonNode.Parse(Whole.Replace("S-", "V-", StringComparison.Ordinal))!.AsObject(), "owner", Stop)).Garment;
        Assert.Null(await As(Sight.Shown, () => archive.Find(shown.Id, Stop)));

        var saved = await archive.ShowToVisitors(shown.Id, 1, true, "owner", Stop);
        Assert.True(saved.Garment.IsForVisitors);
        var state = await As(Sight.Shown, async () => (await archive.Find(shown.Id, Stop))!.State());
        Assert.Equal(["id", "version", "number", "name", "description", "materials", "measures", "techniques", "pictures"], state.Select(f => f.Key));
        Assert.DoesNotContain("a remark", state.ToJsonString(), StringComparison.Ordinal);
        Assert.Contains("\"stitchesPerInch\":9", state.ToJsonString(), StringComparison.Ordinal);
        Assert.All((await As(Sight.Shown, () => archive.Page(1, 100, Stop))).Items, g => Assert.True(g.IsForVisitors));
        Assert.Null(await As(Sight.Nothing, () => archive.Find(shown.Id, Stop)));

        await archive.ShowToVisitors(shown.Id, 2, false, "owner", Stop);
        Assert.Null(await As(Sight.Shown, () => archive.Find(shown.Id, Stop)));
        Assert.Equal(["hidden from visitors", "shown to visitors", "entered"], (await archive.History(shown.Id, 1, 9, Stop))["items"]!.AsArray().Select(i => i!["what"]!.ToString()));
    }

    [Fact]
    public async Task Who_saw_something_private_is_known_and_who_did_not_is_not()
    {
        var archive = record.Archive;
        var entered = (await archive.Enter(JsonNode.Parse("""{"name":"Chemise","acquired":{"price":"2 pounds"}}""")!.AsObject(), "owner", Stop)).Garment;
        Assert.Equal([entered.Id], await Saw(archive, entered.Id, Sight.Everything));
        Assert.Empty(await Saw(archive, entered.Id, Sight.Pieces));
        Assert.Empty(await Saw(archive, entered.Id, Sight.WithPlace));
    }

    [Fact]
    public async Task Whoever_is_told_something_private_by_the_history_has_seen_it_also_where_it_is_gone_since()
    {
        var archive = record.Archive;
        var id = (await archive.Enter(JsonNode.Parse("""{"name":"Fichu","whereabouts":{"is":"lent","to":"a friend"}}""")!.AsObject(), "owner", Stop)).Garment.Id;
        await archive.Change(id, 1, JsonNode.Parse("""{"whereabouts":null}""")!.AsObject(), "owner", Stop);
        await archive.Change(id, 2, JsonNode.Parse("""{"name":"Lawn fichu"}""")!.AsObject(), "owner", Stop);

        Assert.Equal([id], await Saw(Sight.Everything, () => archive.History(id, 1, 9, Stop)));
        Assert.Empty(await Saw(Sight.WithPlace, () => archive.History(id, 1, 9, Stop)));
        Assert.Empty(await Saw(Sight.Everything, () => archive.History(id, 1, 1, Stop)));
    }

    [Fact]
    public async Task A_stale_change_is_told_nothing_private_that_its_sender_may_not_see()
    {
        var archive = record.Archive;
        var entered = (await archive.Enter(JsonNode.Parse(Whole.Replace("S-", "D-", StringComparison.Ordinal))!.AsObject(), "owner", Stop)).Garment;
        await archive.Change(entered.Id, 1, JsonNode.Parse("""{"name":"Robe","acquired":null,"place":null,"whereabouts":null}""")!.AsObject(), "owner", Stop);
        await archive.PutBack(entered.Id, 2, 1, null, "owner", Stop);
        var patch = JsonNode.Parse("""{"name":"Wrapper","acquired":{"price":"1"},"place":{"shelf":"2"},"whereabouts":{"is":"here","to":"3"}}""")!.AsObject();

        async Task<string> Differs(Sight sight) => await As(sight, async () =>
            (await Assert.ThrowsAsync<StaleException>(() => archive.Change(entered.Id, 1, patch, "program", Stop))).Differs.ToJsonString()
            + (await Assert.ThrowsAsync<StaleException>(() => archive.PutBack(entered.Id, 1, 2, null, "program", Stop))).Differs.ToJsonString());
        var told = await Differs(Sight.Pieces);
        Assert.DoesNotContain(Secret, told, StringComparison.Ordinal);
        Assert.DoesNotContain("acquired", told, StringComparison.Ordinal);
        Assert.Contains("""{"path":"whereabouts.is","yours":"here","now":"lent"}""", told, StringComparison.Ordinal);
        Assert.Contains(Secret, await Differs(Sight.Everything), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_list_says_nothing_of_what_is_hidden_and_is_not_asked_or_sorted_by_it()
    {
        var list = new PieceList(record.Store);
        var piece = (await record.Archive.Enter(JsonNode.Parse("""
            {"name":"Listed spencer","overall":"fragile","handling":"keep-apart","whereabouts":{"is":"lent"},"place":{"shelf":"Attic"},"tags":["for sale"],"condition":[{"what":"tear"}]}
            """)!.AsObject(), "owner", Stop)).Garment;
        await record.Archive.ShowToVisitors(piece.Id, 1, true, "owner", Stop);
        async Task<ListedPiece?> Row(Sight sight, ListQuestion question, string sort = "name") => await As(sight, async () =>
            (await list.Page(question with { Has = "spencer" }, sort, false, 1, 9, Stop)).Items.SingleOrDefault());

        foreach (var sort in PieceList.Sorts)
        {
            var row = (await Row(Sight.Shown, new(), sort))!;
            Assert.Equal(("Listed spencer", null, null, null, null, 0, default), (row.Name, row.Overall, row.Handling, row.Whereabouts, row.Shelf, row.OpenFindings, row.Changed));
            Assert.Empty(row.Tags);
        }

        foreach (var question in new ListQuestion[] { new(Overall: "fragile"), new(Handling: "keep-apart"), new(Whereabouts: "lent"), new(Place: "attic"), new(Tag: "for sale") })
        {
            Assert.NotNull(await Row(Sight.Everything, question));
            Assert.Null(await Row(Sight.Shown, question));
            Assert.Equal(question.Place is null, await Row(Sight.Pieces, question) is not null);
        }

        Assert.Equal(("fragile", null, 1), (await Row(Sight.Pieces, new())) is { } seen ? (seen.Overall, seen.Shelf, seen.OpenFindings) : default);
        Assert.Null(await Row(Sight.Nothing, new()));
        Assert.Equal(0, (await As(Sight.Nothing, () => record.Archive.Page(1, 9, Stop))).Total);
    }

    private static Task<IReadOnlyCollection<Guid>> Saw(Archive archive, Guid id, Sight sight) =>
        Saw(sight, async () => (await archive.Find(id, Stop))!.State());

    private static async Task<IReadOnlyCollection<Guid>> Saw<T>(Sight sight, Func<Task<T>> look)
    {
        var viewer = new Viewer("somebody", sight);
        Viewer.Enter(viewer);
        await look();
        return viewer.SawPrivateOf;
    }

    private static async Task<(string State, string History)> Seen(Archive archive, Guid id, Sight sight) =>
        await As(sight, async () => ((await archive.Find(id, Stop))!.State().ToJsonString(), (await archive.History(id, 1, 9, Stop)).ToJsonString()));

    // Holds for what is awaited from here only.
    private static async Task<T> As<T>(Sight sight, Func<Task<T>> ask)
    {
        Viewer.Enter(new("somebody", sight));
        return await ask();
    }

    private static IEnumerable<string> Marked(IEnumerable<Field> fields, string before) => fields.SelectMany(f =>
        f.Private ? [before + f.Name] : f.Type is RecordType inner ? Marked(inner.Fields, $"{before}{f.Name}.") : []);
}
