using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Drawing;
using HeirloomArchive.Worksheets.Pdf;

namespace HeirloomArchive.Worksheets;

/// <summary>One thing shown in a lesson, ready to be printed.</summary>
/// <param name="Title">What it is.</param>
/// <param name="Of">The piece it is of, its kind and date.</param>
/// <param name="Facts">Measures and evidence.</param>
/// <param name="Note">What to look at; empty for none.</param>
public sealed record HandOutEntry(string Title, string Of, IReadOnlyList<(string Label, string Text)> Facts, string Note)
{
    /// <summary>The bytes (JPEG or PNG) of its picture, or null.</summary>
    public byte[]? Picture { get; init; }

    /// <summary>What the picture shows, for reading aloud.</summary>
    public string Alt { get; init; } = "";

    /// <summary>The recorded run, drawn to scale; null for none.</summary>
    public TuckPlan? Plan { get; init; }
}

/// <summary>A lesson's hand-out: what a class takes home.</summary>
/// <param name="Id">The lesson's id.</param>
/// <param name="Title">Its name.</param>
/// <param name="Changed">When the lesson was last changed: the date of the print.</param>
/// <param name="Under">For whom, how long.</param>
/// <param name="EachNeeds">What each pupil brings or is given.</param>
/// <param name="Entries">In their order.</param>
/// <param name="Cautions">What pupils are told, each with its reason.</param>
public sealed record HandOut(
    Guid Id, string Title, DateTimeOffset Changed, string Under, string EachNeeds, IReadOnlyList<HandOutEntry> Entries, IReadOnlyList<(string Text, string Reason)> Cautions)
{
    /// <summary>The PDF file, laid out like a worksheet's; the same bytes every time for the same content.</summary>
    /// <param name="paper"><c>A4</c> or <c>letter</c>.</param>
    /// <exception cref="FaultException">Another paper.</exception>
    public byte[] Print(string paper)
    {
        if (paper is not ("A4" or "letter"))
        {
            throw new FaultException("paper", T($"“{(paper.Length > 40 ? paper[..40] + "…" : paper)}” is not known here; it is A4 or letter."), FaultKind.Unreadable);
        }

        var printed = new Printed(Id, Title, Changed, WorksheetMaker.Engine, PaperSize.Of(paper, landscape: false), SheetLanguage.Now);
        return printed.Draw(sheet => new HandOutPages(sheet, this).Write());
    }

    /// <summary>How long the finished run is and what it is sewn from.</summary>
    internal static string Sizes(TuckPlan plan) =>
        T($"As it looks when sewn, to scale: {plan.Finished.ToText(plan.Unit)} finished from {plan.Cloth.ToText(plan.Unit)} of cloth.");
}
