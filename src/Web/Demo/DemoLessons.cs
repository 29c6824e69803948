using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Demo;

/// <summary>A lesson of the demonstration.</summary>
internal sealed record SeedLesson(string File, string Name, JsonObject Post);

/// <summary>Makes the lessons of the demonstration that are not there yet; one that somebody took away stays away.</summary>
internal sealed class DemoLessons(DemoClient service, IReadOnlyDictionary<string, string> garments)
{
    private static readonly Dictionary<string, string> Names = new()
    {
        ["techniques"] = "technique", ["repairs"] = "repair", ["condition"] = "finding", ["pictures"] = "picture",
    };

    /// <summary>Whether each was made before.</summary>
    public async Task<bool> AreThere(IReadOnlyList<SeedLesson> lessons, CancellationToken ct)
    {
        var there = await There(ct);
        return lessons.All(l => there.Contains(l.Name));
    }

    public async Task Make(IReadOnlyList<SeedLesson> lessons, Action<string> did, CancellationToken ct)
    {
        var there = await There(ct);
        var sheets = (await service.All("/api/worksheets", ct)).GroupBy(s => s["title"]!.ToString()).ToDictionary(g => g.Key, g => g.Last()["id"]!.ToString());
        foreach (var lesson in lessons)
        {
            if (!there.Contains(lesson.Name))
            {
                var post = lesson.Post.DeepClone().AsObject();
                foreach (var entry in (post["entries"] as JsonArray ?? []).OfType<JsonObject>()) await Resolve(lesson.File, entry, sheets, ct);
                await service.Write(lesson.File, HttpMethod.Post, "/api/lessons", new SeedReferences(lesson.File, garments).Resolve(post, null)!, null, ct);
            }

            did($"Lesson: {lesson.Name}");
        }
    }

    private async Task<HashSet<string?>> There(CancellationToken ct) =>
        [.. (await service.All("/api/lessons", ct)).Concat(await service.All("/api/lessons?away=true", ct)).Select(l => l["name"]?.ToString())];

    // "@H-002:techniques[0]" is that piece and that entry of it; a worksheet goes by its title.
    private async Task Resolve(string file, JsonObject entry, Dictionary<string, string> sheets, CancellationToken ct)
    {
        if (entry["worksheet"]?.ToString() is { } title)
        {
            entry["worksheet"] = sheets.GetValueOrDefault(title) ?? throw new DemoException(file, $"There is no worksheet \"{title}\".");
        }
        else if (entry["garment"]?.ToString().Split(':') is [var number, var place])
        {
            var references = new SeedReferences(file, garments);
            var piece = await service.Get(file, $"/api/garments/{references.Resolve(JsonValue.Create(number), null)}", ct);
            var (list, shown) = references.Entry(place, piece);
            entry["garment"] = piece["id"]!.ToString();
            entry[Names[list]] = shown["id"]!.ToString();
        }
    }
}
