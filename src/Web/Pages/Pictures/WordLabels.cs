using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>All words by their labels, as they are typed and offered: "Torchon", or where two are called alike "Running (stitches)".</summary>
public static class WordLabels
{
    /// <summary>Every label that is offered, in the order of the alphabet.</summary>
    public static IEnumerable<string> All => Words.All.Select(Label).Order(StringComparer.OrdinalIgnoreCase);

    /// <summary>The label of <c>facet/slug</c>.</summary>
    public static string Of(string word) =>
        word.Split('/') is [var facet, var slug] && Words.Find(facet, slug) is { } found ? Label(found) : word;

    /// <summary>The <c>facet/slug</c> that a label or a synonym means; null if none, or several.</summary>
    public static string? Find(string typed)
    {
        var exact = Words.All.Where(w => Same(Label(w), typed) || Same(w.Id, typed)).ToList();
        var found = exact.Count > 0 ? exact : [.. Words.All.Where(w => Same(w.Label, typed) || w.Synonyms.Any(s => Same(s, typed)))];
        return found.Count == 1 ? found[0].Id : null;
    }

    private static string Label(Word word) => Words.All.Count(w => Same(w.Label, word.Label)) > 1 ? $"{word.Label} ({word.Facet})" : word.Label;

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
