using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>A piece among others: its picture or drawing, number, name and what to know before taking it out.</summary>
public sealed record TileView(string To, string Number, string Name, string? Kind, string? Picture)
{
    /// <summary>Kind and date, in words.</summary>
    public string Under { get; init; } = "";

    /// <summary>The marked place that shows what was looked for; null where none is.</summary>
    public CloseView? Close { get; init; }

    /// <summary>Why it was found: HTML as the index made it, all escaped but its marks.</summary>
    public string? Snippet { get; init; }

    public IReadOnlyList<string> Lines { get; init; } = [];

    /// <summary>What a tick puts in a lesson, as its form names it; null where there is no tick.</summary>
    public string? Collect { get; init; }

    public IReadOnlyList<string> Marks { get; init; } = [];

    public static TileView Of(Garment garment) => Of(garment.State(Viewer.Now.Sight.WithoutPrivate));

    public static TileView Of(JsonObject state)
    {
        var kind = Say.Word("kinds", state["kind"]);
        var dated = state["dated"] is { } date ? DateInWords.Say(date.ToString()) : state["datedText"]?.ToString() ?? "";
        return new($"/pieces/{state["id"]}", state["number"]?.ToString() ?? "", state["name"]?.ToString() ?? "", state["kind"]?.ToString(), (state["pictures"] as JsonArray)?.FirstOrDefault()?["id"]?.ToString())
        {
            Under = string.Join(", ", new[] { kind, dated }.Where(t => t.Length > 0)),
            Marks = MarksOf(state),
        };
    }

    /// <summary>What must be seen before a piece is fetched: that it is not here, or may not be handled.</summary>
    public static IReadOnlyList<string> MarksOf(JsonObject state) =>
    [
        .. state["setAside"] is JsonObject ? (string[])[T("Set aside")] : [],
        .. state["whereabouts"]?["is"]?.ToString() is { } at and not "here" ? (string[])[Say.Plain(at)] : [],
        .. state["handling"]?.ToString() is { } handling and not "handle-in-class" ? (string[])[Say.Plain(handling)] : [],
        .. state["overall"]?.ToString() is { } overall and ("weak" or "fragile") ? (string[])[Say.Plain(overall)] : [],
    ];
}
