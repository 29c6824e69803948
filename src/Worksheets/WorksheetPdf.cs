using HeirloomArchive.Worksheets.Drawing;
using HeirloomArchive.Worksheets.Pdf;

namespace HeirloomArchive.Worksheets;

/// <summary>
/// The print of a worksheet at true size: tagged, its text selectable, its fonts within. The same bytes every time within a
/// release.
/// </summary>
public static class WorksheetPdf
{
    /// <summary>The largest class.</summary>
    public const int MostPupils = 500;

    /// <summary>The whole PDF file.</summary>
    /// <param name="worksheet">What is printed.</param>
    /// <param name="printer">One that she has measured: gauges, rule and marks are drawn so that they come out true on it.</param>
    /// <param name="picture">The bytes (JPEG or PNG) of a picture of the original, or null.</param>
    /// <param name="rule">Whether the folding rule is printed; null: where the result says so.</param>
    /// <param name="shows">What a picture shows that is only a part of one, for reading aloud; null for a whole one.</param>
    /// <exception cref="Sewing.FaultException">The rule is asked for and is too long for paper.</exception>
    public static byte[] Render(Worksheet worksheet, Printer? printer = null, byte[]? picture = null, bool? rule = null, string? shows = null)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        var asked = worksheet.Result["rule"];
        if (rule == true && (asked is null || asked["pages"].Whole() > TrueSize.MostPages))
        {
            throw new Sewing.FaultException("rule", asked?["text"].Text() ?? T("This worksheet was made without a folding rule; make it again."));
        }

        var ruled = rule ?? asked?["inPrint"].Yes() ?? false;
        return Printed.Of(worksheet).Draw(sheet => Contents.Write(sheet, worksheet, printer, (picture, shows), ruled));
    }

    /// <summary>A hand-out for a class, with blanks instead of numbers; or its answers, for the teacher.</summary>
    /// <param name="worksheet">What is taught.</param>
    /// <param name="answers">With the answers filled in.</param>
    /// <param name="pupils">How many are in the class, 1 to <see cref="MostPupils"/>; the answers then say what they need.</param>
    /// <exception cref="Sewing.FaultException">The worksheet was made before there were teaching sheets, or no such class.</exception>
    public static byte[] Teaching(Worksheet worksheet, bool answers, int? pupils = null)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        if (worksheet.Result["teaching"] is null)
        {
            throw new Sewing.FaultException("", T("This worksheet was made before there were teaching sheets; make it again."));
        }

        if (pupils is < 1 or > MostPupils)
        {
            throw new Sewing.FaultException("pupils", T($"A class of {pupils} is none here; it has 1 to {MostPupils}."));
        }

        return Printed.Of(worksheet).Draw(sheet => new TeachingSheet(sheet, worksheet, answers, pupils).Write());
    }
}
