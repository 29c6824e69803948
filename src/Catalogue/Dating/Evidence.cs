using System.Text.Json;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Dating;

/// <summary>One year that a thing seen points to, with its reason and where that was found.</summary>
/// <param name="NotBefore">It did not exist earlier; else null.</param>
/// <param name="UnlikelyBefore">It was not usual earlier; else null.</param>
/// <param name="Reason">Why, in a sentence or two.</param>
/// <param name="Source">The text it is from.</param>
/// <param name="Read">Whether that text was read; else it is from memory, and is shown as such.</param>
public sealed record DatingMark(int? NotBefore, int? UnlikelyBefore, string Reason, string Source, bool Read)
{
    /// <summary>The year, whichever it is.</summary>
    public int Year => NotBefore ?? UnlikelyBefore ?? throw new InvalidOperationException("A mark without a year.");
}

/// <summary>Something that can be seen on a piece and says how old it is at most.</summary>
/// <param name="Id">Its name for programs: <c>zip-coil</c>.</param>
/// <param name="Seen">What is seen, as a line to tick.</param>
/// <param name="Found">Fields of a technique that show it, each with the values that do; one such set is enough.</param>
/// <param name="Fibre">Words in the cloth's fibre or a technique's thread that show it.</param>
/// <param name="Marks">The years it points to.</param>
public sealed record Evidence(
    string Id, string Seen, IReadOnlyList<IReadOnlyDictionary<string, IReadOnlyList<string>>> Found, IReadOnlyList<string>? Fibre, IReadOnlyList<DatingMark> Marks)
{
    private static readonly JsonSerializerOptions Reading = new(JsonSerializerDefaults.Web);
    private static readonly EvidenceFile File = ReadFile();

    /// <summary>All of it, in the groups it is asked in.</summary>
    public static IReadOnlyList<EvidenceGroup> Groups => File.Groups;

    /// <summary>What is worth knowing and narrows nothing.</summary>
    public static IReadOnlyList<DatingNote> Notes => File.Notes;

    /// <summary>The entries of a garment that show it: techniques that are not recorded as later, and cloths. Repairs are never among them.</summary>
    public IEnumerable<JsonObject> In(JsonObject garment)
    {
        var techniques = Entries(garment, "techniques").Where(t => !IsLater(t)).Where(t => Found.Any(f => f.All(p => Says(t[p.Key], p.Value))) || SaysFibre(t["thread"]));
        return techniques.Concat(Entries(garment, "materials").Where(m => SaysFibre(m["fibre"]) || SaysFibre((m["word"] as JsonObject)?["own"])));
    }

    /// <summary>Whether an entry is recorded as not of the piece's own time.</summary>
    internal static bool IsLater(JsonObject technique) => technique["original"] is JsonValue original && original.TryGetValue<bool>(out var yes) && !yes;

    internal static IEnumerable<JsonObject> Entries(JsonObject garment, string list) => (garment[list] as JsonArray ?? []).OfType<JsonObject>();

    // A slug is meant as it stands; her own word may say more around it.
    private static bool Says(JsonNode? value, IReadOnlyList<string> values) => value switch
    {
        JsonObject own => values.Any(v => own["own"]?.ToString().Contains(v, StringComparison.OrdinalIgnoreCase) == true),
        JsonValue slug => values.Contains(slug.ToString()),
        _ => false,
    };

    private bool SaysFibre(JsonNode? text) => text is JsonValue && Fibre?.Any(f => HasWord(text.ToString(), f)) == true;

    private static bool HasWord(string text, string word)
    {
        for (var at = text.IndexOf(word, StringComparison.OrdinalIgnoreCase); at >= 0; at = text.IndexOf(word, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            if ((at == 0 || !char.IsLetter(text[at - 1])) && (at + word.Length == text.Length || !char.IsLetter(text[at + word.Length])))
            {
                return true;
            }
        }

        return false;
    }

    private static EvidenceFile ReadFile()
    {
        using var stream = typeof(Evidence).Assembly.GetManifestResourceStream("HeirloomArchive.Catalogue.Dating.Evidence.json")!;
        return JsonSerializer.Deserialize<EvidenceFile>(stream, Reading)!;
    }

    private sealed record EvidenceFile(IReadOnlyList<EvidenceGroup> Groups, IReadOnlyList<DatingNote> Notes);
}

/// <summary>Evidence that is looked for together.</summary>
public sealed record EvidenceGroup(string Name, IReadOnlyList<Evidence> Evidence);

/// <summary>Something worth knowing that narrows nothing.</summary>
public sealed record DatingNote(string Id, string Text, string Source, bool Read);
