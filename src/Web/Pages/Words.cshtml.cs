using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages;

/// <summary>The thesaurus, by facet, with the way to the pieces that have the word.</summary>
public sealed class WordsModel : PageModel
{
    private static readonly Dictionary<string, string> Titles = new()
    {
        ["kinds"] = "Kinds of piece", ["parts"] = "Parts of a piece", ["techniques"] = "Techniques", ["tucks"] = "Tucks", ["laces"] = "Laces",
        ["trims"] = "Embroidered trims", ["whitework"] = "Whitework", ["stitches"] = "Stitches", ["seams"] = "Seams", ["hems"] = "Hems",
        ["cloth"] = "Cloth", ["findings"] = "Findings", ["repairs"] = "Repairs", ["fastenings"] = "Fastenings", ["motifs"] = "Motifs",
        ["measures"] = "Measures", ["views"] = "Views of a picture",
    };

    public string Q { get; private set; } = "";

    public IReadOnlyList<(string Facet, IReadOnlyList<Word> Words)> Facets { get; private set; } = [];

    public void OnGet(string? q)
    {
        Q = q?.Trim() ?? "";
        Facets =
        [
            .. Titles.Keys.Select(f => (f, (IReadOnlyList<Word>)[.. Catalogue.Words.In(f).Where(Meets).OrderBy(w => w.Label, StringComparer.OrdinalIgnoreCase)]))
                .Where(f => f.Item2.Count > 0),
        ];
    }

    public static string Title(string facet) => Titles[facet];

    /// <summary>The pieces that have this word; null for a facet that is not searched by.</summary>
    public static string? Examples(Word word) =>
        Parameter.All.FirstOrDefault(p => p.Words == word.Facet) is { } parameter ? $"/examples?{parameter.Name}={word.Slug}" : null;

    private bool Meets(Word word) => Q.Length == 0
        || word.Label.Contains(Q, StringComparison.CurrentCultureIgnoreCase)
        || word.Synonyms.Any(s => s.Contains(Q, StringComparison.CurrentCultureIgnoreCase));
}
