using System.Text.Json;

namespace HeirloomArchive.Catalogue;

/// <summary>One caution, shown where the work can hurt someone or something.</summary>
/// <param name="Code">Its name for programs: <c>no-fibre-tests</c>.</param>
/// <param name="Text">One or two plain sentences, as they are shown.</param>
/// <param name="Reason">Why, in one sentence.</param>
/// <param name="Source">The published text it was read in, or null where it is common practice.</param>
public sealed record Caution(string Code, string Text, string Reason, string? Source);

/// <summary>All cautions, kept in one place: <c>Cautions.json</c>.</summary>
public static class Cautions
{
    private static readonly JsonSerializerOptions Reading = new(JsonSerializerDefaults.Web);

    private static readonly IReadOnlyList<Entry> Entries = Read();
    private static readonly Dictionary<string, List<Caution>> ByPlace = By(e => e.Places);
    private static readonly Dictionary<string, List<Caution>> ByFinding = By(e => e.Findings ?? []);
    private static readonly Dictionary<string, List<Caution>> ByKind = By(e => e.Kinds ?? []);

    /// <summary>All of them, each once, in reading order.</summary>
    public static IReadOnlyList<Caution> All { get; } = [.. Entries.Select(Shown)];

    /// <summary>Where cautions show: <c>table, hands, arrival, keeping, labels, children, work, marking</c>.</summary>
    public static IReadOnlyCollection<string> Places => ByPlace.Keys;

    /// <summary>The cautions of one place, in reading order; the last always defers to a textile conservator and to local rules.</summary>
    /// <exception cref="ArgumentException">There is no such place.</exception>
    public static IReadOnlyList<Caution> At(string place) =>
        ByPlace.TryGetValue(place, out var cautions)
            ? cautions
            : throw new ArgumentException($"\"{place}\" is no place for cautions; the places are {string.Join(", ", Places)}.", nameof(place));

    /// <summary>The cautions of one finding, by its slug: <c>mould</c>; none for most, and for an own word.</summary>
    public static IReadOnlyList<Caution> OfFinding(string? finding) => finding is not null && ByFinding.TryGetValue(finding, out var cautions) ? cautions : [];

    /// <summary>The cautions of one kind of garment, by its slug: those for what children wear.</summary>
    public static IReadOnlyList<Caution> OfKind(string? kind) => kind is not null && ByKind.TryGetValue(kind, out var cautions) ? cautions : [];

    private static Dictionary<string, List<Caution>> By(Func<Entry, IReadOnlyList<string>> names)
    {
        var by = new Dictionary<string, List<Caution>>();
        foreach (var entry in Entries)
        {
            foreach (var name in names(entry))
            {
                if (!by.TryGetValue(name, out var list)) by[name] = list = [];
                list.Add(Shown(entry));
            }
        }

        return by;
    }

    private static Caution Shown(Entry entry) => new(entry.Code, entry.Text, entry.Reason, entry.Source);

    private static IReadOnlyList<Entry> Read()
    {
        using var stream = typeof(Cautions).Assembly.GetManifestResourceStream("HeirloomArchive.Catalogue.Cautions.json")!;
        return JsonSerializer.Deserialize<CautionFile>(stream, Reading)!.Cautions;
    }

    private sealed record CautionFile(IReadOnlyList<Entry> Cautions);

    private sealed record Entry(string Code, IReadOnlyList<string> Places, IReadOnlyList<string>? Findings, IReadOnlyList<string>? Kinds, string Text, string Reason, string? Source);
}
