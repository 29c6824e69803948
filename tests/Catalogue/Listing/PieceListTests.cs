using System.Text.Json.Nodes;
using Microsoft.Extensions.Logging.Abstractions;
using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests.Listing;

/// <summary>The list of all, sorted and asked by the database, against the same done by hand.</summary>
public sealed class PieceListTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static readonly Dictionary<string, Func<ListedPiece, IComparable?>> Keys = new()
    {
        ["entered"] = p => p.Id.ToString(), ["number"] = p => p.NumberKey, ["name"] = p => p.NameKey, ["kind"] = p => p.Kind, ["dated"] = p => p.Year, ["overall"] = p => p.OverallRank,
        ["handling"] = p => p.HandlingRank, ["whereabouts"] = p => p.Whereabouts, ["place"] = p => p.PlaceKey, ["pictures"] = p => p.Pictures,
        ["findings"] = p => p.OpenFindings, ["techniques"] = p => p.Techniques, ["changed"] = p => p.Changed,
    };

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private PieceList List => new(fixture.Store);

    [Fact]
    public async Task Every_order_both_ways_has_each_piece_once_and_blanks_last()
    {
        for (var i = 0; i < 23; i++)
        {
            await Piece(i);
        }

        Assert.Equal(Keys.Keys.Order(), PieceList.Sorts.Order());
        foreach (var (sort, key) in Keys)
        {
            foreach (var down in new[] { false, true })
            {
                var all = new List<ListedPiece>();
                long total = 1;
                for (var page = 1; (page - 1) * 5 < total; page++)
                {
                    (total, var items) = await List.Page(new(), sort, down, page, 5, Stop);
                    all.AddRange(items);
                }

                var way = down ? "down" : "up";
                Assert.Equal(total, all.Select(p => p.Id).Distinct().Count());
                var written = all.TakeWhile(p => key(p) is not null).Select(key).ToList();
                Assert.True(all.Skip(written.Count).All(p => key(p) is null), $"{sort} {way}: a blank stands in the middle");
                for (var i = 1; i < written.Count; i++)
                {
                    var turn = written[i] is string text ? string.CompareOrdinal((string)written[i - 1]!, text) : written[i - 1]!.CompareTo(written[i]);
                    Assert.True(down ? turn >= 0 : turn <= 0, $"{sort} {way}: {written[i - 1]} before {written[i]}");
                }
            }
        }
    }

    [Fact]
    public async Task Each_question_finds_what_is_so_and_nothing_else()
    {
        var linen = (await fixture.Enter("""{"number":"Q-007","name":"Étamine collar 100%","kind":"collar","overall":"weak","handling":"show-flat","whereabouts":{"is":"lent"},"place":{"shelf":"Wardrobe B","box":"12"},"tags":["spring class"],"condition":[{"what":"tear"},{"what":"hole","ended":{"date":"2026-01-01"}}]}""")).Garment;
        await fixture.Enter("""{"number":"Q-070","name":"A plain bib","kind":{"own":"spit cloth"},"overall":"sound"}""");
        async Task<IEnumerable<string>> Found(ListQuestion q) => (await List.Page(q, "name", false, 1, 50, Stop)).Items.Where(p => p.Number is "Q-007" or "Q-070").Select(p => p.Number!);
        foreach (var q in new ListQuestion[]
        {
            new(Has: "etamine"), new(Has: "q-7"), new(Has: "100%"), new(Kind: "collar"), new(Overall: "weak"), new(Handling: "show-flat"), new(Whereabouts: "lent"),
            new(Place: "wardrobe b 12"), new(Tag: "spring class"), new(Has: "collar", Overall: "weak", Tag: "spring class"),
        })
        {
            Assert.Equal(["Q-007"], await Found(q));
            Assert.Contains(linen.Id, (await List.Page(q, "entered", true, 1, 50, Stop)).Items.Select(p => p.Id));
        }

        foreach (var q in new ListQuestion[] { new(Kind: "spit cloth"), new(Handling: "none", Has: "bib"), new(Whereabouts: "none", Has: "bib"), new(Place: "none", Has: "bib") })
        {
            Assert.Equal(["Q-070"], await Found(q));
        }

        foreach (var q in new ListQuestion[] { new(Has: "100_"), new(Tag: "spring"), new(Has: "'; drop table"), new(Kind: "collar", Overall: "sound") })
        {
            Assert.Empty(await Found(q));
        }

        var row = (await List.Find([linen.Id], Stop))[0];
        Assert.Equal((1, 0, 0), (row.OpenFindings, row.Techniques, row.Pictures));
    }

    [Fact]
    public async Task A_row_follows_its_piece_and_leaves_when_it_is_set_aside()
    {
        var id = (await fixture.Enter("""{"name":"Follower"}""")).Garment.Id;
        await fixture.Archive.Change(id, 1, Json("""{"name":"Followed","number":"F-99"}"""), "teacher", Stop);
        await fixture.Archive.AddEntry(id, 2, "techniques", Json("""{"kind":"hem"}"""), "teacher", Stop);
        var row = (await List.Find([id], Stop))[0];
        Assert.Equal(("Followed", "F-99", 1, 3L), (row.Name, row.Number, row.Techniques, row.Version));
        await fixture.Archive.SetAside(id, 3, "teacher", Stop);
        Assert.Equal(0, (await List.Page(new(Has: "followed"), "name", false, 1, 10, Stop)).Total);
        await fixture.Archive.BringBack(id, "teacher", Stop);
        Assert.Equal(1, (await List.Page(new(Has: "followed"), "name", false, 1, 10, Stop)).Total);
    }

    [Fact]
    public async Task Pieces_entered_before_there_was_a_list_are_brought_into_it()
    {
        var id = (await fixture.Enter("""{"name":"Of old","number":"OLD-3"}""")).Garment.Id;
        await using (var session = fixture.Store.LightweightSession())
        {
            session.Delete<ListedPiece>(id);
            await session.SaveChangesAsync(Stop);
        }

        var filling = new ListFilling(fixture.Store, NullLogger<ListFilling>.Instance);
        Assert.Equal(1, await filling.Fill(Stop));
        Assert.Equal("Of old", (await List.Find([id], Stop))[0].Name);
        Assert.Equal(0, await filling.Fill(Stop));
    }

    private Task<Saved> Piece(int i)
    {
        var garment = new JsonObject { ["name"] = $"Piece {i * 7 % 23}" };
        void Some(int of, string field, JsonNode value)
        {
            if (i % of != 0)
            {
                garment[field] = value;
            }
        }

        Some(3, "number", $"S-{i * 5 % 23}");
        Some(4, "kind", i % 2 == 0 ? "cap" : "bib");
        Some(5, "dated", $"{1880 + (i * 3 % 40)}~");
        Some(6, "overall", i % 2 == 0 ? "weak" : "sound");
        Some(7, "handling", i % 2 == 0 ? "show-flat" : "keep-apart");
        Some(2, "place", new JsonObject { ["shelf"] = $"{i % 4}" });
        Some(3, "whereabouts", new JsonObject { ["is"] = i % 2 == 0 ? "lent" : "here" });
        return fixture.Enter(garment.ToJsonString());
    }
}
