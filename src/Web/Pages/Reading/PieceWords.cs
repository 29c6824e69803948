using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Sentences about a piece that stand on its page only.</summary>
public static class PieceWords
{
    /// <summary>The line that a run of tucks is measured from.</summary>
    public static string Start(JsonObject technique) => technique["lies"]?.ToString() is "from-centre" or "towards-centre" ? T("the start of the row")
        : technique["measuredFrom"]?.ToString() is { } from ? T($"the {Say.Plain(from).ToLowerInvariant()}") : T("the start of the row");
}
