using System.Text.Json;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Demo;

/// <summary>One piece of the demonstration: what is entered first, the changes that follow, one event each, and what is marked on its pictures.</summary>
internal sealed record SeedPiece(string File, string Number, JsonObject Post, IReadOnlyList<SeedStep> Steps, IReadOnlyList<SeedMark> Marks);

/// <summary>One later change of a piece.</summary>
/// <param name="Kind">
/// <c>add</c>, <c>change</c>, <c>patch</c>, <c>putBack</c>, <c>pictures</c> (their upload), <c>captions</c> (what the upload does not take) or <c>setAside</c>.
/// </param>
/// <param name="What">As the file has it.</param>
internal sealed record SeedStep(string Kind, JsonObject What);

/// <summary>A worksheet of the demonstration, and what came of it each time it was made up.</summary>
internal sealed record SeedSheet(string File, string Title, JsonObject Post, IReadOnlyList<JsonObject> MadeUp);

/// <summary>A small thing that goes by its name: a question kept, or a printer whose mark was measured; posted and listed at its address.</summary>
internal sealed record SeedNamed(string File, string Address, string Name, JsonObject Post);

/// <summary>Reads the seed folder; its README.md tells the shape of the files.</summary>
internal static class SeedFolder
{
    public static IReadOnlyList<SeedPiece> Pieces(string folder) => [.. Files(folder, "garments").Select(Piece)];

    public static IReadOnlyList<SeedSheet> Sheets(string folder) => [.. Files(folder, "worksheets").Select(Sheet)];

    public static IReadOnlyList<SeedNamed> Named(string folder) =>
    [
        .. new[] { "printers", "questions" }.SelectMany(
            of => Files(folder, of), (of, f) => new SeedNamed(f.File, $"/api/{of}", Text(f.Content, "name", f.File), f.Content)),
    ];

    public static IReadOnlyList<SeedLesson> Lessons(string folder) => [.. Files(folder, "lessons").Select(f => new SeedLesson(f.File, Text(f.Content, "name", f.File), f.Content))];

    public static string Text(JsonObject from, string name, string file) =>
        from[name] is JsonValue value && value.TryGetValue<string>(out var text) ? text : throw new DemoException(file, $"\"{name}\" is missing or no text.");

    private static SeedPiece Piece((string File, JsonObject Content) seed)
    {
        var post = seed.Content["post"] as JsonObject ?? throw new DemoException(seed.File, "\"post\", the piece to enter, is missing.");
        var steps = List(seed, "then").Select(step => new SeedStep(Kind(step, seed.File), step)).ToList();
        var pictures = List(seed, "pictures").ToList();
        foreach (var picture in pictures) Text(picture, "caption", seed.File);
        if (pictures.Count > 0) steps.AddRange([new("pictures", seed.Content), new("captions", seed.Content)]);

        // Nothing can be changed after it.
        if (seed.Content["setAside"] is JsonValue aside && aside.GetValue<bool>()) steps.Add(new("setAside", seed.Content));
        var marks = pictures.SelectMany((p, i) => (p["marks"] as JsonArray ?? []).OfType<JsonObject>().Select(m => new SeedMark(i, Text(m, "shows", seed.File), Text(m, "at", seed.File), m["note"]?.ToString())));
        return new(seed.File, Text(post, "number", seed.File), post, steps, [.. marks]);
    }

    private static SeedSheet Sheet((string File, JsonObject Content) seed)
    {
        var made = List(seed, "madeUp").ToList();
        seed.Content.Remove("madeUp");
        return new(seed.File, Text(seed.Content, "title", seed.File), seed.Content, made);
    }

    private static string Kind(JsonObject step, string file) =>
        new[] { "add", "change", "patch", "putBack" }.FirstOrDefault(step.ContainsKey)
        ?? throw new DemoException(file, $"A step of \"then\" is none of add, change, patch, putBack: {step.ToJsonString()}");

    private static IEnumerable<JsonObject> List((string File, JsonObject Content) seed, string name) =>
        (seed.Content[name] as JsonArray ?? []).Select(item => item as JsonObject ?? throw new DemoException(seed.File, $"\"{name}\" holds something that is no object."));

    private static IEnumerable<(string File, JsonObject Content)> Files(string folder, string part)
    {
        var from = Path.Combine(folder, part);
        if (!Directory.Exists(from)) throw new DemoException(part, $"There is no such folder in {folder}.");
        foreach (var path in Directory.EnumerateFiles(from, "*.json").Order(StringComparer.Ordinal))
        {
            var name = $"{part}/{Path.GetFileName(path)}";
            JsonObject? content;
            try
            {
                content = JsonNode.Parse(File.ReadAllText(path)) as JsonObject;
            }
            catch (JsonException e)
            {
                throw new DemoException(name, e.Message, e);
            }

            yield return (name, content ?? throw new DemoException(name, "It holds no JSON object."));
        }
    }
}
