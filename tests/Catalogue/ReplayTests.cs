using System.Text.Json.Nodes;
using CsCheck;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>Laws of the record, on random sequences of changes.</summary>
public sealed class ReplayTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    private static readonly Gen<JsonNode?> Words = Gen.OneOf<JsonNode?>(null, "sound", "fair", "weak");

    private static readonly Gen<string> Text = Gen.Frequency(
        (4, Gen.String[Gen.Char['a', 'e'], 0, 6]), (1, Gen.OneOf("שמלה", "👗 1½ in ≈", "\"quoted\" \\ back", "a\nb\tc", "  ")));

    /// <summary>One step: a patch, or what is done to an entry of a list; the number chooses which.</summary>
    private static readonly Gen<Step> Steps = Gen.Select(Gen.Int[0, 7], Gen.Int[0, 3], Gen.Int[0, 9], Words, Text, (what, list, place, word, text) => new Step(what, list, place, word, text));

    private sealed record Step(int What, int List, int Place, JsonNode? Word, string Text);

    private const int SetAsideAndBack = 5;

    private static readonly string[] Lists = ["examinations", "condition", "repairs", "techniques"];

    [Fact]
    public async Task Replaying_the_events_gives_the_snapshot_and_each_version_can_be_put_back() =>
        await Steps.Array[1, 12].SampleAsync(async steps =>
        {
            var states = new List<string>();
            var now = (await fixture.Enter("""{"name":"Random"}""")).Garment;
            states.Add(Kept(now));
            foreach (var step in steps)
            {
                var after = await Take(now, step);
                Assert.InRange(after.Version - now.Version, 0, step.What == SetAsideAndBack ? 2 : 1);
                states.AddRange(Enumerable.Repeat(Kept(after), (int)(after.Version - now.Version)));

                now = after;
            }

            await using var session = fixture.Store.QuerySession();
            var snapshot = (await session.LoadAsync<Garment>(now.Id))!;
            Assert.Equal(states.Count, snapshot.Version);
            Assert.Equal(snapshot.State().ToJsonString(), now.State().ToJsonString());
            var replayed = (await session.Events.AggregateStreamAsync<Garment>(now.Id))!;
            Assert.Equal(snapshot.State().ToJsonString(), replayed.State().ToJsonString());
            Assert.Equal(snapshot.Position, replayed.Position);

            var version = 1 + ((long)steps.Length * 7 % states.Count);
            var back = (await fixture.Archive.PutBack(now.Id, now.Version, version, null, "teacher")).Garment;
            Assert.Equal(states[(int)version - 1], Kept(back));
            Assert.Equal(states[(int)version - 1], Kept((await fixture.Archive.Find(now.Id))!));
        }, iter: 40, threads: 1);

    [Fact]
    public async Task The_history_leads_from_nothing_to_the_record()
    {
        await Steps.Array[1, 12].SampleAsync(async steps =>
        {
            var now = (await fixture.Enter("""{"name":"Random"}""")).Garment;
            foreach (var step in steps)
            {
                now = await Take(now, step);
            }

            var history = await fixture.Archive.History(now.Id, 1, 100);
            Assert.Equal(now.Version, (long?)history["total"]);
            var lastOf = new Dictionary<string, string>();
            foreach (var change in history["items"]!.AsArray().Reverse().SelectMany(i => i!["changes"]!.AsArray()))
            {
                // A list's own path tells a new order only; what came into it and left it stands at its entries' paths.
                var path = (string)change!["path"]!;
                if (!path.Contains('[', StringComparison.Ordinal) && !Lists.Contains(path))
                {
                    Assert.Equal(lastOf.GetValueOrDefault(path, "null"), change["old"]?.ToJsonString() ?? "null");
                    lastOf[path] = change["new"]?.ToJsonString() ?? "null";
                }
            }

            foreach (var field in new[] { "name", "overall", "description" })
            {
                Assert.Equal(now.Fields[field]?.ToJsonString() ?? "null", lastOf.GetValueOrDefault(field, "null"));
            }
        }, iter: 20, threads: 1);
    }

    private async Task<Garment> Take(Garment now, Step step)
    {
        var list = Lists[step.List];
        var entries = now.Fields[list] as JsonArray ?? [];
        var entry = new JsonObject { ["note"] = step.Text };
        if (list == "examinations")
        {
            (entry["overall"], entry["date"]) = (step.Word?.DeepClone(), $"2026-01-{step.Place + 1:00}");
        }

        if (list == "condition" && now.Fields["repairs"] is JsonArray { Count: > 0 } repairs)
        {
            entry["ended"] = new JsonObject { ["repair"] = repairs[step.Place % repairs.Count]!["id"]!.DeepClone() };
        }

        var archive = fixture.Archive;
        switch (step.What)
        {
            case 0 or 1:
                return (await archive.AddEntry(now.Id, now.Version, list, entry, "teacher")).Garment;
            case 2 when entries.Count > 0:
                return (await archive.PutEntry(now.Id, now.Version, list, Id(entries, step), entry, "teacher")).Garment;
            case 3 when entries.Count > 0:
                return (await archive.RemoveEntry(now.Id, now.Version, list, Id(entries, step), "teacher")).Garment;
            case 4 when entries.Count > 0:
                var turned = new JsonArray([.. entries.Reverse().Select(e => e!.DeepClone())]);
                return (await archive.Change(now.Id, now.Version, new() { [list] = turned }, "teacher")).Garment;
            case SetAsideAndBack:
                await archive.SetAside(now.Id, now.Version, "teacher");
                return (await archive.BringBack(now.Id, "teacher")).Garment;
            default:
                return (await archive.Change(now.Id, now.Version, new() { ["overall"] = step.Word?.DeepClone(), ["description"] = step.Text }, "teacher")).Garment;
        }
    }

    private static Guid Id(JsonArray entries, Step step) => Guid.Parse((string)entries[step.Place % entries.Count]!["id"]!);

    private static string Kept(Garment garment) => GarmentShape.Garment.Present(garment.Fields).ToJsonString();
}
