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

    private static readonly Dictionary<string, List<Caution>> ByPlace = Read();

    /// <summary>Where cautions show: <c>table, hands, arrival, keeping, labels, children, work, marking</c>.</summary>
    public static IReadOnlyCollection<string> Places => ByPlace.Keys;

    /// <summary>The cautions of one place, in reading order; the last always defers to a textile conservator and to local rules.</summary>
    /// <exception cref="ArgumentException">There is no such place.</exception>
    public static IReadOnlyList<Caution> At(string place) =>
        ByPlace.TryGetValue(place, out var cautions)
            ? cautions
            : throw new ArgumentException($"\"{place}\" is no place for cautions; the places are {string.Join(", ", Places)}.", nameof(place));

    private static Dictionary<string, List<Caution>> Read()
    {
        using var stream = typeof(Cautions).Assembly.GetManifestResourceStream("HeirloomArchive.Catalogue.Cautions.json")!;
        var file = JsonSerializer.Deserialize<CautionFile>(stream, Reading)!;
        var places = new Dictionary<string, List<Caution>>();
        foreach (var entry in file.Cautions)
        {
            foreach (var place in entry.Places)
            {
                if (!places.TryGetValue(place, out var list)) places[place] = list = [];
                list.Add(new Caution(entry.Code, entry.Text, entry.Reason, entry.Source));
            }
        }

        return places;
    }

    private sealed record CautionFile(IReadOnlyList<Entry> Cautions);

    private sealed record Entry(string Code, IReadOnlyList<string> Places, string Text, string Reason, string? Source);
}
