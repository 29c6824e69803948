using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Demo;

/// <summary>A place that is marked on a picture of a piece.</summary>
/// <param name="Picture">Which of its pictures, from 0.</param>
/// <param name="Shows">The entry it shows: <c>techniques[0]</c>.</param>
/// <param name="At">Left, top, width and height in pixels of the picture: <c>125,915,650,90</c>.</param>
/// <param name="Note">What else is to be said of it.</param>
internal sealed record SeedMark(int Picture, string Shows, string At, string? Note);

/// <summary>Marks places on the demonstration's pictures, those of each picture in order; what was marked or taken away before is left alone.</summary>
internal sealed class DemoMarks(DemoClient service)
{
    public async Task Make(SeedPiece piece, string address, SeedReferences references, CancellationToken ct)
    {
        var garment = await service.Get(piece.File, address, ct);
        var pictures = garment["pictures"] as JsonArray ?? [];
        foreach (var marks in piece.Marks.GroupBy(m => m.Picture).Where(m => m.Key < pictures.Count && garment["setAside"] is null))
        {
            var picture = pictures[marks.Key]!["id"]!.ToString();
            var regions = $"/api/pictures/{picture}/regions";
            var known = await Count(piece, regions, ct) + await Count(piece, $"{regions}?gone=true", ct);
            foreach (var mark in marks.Skip(known))
            {
                var (list, entry) = references.Entry(mark.Shows, garment);
                await service.Write(piece.File, HttpMethod.Post, regions, Annotation(garment, picture, mark, $"{address}/{list}/{entry["id"]}"), null, ct);
            }
        }
    }

    private async Task<int> Count(SeedPiece piece, string regions, CancellationToken ct) =>
        (await service.Get(piece.File, regions, ct))["items"]!.AsArray().Count;

    private static JsonObject Annotation(JsonObject garment, string picture, SeedMark mark, string shown)
    {
        var bodies = new JsonArray(new JsonObject { ["type"] = "SpecificResource", ["purpose"] = "identifying", ["source"] = shown });
        if (mark.Note is { } note) bodies.Add(new JsonObject { ["type"] = "TextualBody", ["value"] = note, ["format"] = "text/plain" });
        return new()
        {
            ["@context"] = "http://www.w3.org/ns/anno.jsonld", ["type"] = "Annotation", ["body"] = bodies,
            ["target"] = new JsonObject
            {
                ["type"] = "SpecificResource", ["source"] = $"/iiif/garments/{garment["id"]}/canvas/{picture}",
                ["selector"] = new JsonObject { ["type"] = "FragmentSelector", ["conformsTo"] = "http://www.w3.org/TR/media-frags/", ["value"] = $"xywh={mark.At}" },
            },
        };
    }
}
