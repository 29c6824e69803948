using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Checking;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>Whether every original is still what it was, as the last check found it.</summary>
public sealed class CheckModel(OriginalsCheck check, IDocumentStore documents, IHostApplicationLifetime life) : PageModel
{
    private readonly Dictionary<Guid, string> names = [];

    /// <summary>The last that was finished.</summary>
    public OriginalsReport? Last { get; private set; }

    /// <summary>The one that runs.</summary>
    public OriginalsReport? Running { get; private set; }

    /// <summary>What a garment is called; a picture that belongs to none shows a worksheet as it came out.</summary>
    public string NameOf(Guid garment) => names.GetValueOrDefault(garment) ?? T("A worksheet as it came out");

    public async Task OnGet(CancellationToken ct)
    {
        (Last, Running) = await check.Look(ct);
        var owners = (Last is null ? [] : Last.Missing.Concat(Last.Changed)).SelectMany(o => o.Pictures).Select(p => p.Garment).Distinct().ToArray();
        if (owners.Length > 0)
        {
            await using var session = documents.QuerySession();
            foreach (var garment in await session.LoadManyAsync<Garment>(ct, owners))
            {
                names[garment.Id] = $"{garment.Number} {garment.Name}".Trim();
            }
        }
    }

    public async Task<IActionResult> OnPost(CancellationToken ct)
    {
        await check.Begin(life.ApplicationStopping);
        return Redirect("/pictures/check");
    }
}
