using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>How far a change of many pieces is, what was left as it was and why, and its undo.</summary>
public sealed class ManyRunModel(ManyAtOnce many, PieceList list) : PageModel
{
    private const int Size = 50;

    public ManyProgress Progress { get; private set; } = null!;

    public IReadOnlyList<(ManyPiece Piece, string Name, string Why)> Left { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    public string Heading => (Progress.Many.Open, Progress.Many.Undoing) switch
    {
        (true, null) => T("Being done"),
        (false, null) => T("Done"),
        (true, _) => T("Being undone"),
        _ => T("Undone"),
    };

    public FactsView Facts => new([.. new[]
    {
        (T("Changed"), Progress.Count(ManyOutcome.Changed)), (T("So already"), Progress.Count(ManyOutcome.Same)), (T("Put back as they were"), Progress.Count(ManyOutcome.Undone)),
        (T("Not begun"), Progress.Count(ManyOutcome.Stopped)), (T("Left as they are"), Progress.Count(ManyProgress.LeftAlone)),
    }.Where(f => f.Item2 > 0).Select(f => (f.Item1, Written.Number(f.Item2)))], Across: true);

    public async Task<IActionResult> OnGet(Guid id, int number = 1, CancellationToken ct = default)
    {
        if (number is < 1 or > 10_000)
        {
            return NotFound();
        }

        try
        {
            Progress = await many.Find(id, ct);
        }
        catch (NotFoundException)
        {
            return NotFound();
        }

        var left = await many.Left(id, number, Size, ct);
        var rows = (await list.Find([.. left.Select(p => p.Garment)], ct)).ToDictionary(r => r.Id);
        Left = [.. left.Select(p => (p, rows.GetValueOrDefault(p.Garment) is { } row ? $"{row.Number} {row.Name}".Trim() : T("A piece"), Why(p)))];
        Pager = new(number, Size, Progress.Count(ManyProgress.LeftAlone), n => $"/pieces/many/{id}?number={n}");
        return Page();
    }

    public async Task<IActionResult> OnPostUndo([FromRoute] Guid id, CancellationToken ct)
    {
        try
        {
            await many.Undo(id, ct);
            return Redirect($"/pieces/many/{id}");
        }
        catch (NotFoundException)
        {
            return NotFound();
        }
    }

    private static string Why(ManyPiece piece) => piece.Outcome switch
    {
        ManyOutcome.Aside => T("It is set aside."),
        ManyOutcome.ChangedSince => T($"Changed since, so left alone: {string.Join(", ", (piece.Why ?? "").Split(", ").Select(f => ChangeWords.Place(f).ToLowerInvariant()))}."),
        _ => piece.Why ?? "",
    };
}
