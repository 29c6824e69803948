using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Questions;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Questions;

/// <summary>A kept question, with what fits it now.</summary>
/// <param name="Question">As it is kept.</param>
/// <param name="Total">How many pieces fit.</param>
/// <param name="Fresh">How many of them did not when she last looked.</param>
/// <param name="Newest">The newest of those, to be named.</param>
public sealed record Kept(Question Question, long Total, int Fresh, IReadOnlyList<TileView> Newest)
{
    /// <summary>The question on the page of examples.</summary>
    public string To => $"/examples{(Question.Search.Length > 0 ? "?" + Question.Search : "")}";
}

/// <summary>The questions she keeps, each with a mark when something new fits.</summary>
public sealed class IndexModel(QuestionBook book, QuestionSearch search, Archive archive) : PageModel
{
    private const int Named = 3;

    public IReadOnlyList<Kept> Questions { get; private set; } = [];

    public Form Form { get; private set; } = new([]);

    /// <summary>The search to be kept; null when she only looks at the list.</summary>
    public string? Search { get; private set; }

    public async Task<IActionResult> OnGet(CancellationToken ct)
    {
        // Everything else in the address is the search that is to be kept.
        Search = Request.QueryString.Value is { Length: > 1 } asked ? asked[1..] : null;
        return await Show(ct);
    }

    public async Task<IActionResult> OnPost(string? name, string? asked, CancellationToken ct)
    {
        (Search, Form) = (asked ?? "", new(new JsonObject { ["name"] = name }));
        try
        {
            await book.Keep(new JsonObject { ["name"] = name, ["search"] = Search }, search.Find, ct);
            return Redirect("/questions");
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return await Show(ct);
        }
    }

    /// <summary>She looks: what fits now is seen, and she is shown it.</summary>
    public Task<IActionResult> OnPostLook(Guid question, CancellationToken ct) => Do(async () =>
    {
        var looked = await book.Look(question, search.Find, ct);
        return new Kept(looked, 0, 0, []).To;
    });

    public Task<IActionResult> OnPostForget(Guid question, CancellationToken ct) => Do(async () =>
    {
        await book.Forget(question, ct);
        return "/questions";
    });

    private async Task<IActionResult> Do(Func<Task<string>> change)
    {
        try
        {
            return Redirect(await change());
        }
        catch (NotFoundException)
        {
            return NotFound();
        }
    }

    private async Task<IActionResult> Show(CancellationToken ct)
    {
        var kept = new List<Kept>();
        foreach (var question in await book.All(ct))
        {
            var (total, fresh) = search.New(question);
            var newest = new List<TileView>();
            foreach (var id in fresh.Take(Named))
            {
                if (await archive.Find(id, ct) is { } garment)
                {
                    newest.Add(TileView.Of(garment));
                }
            }

            kept.Add(new(question, total, fresh.Count, newest));
        }

        // What has something new comes first.
        Questions = [.. kept.OrderByDescending(k => k.Fresh > 0)];
        return Page();
    }
}
