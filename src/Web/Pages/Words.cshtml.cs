using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages;

/// <summary>The thesaurus, by facet and from broader to narrower, with the way to the pieces that have the word.</summary>
public sealed class WordsModel(GarmentIndex index) : PageModel
{
    // What she names most comes first.
    private static readonly string[] Order =
    [
        "kinds", "parts", "techniques", "tucks", "laces", "trims", "whitework", "stitches", "seams", "hems", "cloth", "findings", "repairs",
        "fastenings", "motifs", "measures", "views",
    ];

    // These have no parameter of their own; the sentence box knows them.
    private static readonly string[] Typed = ["hems", "motifs"];

    private HashSet<string> shown = [];

    public string Q { get; private set; } = "";

    /// <summary>The facets with something to show.</summary>
    public IReadOnlyList<string> Facets { get; private set; } = [];

    public Thesaurus Words { get; } = Catalogue.Words.Now;

    /// <summary>Words she typed that are no words yet; null while the index is being built.</summary>
    public IReadOnlyList<OwnText>? OwnTexts { get; private set; }

    public void OnGet(string? q)
    {
        Q = q?.Trim() ?? "";
        var sought = Thesaurus.Fold(Q);
        foreach (var word in Words.All.Where(w => Meets(w, sought)))
        {
            // A word is shown below those above it.
            for (var at = word; at is not null && shown.Add(at.Id); at = at.Broader is { } up ? Words.Find(at.Facet, up) : null)
            {
            }
        }

        Facets = [.. Order.Where(f => Words.In(f).Any(w => shown.Contains(w.Id)))];
        OwnTexts = index.IsReady ? index.OwnTexts() : null;
    }

    /// <summary>The words at the top of a facet that are to be shown.</summary>
    public IEnumerable<WordView> Top(string facet) => Words.Top(facet).Where(w => shown.Contains(w.Id)).Select(w => new WordView(this, w));

    /// <summary>Those below one.</summary>
    public IEnumerable<WordView> Below(Word word) => Words.Narrower(word).Where(w => shown.Contains(w.Id)).Select(w => new WordView(this, w));

    /// <summary>The facets in the order in which they are shown.</summary>
    public static IEnumerable<string> AllFacets => Order;

    /// <summary>The address of a word on the page.</summary>
    public static string Place(Word word) => $"/words#{word.Facet}-{word.Slug}";

    /// <summary>The pieces that have this word; null for a facet that is not searched by.</summary>
    public static string? Pieces(Word word) =>
        Parameter.All.FirstOrDefault(p => p.Words == word.Facet) is { } parameter ? $"/examples?{parameter.Name}={word.Slug}"
        : Typed.Contains(word.Facet) ? $"/examples?q={Uri.EscapeDataString(word.Label)}"
        : null;

    private static bool Meets(Word word, string sought) => sought.Length == 0
        || word.Synonyms.Prepend(word.Label).Any(name => Thesaurus.Fold(name).Contains(sought, StringComparison.Ordinal));
}

/// <summary>One word with those below it, for <c>_Word.cshtml</c>.</summary>
public sealed record WordView(WordsModel Page, Word Word);
