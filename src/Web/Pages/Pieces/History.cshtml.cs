using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>All that was changed of a piece, the latest first.</summary>
public sealed class HistoryModel(Archive archive) : PageModel
{
    private const int Size = 30;

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    public long Version { get; private set; }

    public IReadOnlyList<ChangeView> Changes { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    public async Task<IActionResult> OnGet(Guid id, int number = 1, CancellationToken ct = default)
    {
        if (number < 1 || number > 100_000 || await archive.Find(id, ct) is not { } garment)
        {
            return NotFound();
        }

        (Id, Name, Version) = (id, garment.Name, garment.Version);
        var history = await archive.History(id, number, Size, ct);
        Changes = [.. history["items"]!.AsArray().OfType<JsonObject>().Select(i => ChangeView.Of(i, garment.Fields))];
        Pager = new(number, Size, Say.Number(history["total"]), n => $"/pieces/{id}/history?number={n}");
        return Changes.Count > 0 ? Page() : NotFound();
    }
}
