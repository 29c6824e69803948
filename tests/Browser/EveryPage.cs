using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Browser.Tests;

/// <summary>The address of every page there is; a new page is added here and is looked at by day and by night, at every width and in every language.</summary>
internal static class EveryPage
{
    private static readonly string[] Plain =
    [
        "/", "/pieces", "/pieces?as=table&columns=number&columns=kind&columns=changed&sort=name&overall=fair", "/pieces?as=tiles&has=nothing+of+the+kind", "/pieces/many", "/pieces/many?these=all", "/pieces/new", "/pieces/new?depth=full", "/examples", "/examples?q=pin+tucks+by+hand&tuckKind=pin", "/examples?q=nothing+of+the+kind", "/worksheets", "/worksheets/new", "/worksheets/new/side-by-side",
        "/lessons", "/lessons/add", "/questions", "/questions?q=pin+tucks&to=1909", "/numbers",
        "/work-it-out", "/work-it-out/tucks?groups[0].tucks=5&groups[0].width=1/8+in&groups[0].space=1/4+in",
        "/work-it-out/fit?finished=12+in&tucks.from=6&tucks.to=20&width.from=1/8+in&width.to=1/8+in&space.from=1/8+in&space.to=1/2+in&ends.from=1+in&ends.to=3+in&finest=1/16+in",
        "/work-it-out/fit?finished=1+in&tucks.from=20&tucks.to=20&width.from=1/8+in&width.to=1/8+in&space.from=1/8+in&space.to=1/8+in&ends.from=1+in&ends.to=1+in&finest=1/16+in",
        "/offline", "/guide", "/guide/measuring-a-tuck", "/guide/keeping-antique-cloth", "/guide/for-programs", "/words", "/words?q=torchon", "/words/own", "/words/own?facet=laces&label=Ladder+lace", "/tape", "/pictures/compare", "/pictures/untagged", "/pictures/check", "/care", "/care?list=away", "/care?list=light", "/no-such-page",
    ];

    /// <summary>The plain ones, and those of one piece, its forms, a worksheet and a lesson of it, which are entered for it.</summary>
    public static async Task<IReadOnlyList<string>> Of(ArchiveHost host)
    {
        var dress = await host.BabyDress($"A-{Guid.NewGuid():N}");
        var (piece, sheet) = ($"/pieces/{dress.Id()}", await host.Sheet(dress));
        return
        [
            .. Plain, piece, $"{piece}/edit", $"{piece}/techniques/new", $"{piece}/techniques/new?kind=tucks", $"{piece}/techniques/{dress.Tucks()}", $"{piece}/condition/new", $"{piece}/condition",
            $"{piece}/repairs/new", $"{piece}/examinations/new", $"{piece}/look-over", $"{piece}/history", $"{piece}/like", $"{piece}/like?technique={dress.Tucks()}&proportions=true", await Changed(host, dress), await ManyDone(host, dress), $"{piece}/dating", $"{piece}/dating?seen=zip-coil&seen=press-stud", $"/worksheets/new?garment={dress.Id()}&technique={dress.Tucks()}", sheet, $"{sheet}/at-the-table", $"{sheet}/made-up", $"/worksheets/new/side-by-side?garment={dress.Id()}",
            .. await Lesson(host, dress, sheet), .. await Pictures(host, dress),
        ];
    }

    // A version that is not the last, to be compared with now.
    private static async Task<string> Changed(ArchiveHost host, JsonObject dress)
    {
        await host.Change(dress.Id(), 1, new() { ["overall"] = "weak", ["tags"] = new JsonArray("spring class"), ["place"] = new JsonObject { ["shelf"] = "7" } });
        return $"/pieces/{dress.Id()}/history/1";
    }

    private static async Task<string> ManyDone(ArchiveHost host, JsonObject dress)
    {
        var answer = await host.Client.PostAsJsonAsync("/api/many", new JsonObject { ["pieces"] = new JsonArray(dress.Id()), ["tags"] = new JsonObject { ["add"] = new JsonArray("autumn class") } });
        return answer.Headers.Location!.ToString().Replace("/api/many", "/pieces/many", StringComparison.Ordinal);
    }

    private static async Task<IReadOnlyList<string>> Lesson(ArchiveHost host, JsonObject dress, string sheet)
    {
        JsonObject Entry(string what, string list) => new() { ["garment"] = dress.Id(), [what] = dress[list]![0]!["id"]!.ToString(), ["note"] = "Look closely." };
        var answer = await host.Client.PostAsJsonAsync("/api/lessons", new JsonObject
        {
            ["name"] = "Pin tucks by hand", ["pupils"] = 8, ["eachNeeds"] = "1/4 yd of lawn",
            ["entries"] = new JsonArray(Entry("technique", "techniques"), Entry("finding", "condition"), Entry("repair", "repairs"), new JsonObject { ["garment"] = dress.Id() }, new JsonObject { ["worksheet"] = sheet.Split('/')[^1] }),
            ["given"] = new JsonArray(new JsonObject { ["date"] = "2026-03-02", ["out"] = new JsonArray(dress.Id()), ["needlesOut"] = 12, ["needlesBack"] = 11 }, new JsonObject { ["date"] = "2026-03-09", ["out"] = new JsonArray(dress.Id()) }),
        });
        var lesson = answer.Headers.Location!.ToString().Replace("/api", "", StringComparison.Ordinal);
        return [lesson, $"{lesson}/edit", $"{lesson}/fetch", $"{lesson}/given", $"{lesson}/hand-out", $"/lessons/add?e={dress.Id()}&e={dress.Id()}:technique:{dress.Tucks()}"];
    }

    private static async Task<IReadOnlyList<string>> Pictures(ArchiveHost host, JsonObject dress)
    {
        var picture = await RegionTests.AddPicture(host, dress.Id());
        return [$"/pictures/{picture}", $"/pictures/compare?show={picture}"];
    }
}
