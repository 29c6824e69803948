using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Tests.Following;

/// <summary>The lists of care over a whole collection, asked of the real PostgreSQL.</summary>
public class CareListsTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Each_list_has_what_belongs_in_it_in_its_order_a_page_at_a_time()
    {
        var lists = new CareLists(fixture.Store);
        await fixture.Enter("""{"name":"Sound"}""");
        await Finding("Watched", "watch");
        var urgent = await Finding("Urgent", "before-handling");
        await Finding("Soon one", "soon");
        await Finding("Soon two", "soon");
        await fixture.Enter("""{"name":"No day","whereabouts":{"is":"lent"}}""");
        await fixture.Enter("""{"name":"Due later","whereabouts":{"is":"borrowed","dueBack":"2027"}}""");
        await fixture.Enter("""{"name":"Overdue","whereabouts":{"is":"lent","dueBack":"2026-10-01"}}""");
        await fixture.Enter("""{"name":"Back","whereabouts":{"is":"here","dueBack":"2026-10-01"}}""");
        await fixture.Enter("""{"name":"Shown long","shown":[{"hoursOfLight":90},{"hoursOfLight":310.5}]}""");
        await fixture.Enter("""{"name":"Shown","shown":[{"hoursOfLight":95}]}""");

        Assert.Equal(["Soon two", "Soon one"], Names(await lists.Asking(2, 1, 10, Ct)));
        Assert.Equal(["Soon one"], Names(await lists.Asking(2, 2, 1, Ct)));
        Assert.Equal(2, (await lists.Asking(2, 2, 1, Ct)).Total);
        Assert.Equal(["Overdue", "Due later", "No day"], Names(await lists.Away(1, 10, Ct)));
        Assert.Equal(["Shown long", "Shown"], Names(await lists.Shown(1, 10, Ct)));
        await Counts(lists, urgent: 1, watched: 1);

        // Looked at again and better: it moves to another list; over and set aside: it leaves them.
        var id = urgent.Id;
        var first = urgent.Fields["condition"]![0]!["id"]!.ToString();
        var again = await fixture.Archive.AddEntry(id, urgent.Version, "condition", new() { ["what"] = "tear", ["attention"] = "watch", ["continues"] = first }, "teacher", Ct);
        await Counts(lists, urgent: 0, watched: 2);
        var ended = await fixture.Archive.PutEntry(id, again.Garment.Version, "condition", Guid.Parse(again.Entry["id"]!.ToString()), new() { ["what"] = "tear", ["attention"] = "watch", ["continues"] = first, ["ended"] = new JsonObject { ["date"] = "2026-11-01" } }, "teacher", Ct);
        await Counts(lists, urgent: 0, watched: 1);
        var put = await fixture.Archive.PutBack(id, ended.Garment.Version, 1, null, "teacher", Ct);
        await Counts(lists, urgent: 1, watched: 1);
        await fixture.Archive.SetAside(id, put.Garment.Version, "teacher", Ct);
        await Counts(lists, urgent: 0, watched: 1);
    }

    [Fact]
    public async Task Pieces_from_before_the_lists_were_kept_are_noted_once_and_as_if_they_had_just_been_saved()
    {
        var lists = new CareLists(fixture.Store);
        var urgent = await Finding("From before", "before-handling");
        var plain = (await fixture.Enter("""{"name":"Nothing of it","whereabouts":{"is":"lent","dueBack":"2031-05"},"shown":[{"hoursOfLight":12.5}]}""")).Garment;
        await using (var session = fixture.Store.LightweightSession())
        {
            session.QueueSqlCommand("update archive.mt_doc_garment set careurgency = null, caredue = null, carehours_of_light = null, data = data - 'care' where id = any(?)", new[] { urgent.Id, plain.Id });
            await session.SaveChangesAsync(Ct);
        }

        Assert.DoesNotContain("From before", Names(await lists.Asking(3, 1, 100, Ct)));
        Assert.Equal(2, await lists.Fill(Ct));
        Assert.Equal(0, await lists.Fill(Ct));
        Assert.Contains("From before", Names(await lists.Asking(3, 1, 100, Ct)));
        Assert.Contains("Nothing of it", Names(await lists.Away(1, 100, Ct)));
        var filled = (await fixture.Archive.Find(plain.Id, Ct))!;
        Assert.Equal(new(0, "2031-05-31", 12.5m), filled.Care);
        Assert.Equal(plain.Version, filled.Version);
        Assert.Equal(2, (await fixture.Archive.Change(plain.Id, 1, new() { ["name"] = "Changed after" }, "teacher", Ct)).Garment.Version);
        await fixture.Archive.SetAside(plain.Id, 2, "teacher", Ct);
        await fixture.Archive.SetAside(urgent.Id, 1, "teacher", Ct);
    }

    private static async Task Counts(CareLists lists, int urgent, int watched)
    {
        var counts = await lists.Count(new(2026, 11, 20), Ct);
        Assert.Equal((urgent, 2, watched), (counts.ByUrgency[3], counts.ByUrgency[2], counts.ByUrgency[1]));
        Assert.Equal((3, 1, 2), (counts.Away, counts.Overdue, counts.Shown));
    }

    private async Task<Garment> Finding(string name, string attention) =>
        (await fixture.Enter($$"""{"name":"{{name}}","condition":[{"what":"tear","attention":"{{attention}}"},{"what":"stain","attention":"none"}]}""")).Garment;

    private static IEnumerable<string> Names((long Total, IReadOnlyList<Garment> Items) page) => page.Items.Select(g => g.Name);
}
