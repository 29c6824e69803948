using HeirloomArchive.Catalogue.Questions;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using Microsoft.AspNetCore.WebUtilities;

namespace HeirloomArchive.Web.Api;

/// <summary>Asks the index what a kept question finds; the record itself is not read.</summary>
public sealed class QuestionSearch(GarmentIndex index)
{
    private const int Size = 100;
    private static readonly string[] Ours = ["page", "size", "sort", "seen"];

    /// <summary>What a search finds, newest piece first.</summary>
    /// <exception cref="FaultException">It is no search.</exception>
    /// <exception cref="IndexNotReadyException">There is no usable index yet.</exception>
    public Found Find(string search)
    {
        var found = Newest(search, _ => true);
        return new(found.Total, found.Ids);
    }

    /// <summary>How many pieces fit now, and those that did not when she last looked, newest first.</summary>
    public (long Total, IReadOnlyList<Guid> New) New(Question question)
    {
        var isNew = question.IsNew();
        try
        {
            // Of a broad question only what was entered since is told; that comes first, so the rest need not be turned to.
            var found = Newest(question.Search, id => !question.IsBroad || isNew(id));
            return (found.Total, [.. found.Ids.Where(isNew)]);
        }
        catch (FaultException)
        {
            // Kept when the search knew a parameter that it no longer knows: it finds nothing, and says so by its count.
            return (0, []);
        }
    }

    private (long Total, List<Guid> Ids) Newest(string search, Func<Guid, bool> goesOn)
    {
        var ids = new List<Guid>();
        for (var page = 1; ; page++)
        {
            var answer = index.Search(Request(search, page));
            var items = answer["items"]!.AsArray();
            ids.AddRange(items.Select(i => Guid.Parse(i!["id"]!.ToString())));
            if (items.Count < Size || ids.Count >= Question.MostKnown || !goesOn(ids[^1]))
            {
                return (Pages.Reading.Say.Number(answer["total"]), ids);
            }
        }
    }

    private static SearchRequest Request(string search, int page)
    {
        var asked = QueryHelpers.ParseQuery(search).Where(p => !Ours.Contains(p.Key)).SelectMany(p => p.Value, (p, v) => KeyValuePair.Create(p.Key, v));
        try
        {
            return SearchRequest.Read([.. asked, new("sort", "newest"), new("size", $"{Size}"), new("page", $"{page}")]);
        }
        catch (FaultException e)
        {
            throw new FaultException([.. e.Faults.Select(f => f with { Path = "search", Message = $"{f.Path}: {f.Message}" })]);
        }
    }
}
