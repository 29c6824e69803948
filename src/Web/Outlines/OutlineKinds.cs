using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Outlines;

/// <summary>Which drawing shows which kind of garment, and which parts that kind usually has; read once from the files of this folder.</summary>
public static class OutlineKinds
{
    private static readonly JsonSerializerOptions Reading = new(JsonSerializerDefaults.Web);

    private static readonly Dictionary<string, Outline> Shapes = Names().Where(n => n.EndsWith(".svg", StringComparison.Ordinal))
        .Select(Drawing).ToDictionary(o => o.Shape);

    private static readonly Dictionary<string, KindRow> Kinds = Table();

    private static readonly HashSet<string> Drawn = [.. Kinds.Values.SelectMany(k => k.Usual.Split(' '))];

    /// <summary>Every drawing.</summary>
    public static IEnumerable<Outline> All => Shapes.Values;

    /// <summary>The drawing of a kind or, if it has none of its own, of what is broader; null for a kind in her own words.</summary>
    public static Outline? For(JsonNode? kind) => Row(kind) is { } row ? Shapes[row.Shape] : null;

    /// <summary>The parts that the kind usually has; none if that is not known.</summary>
    public static IReadOnlyCollection<string> Usual(JsonNode? kind) => Row(kind)?.Usual.Split(' ') ?? [];

    /// <summary>Whether a part is usual for a kind, by itself or as a piece of one that is: a sleeve's frill where there are sleeves. So is any part where the kind is not known, and one that no drawing tells apart.</summary>
    public static bool IsUsual(JsonNode? kind, string part) =>
        Usual(kind) is not { Count: > 0 } usual || !WithBroader(part).Any(Drawn.Contains) || WithBroader(part).Any(usual.Contains);

    /// <summary>A part, then what it is a part of, and so on.</summary>
    public static IEnumerable<string> WithBroader(string part)
    {
        for (var slug = part; slug is not null; slug = Words.Find("parts", slug)?.Broader)
        {
            yield return slug;
        }
    }

    private static KindRow? Row(JsonNode? kind)
    {
        for (var slug = (kind as JsonValue)?.ToString(); slug is not null; slug = Words.Find("kinds", slug)?.Broader)
        {
            if (Kinds.TryGetValue(slug, out var row))
            {
                return row;
            }
        }

        return null;
    }

    private static Outline Drawing(string name)
    {
        using var file = Open(name);
        return Outline.Read(Path.GetFileNameWithoutExtension(name), file);
    }

    private static Dictionary<string, KindRow> Table()
    {
        using var file = Open("outlines/kinds.json");
        return JsonSerializer.Deserialize<Dictionary<string, KindRow>>(file, Reading)!;
    }

    private static IEnumerable<string> Names() =>
        typeof(OutlineKinds).Assembly.GetManifestResourceNames().Where(n => n.StartsWith("outlines/", StringComparison.Ordinal));

    private static Stream Open(string name) => typeof(OutlineKinds).Assembly.GetManifestResourceStream(name)!;

    private sealed record KindRow(string Shape, string Usual);
}
