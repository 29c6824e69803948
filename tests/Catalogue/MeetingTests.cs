using static HeirloomArchive.Catalogue.Tests.ArchiveFixture;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>Two people at once: which fields differ, and who changed which.</summary>
public sealed class MeetingTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("""{"name":"A"}""", """{"name":"A"}""", """{"name":"A"}""", "")]
    [InlineData("""{"name":"A"}""", """{"name":"B"}""", """{"name":"A"}""", "name:she")]
    [InlineData("""{"name":"A"}""", """{"name":"A"}""", """{"name":"B"}""", "name:other")]
    [InlineData("""{"name":"A"}""", """{"name":"B"}""", """{"name":"C"}""", "name:she other")]
    [InlineData("""{"name":"A"}""", """{"name":"B"}""", """{"name":"B"}""", "")]
    [InlineData("""{"place":{"shelf":"1","box":"2"}}""", """{"place":{"shelf":"3","box":"2"}}""", """{"place":{"shelf":"1","box":"4"}}""", "place.shelf:she place.box:other")]
    [InlineData("""{"tags":["a"]}""", """{}""", """{"tags":["a","b"]}""", "tags:she other")]
    [InlineData("""{}""", """{"overall":"wrong word"}""", """{}""", "overall:she")]
    [InlineData("""{"measures":[{"name":"chest","length":{"mm":12.7,"text":"1/2 in"}}]}""", """{"measures":[{"name":"chest","length":"1/2 in"}]}""", """{"measures":[{"name":"chest","length":{"mm":12.7,"text":"1/2 in"}}]}""", "")]
    public void Only_fields_that_differ_meet(string was, string hers, string now, string expected)
    {
        var met = Meeting.Of(GarmentShape.Garment, Json(was), Json(hers), Json(now));
        Assert.Equal(expected, string.Join(' ', met.Select(m => $"{m.Path}:{(m.SheChanged ? m.OtherChanged ? "she other" : "she" : "other")}")));
    }

    [Fact]
    public async Task The_past_tells_what_it_was_and_who_changed_it_since()
    {
        var id = (await fixture.Enter("""{"name":"Cap","overall":"sound"}""")).Garment.Id;
        await fixture.Archive.Change(id, 1, Json("""{"overall":"fair"}"""), "helper", Stop);
        await fixture.Archive.Change(id, 2, Json("""{"overall":"weak"}"""), "student", Stop);
        var past = new Past(fixture.Store);
        var then = (await past.At(id, 1, Stop))!;
        Assert.Equal("sound", (string?)then.Fields["overall"]);
        var steps = await past.Since(then, Stop);
        Assert.Equal([("helper", "sound", "fair"), ("student", "fair", "weak")], steps.Select(s => (s.Who!, (string)s.Before["overall"]!, (string)s.After["overall"]!)));
        Assert.Null(await past.At(id, 4, Stop));
        Assert.Null(await past.At(id, 0, Stop));
        Assert.Null(await past.At(Guid.NewGuid(), 1, Stop));
    }
}
