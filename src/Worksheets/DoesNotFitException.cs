using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets;

/// <summary>No arrangement of the asked tucks fits the width; the answer says why and what would.</summary>
public sealed class DoesNotFitException(FitAnswer answer, string path = "onto")
    : FaultException(path, (answer ?? throw new ArgumentNullException(nameof(answer))).Reason ?? T("Nothing fits."))
{
    /// <summary>The fit's answer with its <c>reason</c> and <c>nearest</c>.</summary>
    public FitAnswer Answer { get; } = answer;
}
