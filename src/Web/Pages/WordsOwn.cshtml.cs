using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages;

/// <summary>Her own words: those she typed, those she made, a form for a new one, and what can be done with one of them.</summary>
public sealed class WordsOwnModel(OwnWords own, GarmentIndex index) : PageModel
{
    /// <summary>What stands in the form, and what is wrong with it.</summary>
    public Form Form { get; private set; } = new([]);

    /// <summary>The facet of the form; null while she has not chosen.</summary>
    public string? Facet { get; private set; }

    /// <summary>The word of hers that is looked at; null for a new one.</summary>
    public Word? Word { get; private set; }

    public Thesaurus Words { get; private set; } = Catalogue.Words.Now;

    /// <summary>All words of hers, those merged too.</summary>
    public IReadOnlyList<Word> Mine => [.. Words.All.Where(w => w.IsOwn).Concat(Words.Merged).OrderBy(w => w.Label, StringComparer.CurrentCultureIgnoreCase)];

    /// <summary>Words she typed that are no words yet; null while the index is being built.</summary>
    public IReadOnlyList<OwnText>? Texts { get; private set; }

    /// <summary>What the word counts as.</summary>
    public Word? CountsAs(Word word) => word.MergedInto is null ? null : Words.Find(word.Facet, Words.Meant(word.Facet, word.Slug));

    public IActionResult OnGet(string? facet, string? label, string? word)
    {
        Choose(facet, word);
        if (word is not null && Word is null)
        {
            return NotFound();
        }

        var synonyms = Word is null ? "" : string.Join(", ", Said(Word));
        Form = new(new JsonObject { ["label"] = Word?.Label ?? label?.Trim() ?? "", ["definition"] = Word?.Definition ?? "", ["synonyms"] = synonyms, ["broader"] = Word?.Broader ?? "" }) { NameOf = Name };
        return Page();
    }

    public Task<IActionResult> OnPostAdd(string? facet, CancellationToken ct) => Do(facet, null, async () =>
    {
        var made = await own.Add(Facet ?? throw new FaultException("facet", T("Choose what the word is of: a lace, a part, a stitch.")), Sent(), Versions.Who, ct);
        return Request.Form["into"].ToString() is { Length: > 0 } into ? await own.Merge(made.Facet, made.Slug, into, Versions.Who, ct) : made;
    });

    public Task<IActionResult> OnPostChange(string? word, CancellationToken ct) =>
        Do(null, word, async () => await own.Change(Word!.Facet, Word.Slug, Sent(), Versions.Who, ct));

    public Task<IActionResult> OnPostMerge(string? word, string? into, CancellationToken ct) => Do(null, word, async () => string.IsNullOrEmpty(into)
        ? throw new FaultException("into", T("Choose the word that it shall count as."))
        : await own.Merge(Word!.Facet, Word.Slug, into, Versions.Who, ct));

    public Task<IActionResult> OnPostUnmerge(string? word, CancellationToken ct) =>
        Do(null, word, async () => await own.Unmerge(Word!.Facet, Word.Slug, Versions.Who, ct));

    public Task<IActionResult> OnPostRemove(string? word, CancellationToken ct) => Do(null, word, async () =>
    {
        await own.Remove(Word!.Facet, Word.Slug, ct);
        return null;
    });

    private async Task<IActionResult> Do(string? facet, string? word, Func<Task<Word?>> act)
    {
        Choose(facet, word);
        if (word is not null && Word is null)
        {
            return NotFound();
        }

        var posted = new JsonObject();
        foreach (var name in (string[])["label", "definition", "synonyms", "broader", "into"])
        {
            posted[name] = Request.Form[name].ToString();
        }

        Form = new(posted) { NameOf = Name };
        try
        {
            return await act() is { } done && CountsAs(done) is null && done.MergedInto is null ? Redirect(WordsModel.Place(done)) : RedirectToPage("/WordsOwn");
        }
        catch (FaultException e)
        {
            Form.Faults = [.. e.Faults.Select(f => f with { Path = f.Path.Split('[')[0] })];
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
        catch (WordConflictException e)
        {
            Form.Faults = [new(Request.Query["handler"] == "Remove" ? "" : "label", e.Message)];
            Response.StatusCode = StatusCodes.Status409Conflict;
        }

        return Page();
    }

    private void Choose(string? facet, string? word)
    {
        Texts = index.IsReady ? index.OwnTexts() : null;
        if (word?.Split('/', 2) is [var of, var slug])
        {
            Word = Words.Find(of, slug) is { IsOwn: true } found ? found : null;
            facet = Word?.Facet;
        }

        Facet = Words.FacetNames.Contains(facet ?? "") ? facet : null;
    }

    private JsonObject Sent()
    {
        var sent = new JsonObject { ["label"] = Form.Text("label"), ["definition"] = Form.Text("definition") };
        sent["synonyms"] = new JsonArray([.. Form.Text("synonyms").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(s => (JsonNode)s)]);
        if (Form.Text("broader") is { Length: > 0 } broader)
        {
            sent["broader"] = broader;
        }

        return sent;
    }

    // The names of words merged into it are theirs, not its own.
    private IEnumerable<string> Said(Word word)
    {
        var merged = Words.Merged.Where(m => m.Facet == word.Facet && Words.Meant(m.Facet, m.Slug) == word.Slug && m.Slug != word.Slug)
            .SelectMany(m => m.Synonyms.Prepend(m.Label)).ToHashSet();
        return word.Synonyms.Where(s => !merged.Contains(s));
    }

    private static string Name(string path) => path.Split('[')[0] switch
    {
        "label" => T("The word"),
        "definition" => T("What it means"),
        "synonyms" => T("Other names"),
        "broader" => T("A kind of"),
        "into" => T("Counts as"),
        _ => T("What it is of"),
    };
}
