using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>What is said of a word: its name, meaning, other names, place.</summary>
/// <param name="Label">As it is shown.</param>
/// <param name="Definition">Empty where none was given.</param>
/// <param name="Synonyms">Other names.</param>
/// <param name="Broader">The slug above, or null.</param>
/// <param name="MergedInto">The slug of the word it counts as, or null.</param>
public sealed record Saying(string Label, string Definition, IReadOnlyList<string> Synonyms, string? Broader, string? MergedInto)
{
    private static readonly RecordType Shape = new(
    [
        new("label", new TextType(100, lines: false)), new("definition", new TextType(1_000, lines: false)),
        new("synonyms", new ListType(new TextType(100, lines: false), 30)), new("broader", new TextType(100, lines: false)),
    ]);

    /// <summary>Reads <c>{"label","definition","synonyms","broader"}</c>, of which only the label is needed.</summary>
    /// <exception cref="FaultException">It can't be read, or has no label.</exception>
    public static Saying Read(JsonObject sent)
    {
        var faults = new List<Fault>();
        var read = Shape.Read(sent, "", faults) as JsonObject ?? [];
        var label = Text(read["label"]);
        if (label is null && !faults.Exists(f => f.Path == "label"))
        {
            faults.Add(new("label", T("A word needs a name to be shown by, such as {\"label\":\"Ladder lace\"}.")));
        }

        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }

        var names = (read["synonyms"] as JsonArray ?? []).Select(s => s!.GetValue<string>());
        return new(label!, Text(read["definition"]) ?? "", [.. names.DistinctBy(Thesaurus.Fold).Where(s => Thesaurus.Fold(s) != Thesaurus.Fold(label!))],
            Text(read["broader"]), null);
    }

    private static string? Text(JsonNode? node) => node?.GetValue<string>();
}

/// <summary>A word of her own as it is kept: what is said of it now, and all that was said before.</summary>
public sealed class OwnWord
{
    /// <summary><c>laces/ladder-lace</c>; it stays whatever the label becomes, for records hold it.</summary>
    public string Id { get; set; } = "";

    /// <summary>What is said of it now.</summary>
    public Saying Now { get; set; } = new("", "", [], null, null);

    /// <summary>Who said so, and when.</summary>
    public string Who { get; set; } = "";

    /// <summary>When it was last changed.</summary>
    public DateTimeOffset When { get; set; }

    /// <summary>When it was made.</summary>
    public DateTimeOffset Made { get; set; }

    /// <summary>What was said before, oldest first: nothing is lost.</summary>
    public IList<Earlier> Before { get; set; } = [];

    /// <summary>The facet it is in.</summary>
    public string Facet => Id[..Id.IndexOf('/', StringComparison.Ordinal)];

    /// <summary>Its value in records.</summary>
    public string Slug => Id[(Facet.Length + 1)..];

    /// <summary>As a word among the others.</summary>
    public Word ToWord() => new(Facet, Slug, Now.Label, Now.Definition, Now.Synonyms, Now.Broader) { IsOwn = true, MergedInto = Now.MergedInto };

    /// <summary>Says something else of it from now on; the same again changes nothing.</summary>
    public bool Say(Saying saying, string who, DateTimeOffset when)
    {
        if (saying with { Synonyms = Now.Synonyms } == Now && saying.Synonyms.SequenceEqual(Now.Synonyms))
        {
            return false;
        }

        Before.Add(new(Now, Who, When));
        (Now, Who, When) = (saying, who, when);
        return true;
    }

    /// <summary>The slug of a label: Latin letters and figures in lower case with hyphens; another script gets one made from it.</summary>
    public static string SlugOf(string label)
    {
        var slug = new StringBuilder();
        foreach (var c in Thesaurus.Fold(label))
        {
            if (char.IsAsciiLetterOrDigit(c))
            {
                slug.Append(c);
            }
            else if (slug.Length > 0 && slug[^1] != '-')
            {
                slug.Append('-');
            }
        }

        var made = slug.ToString().Trim('-');
        return made.Any(char.IsAsciiLetter) ? made
            : "word-" + Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(label)))[..8].ToLower(CultureInfo.InvariantCulture);
    }
}

/// <summary>What was said of a word before, by whom and since when.</summary>
public sealed record Earlier(Saying Said, string Who, DateTimeOffset When);
