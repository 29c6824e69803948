using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>A number is one piece's only.</summary>
public sealed class NumberTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Archive Archive => fixture.Archive;

    [Theory]
    [InlineData("G-014", "G-014")]
    [InlineData(" g-0 14\u00a0", "G-014")]
    [InlineData("Ｇ－０１４", "G-014")]
    [InlineData("№ 7", "NO7")]
    public void A_number_is_compared_without_regard_to_width_case_and_white_space(string typed, string compared) =>
        Assert.Equal(compared, NumberReservation.Normalise(typed));

    [Fact]
    public async Task A_taken_number_names_who_has_it()
    {
        var first = await fixture.Enter("""{"number":"T-001","name":"The first"}""");
        var taken = await Assert.ThrowsAsync<TakenException>(() => fixture.Enter("""{"number":" t-0 01","name":"The second"}"""));
        Assert.Equal((first.Garment.Id, "The first"), (taken.Garment, taken.Name));
        var other = await fixture.Enter("""{"name":"The third"}""");
        await Assert.ThrowsAsync<TakenException>(() => Archive.Change(other.Garment.Id, 1, Json("""{"number":"T-001"}"""), "teacher", Stop));
        Assert.Equal(1, (await Archive.Find(other.Garment.Id, Stop))!.Version);
    }

    [Fact]
    public async Task A_changed_number_frees_the_old_one_and_writing_it_otherwise_does_not()
    {
        var first = (await fixture.Enter("""{"number":"F-1","name":"The first"}""")).Garment.Id;
        await Archive.Change(first, 1, Json("""{"number":"f-1"}"""), "teacher", Stop);
        await Assert.ThrowsAsync<TakenException>(() => fixture.Enter("""{"number":"F-1","name":"The second"}"""));
        await Archive.Change(first, 2, Json("""{"number":"F-2"}"""), "teacher", Stop);
        await fixture.Enter("""{"number":"F-1","name":"The second"}""");
        await Archive.Change(first, 3, Json("""{"number":null}"""), "teacher", Stop);
        await fixture.Enter("""{"number":"F-2","name":"The third"}""");
    }

    [Fact]
    public async Task A_piece_set_aside_keeps_its_number()
    {
        var id = (await fixture.Enter("""{"number":"K-1","name":"A mistake"}""")).Garment.Id;
        await Archive.SetAside(id, 1, "teacher", Stop);
        await Assert.ThrowsAsync<TakenException>(() => fixture.Enter("""{"number":"K-1","name":"The right one"}"""));
    }

    [Fact]
    public async Task Putting_back_a_number_that_is_taken_meanwhile_is_refused()
    {
        var id = (await fixture.Enter("""{"number":"P-1","name":"The first"}""")).Garment.Id;
        await Archive.Change(id, 1, Json("""{"number":"P-2"}"""), "teacher", Stop);
        var second = (await fixture.Enter("""{"number":"P-1","name":"The second"}""")).Garment.Id;
        await Assert.ThrowsAsync<TakenException>(() => Archive.PutBack(id, 2, 1, null, "teacher", Stop));
        await Assert.ThrowsAsync<TakenException>(() => Archive.PutBack(id, 2, 1, "number", "teacher", Stop));
        await Archive.Change(second, 1, Json("""{"number":null}"""), "teacher", Stop);
        Assert.Equal("P-1", (await Archive.PutBack(id, 2, 1, "number", "teacher", Stop)).Garment.Number);
        await Assert.ThrowsAsync<TakenException>(() => fixture.Enter("""{"number":"P-1","name":"The third"}"""));
        await fixture.Enter("""{"number":"P-2","name":"The fourth"}""");
    }

    [Fact]
    public async Task Of_sixty_four_who_take_one_number_at_once_one_has_it_and_the_others_are_told_who()
    {
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 64).Select(async i =>
        {
            try
            {
                return (Won: true, (await Archive.Enter(new JsonObject { ["number"] = "R-1", ["name"] = $"Runner {i}" }, "teacher", Stop)).Garment.Id);
            }
            catch (TakenException e)
            {
                return (Won: false, Id: e.Garment);
            }
        }));
        var winner = Assert.Single(outcomes, o => o.Won).Id;
        Assert.All(outcomes, o => Assert.Equal(winner, o.Id));
        var (total, items) = await Archive.Page(1, 100, Stop);
        Assert.Single(items, g => g.Number == "R-1");
        Assert.Equal(total, items.Count);
    }

    [Fact]
    public async Task Two_who_exchange_their_numbers_at_once_are_told_they_are_taken()
    {
        var first = (await fixture.Enter("""{"number":"X-1","name":"The first"}""")).Garment.Id;
        var second = (await fixture.Enter("""{"number":"X-2","name":"The second"}""")).Garment.Id;
        for (var i = 0; i < 5; i++)
        {
            await Task.WhenAll(
                Assert.ThrowsAsync<TakenException>(() => Archive.Change(first, 1, Json("""{"number":"X-2"}"""), "teacher", Stop)),
                Assert.ThrowsAsync<TakenException>(() => Archive.Change(second, 1, Json("""{"number":"X-1"}"""), "teacher", Stop)));
        }

        Assert.Equal("X-1", (await Archive.Find(first, Stop))!.Number);
        Assert.Equal("X-2", (await Archive.Find(second, Stop))!.Number);
    }

    [Theory]
    [InlineData("\uffff")]
    [InlineData("\u200b\u202e\u0301")]
    [InlineData("👗-1")]
    [InlineData("'; DROP TABLE mt_events; --")]
    public async Task Odd_numbers_are_numbers_too(string number)
    {
        var saved = await Archive.Enter(new JsonObject { ["number"] = number, ["name"] = "Odd" }, "teacher", Stop);
        Assert.Equal(number, (await Archive.Find(saved.Garment.Id, Stop))!.Number);
        await Assert.ThrowsAsync<TakenException>(() => Archive.Enter(new JsonObject { ["number"] = number, ["name"] = "Odd" }, "teacher", Stop));
    }

    [Fact]
    public async Task A_number_whose_signs_stand_for_many_letters_is_refused_not_broken()
    {
        var number = new string('\ufdfa', 100); // eighteen letters each in NFKC
        var refused = await Assert.ThrowsAsync<FaultException>(() => Archive.Enter(new JsonObject { ["number"] = number, ["name"] = "Long" }, "teacher", Stop));
        Assert.Equal("number", Assert.Single(refused.Faults).Path);
    }
}
