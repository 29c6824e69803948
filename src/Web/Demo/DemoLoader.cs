using System.Text.Json.Nodes;
using HeirloomArchive.Web.Demo.Drawing;

namespace HeirloomArchive.Web.Demo;

/// <summary>
/// Loads the demonstration through the service's own API, as any client would. It may be stopped at any moment and started
/// again: a piece is found by its number, and since each step of it is one event, its version says which step comes next.
/// Nothing is done twice, and what somebody has changed since is left alone.
/// </summary>
/// <param name="client">With the service as its base address.</param>
/// <param name="seedFolder">The folder <c>seed-demo</c>.</param>
public sealed class DemoLoader(HttpClient client, string seedFolder)
{
    private const int AtOnce = 4;

    private readonly DemoClient service = new(client);
    private readonly Dictionary<string, string> ids = [];
    private int done;

    /// <summary>Loads what is not there yet.</summary>
    /// <exception cref="DemoException">A file could not be loaded; what was loaded before stays.</exception>
    public async Task Load(IProgress<DemoProgress> progress, CancellationToken ct)
    {
        var pieces = SeedFolder.Pieces(seedFolder);
        var sheets = SeedFolder.Sheets(seedFolder);
        var lessons = SeedFolder.Lessons(seedFolder);
        var named = SeedFolder.Named(seedFolder);
        var total = pieces.Sum(p => 1 + p.Steps.Count + (p.Marks.Count > 0 ? 1 : 0)) + sheets.Count + named.Count + lessons.Count;
        done = 0;
        ids.Clear();
        foreach (var garment in await service.All("/api/garments", ct))
        {
            if (garment["number"] is { } number) ids[number.ToString()] = garment["id"]!.ToString();
        }

        // One report at a time, in the order of what was done.
        void Did(string what)
        {
            lock (ids) progress.Report(new(++done, total, what));
        }

        // All pieces first: later steps speak of one another.
        foreach (var piece in pieces)
        {
            await Enter(piece, ct);
            Did($"{piece.Number}: entered");
        }

        // Drawing a picture and having it looked over takes longest: as many pieces at once as there is room for.
        await Parallel.ForEachAsync(pieces, new ParallelOptions { MaxDegreeOfParallelism = AtOnce, CancellationToken = ct }, async (piece, stop) => await Continue(piece, Did, stop));
        await Worksheets(sheets, Did, ct);
        var classes = new DemoLessons(service, ids);
        await Named(named, await classes.AreThere(lessons, ct), Did, ct);
        await classes.Make(lessons, Did, ct);
    }

    private async Task Enter(SeedPiece piece, CancellationToken ct)
    {
        if (ids.ContainsKey(piece.Number)) return;
        try
        {
            var entered = await service.Write(piece.File, HttpMethod.Post, "/api/garments", piece.Post, null, ct);
            ids[piece.Number] = entered["id"]!.ToString();
        }
        catch (DemoException e) when (DemoClient.TakenBy(e) is { } id)
        {
            ids[piece.Number] = id; // set aside since: not in the list, but still there
        }
    }

    private async Task Continue(SeedPiece piece, Action<string> did, CancellationToken ct)
    {
        var address = $"/api/garments/{ids[piece.Number]}";
        var references = new SeedReferences(piece.File, ids);
        for (var i = 0; i < piece.Steps.Count; i++)
        {
            var garment = await service.Get(piece.File, address, ct);
            var version = garment["version"]!.GetValue<long>();
            if (version < i + 1) throw new DemoException(piece.File, $"Step {i} of the piece changed nothing.");
            if (garment["setAside"] is null && version == i + 1)
            {
                await Take(piece.Steps[i], piece, address, garment, version, references, ct);
            }

            did($"{piece.Number}: {piece.Steps[i].Kind}");
        }

        if (piece.Marks.Count > 0)
        {
            await new DemoMarks(service).Make(piece, address, references, ct);
            did($"{piece.Number}: marks on its pictures");
        }
    }

    private async Task Take(SeedStep step, SeedPiece piece, string address, JsonObject garment, long version, SeedReferences references, CancellationToken ct)
    {
        var what = step.What;
        switch (step.Kind)
        {
            case "add":
                var list = SeedFolder.Text(what, "add", piece.File);
                await service.Write(piece.File, HttpMethod.Post, $"{address}/{list}", references.Resolve(what["entry"], garment)!, version, ct);
                break;
            case "change":
                var (changes, entry) = references.Entry(SeedFolder.Text(what, "change", piece.File), garment);
                await Put(piece, address, changes, entry, (JsonObject)references.Resolve(what["with"], garment)!, version, ct);
                break;
            case "patch":
                await service.Write(piece.File, HttpMethod.Patch, address, references.Resolve(what["patch"], garment)!, version, ct);
                break;
            case "putBack":
                await service.Write(piece.File, HttpMethod.Post, $"{address}/history/{what["putBack"]}/put-back", new JsonObject(), version, ct);
                break;
            case "setAside":
                await service.Delete(piece.File, address, version, ct);
                break;
            case "pictures":
                var drawn = Pictures(what).Select((p, i) => ($"{piece.Number}-{i + 1}.png", DemoPicture.Draw(garment, SeedFolder.Text(p, "draw", piece.File)))).ToList();
                await service.Upload(piece.File, $"{address}/pictures", drawn, ct);
                break;
            case "captions":
                var pictures = garment["pictures"]!.DeepClone().AsArray();
                foreach (var (picture, said) in pictures.Zip(Pictures(what)))
                {
                    foreach (var (name, value) in said.Where(f => f.Key is not ("draw" or "marks"))) picture![name] = value?.DeepClone();
                }

                await service.Write(piece.File, HttpMethod.Patch, address, new JsonObject { ["pictures"] = pictures }, version, ct);
                break;
        }
    }

    private static IEnumerable<JsonObject> Pictures(JsonObject seed) => seed["pictures"]!.AsArray().Select(p => p!.AsObject());

    private async Task Put(SeedPiece piece, string address, string list, JsonObject entry, JsonObject with, long version, CancellationToken ct)
    {
        var changed = entry.DeepClone().AsObject();
        foreach (var (name, value) in with) changed[name] = value?.DeepClone();
        await service.Write(piece.File, HttpMethod.Put, $"{address}/{list}/{entry["id"]}", changed, version, ct);
    }

    private async Task Worksheets(IReadOnlyList<SeedSheet> sheets, Action<string> did, CancellationToken ct)
    {
        var there = (await service.All("/api/worksheets", ct)).GroupBy(s => s["title"]!.ToString()).ToDictionary(g => g.Key, g => g.Last()["id"]!.ToString());
        foreach (var sheet in sheets)
        {
            if (!there.TryGetValue(sheet.Title, out var id))
            {
                var references = new SeedReferences(sheet.File, ids);
                var garment = sheet.Post["garment"] is { } of ? await service.Get(sheet.File, $"/api/garments/{references.Resolve(of, null)}", ct) : null;
                id = (await service.Write(sheet.File, HttpMethod.Post, "/api/worksheets", references.Resolve(sheet.Post, garment)!, null, ct))["id"]!.ToString();
            }

            var known = (await service.Get(sheet.File, $"/api/worksheets/{id}/made-up", ct))["total"]!.GetValue<int>();
            foreach (var made in sheet.MadeUp.Skip(known))
            {
                await service.Write(sheet.File, HttpMethod.Post, $"/api/worksheets/{id}/made-up", made, null, ct);
            }

            did($"Worksheet: {sheet.Title}");
        }
    }

    // A question that was forgotten leaves no trace: once the lessons are there, which come last, none is asked again.
    private async Task Named(IReadOnlyList<SeedNamed> named, bool all, Action<string> did, CancellationToken ct)
    {
        foreach (var one in named)
        {
            if (!all && !(await service.All(one.Address, ct)).Exists(o => o["name"]?.ToString() == one.Name))
            {
                await service.Write(one.File, HttpMethod.Post, one.Address, one.Post, null, ct);
            }

            did(one.Name);
        }
    }
}
