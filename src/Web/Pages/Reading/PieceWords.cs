using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Sentences about a piece that stand on its page only.</summary>
public static class PieceWords
{
    /// <summary>The line that a run of tucks is measured from.</summary>
    public static string Start(JsonObject technique) => technique["lies"]?.ToString() is "from-centre" or "towards-centre" ? "the start of the row"
        : technique["measuredFrom"]?.ToString() is { } from ? "the " + from.Replace('-', ' ') : "the start of the row";
}
