using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>What a region shows, in words and with the way to it.</summary>
/// <param name="Text">"Pin tucks, yoke".</param>
/// <param name="Kind">"How it was made", "Condition" …; empty for a text.</param>
/// <param name="Link">The page about it, or null.</param>
public sealed record RegionWord(string Text, string Kind, string? Link)
{
    /// <summary>One thing that a region shows.</summary>
    public static RegionWord Of(ShownThing shown, RegionFrame frame)
    {
        if (shown.Kind == ShownKind.Text)
        {
            return new(shown.Value, "", null);
        }

        if (shown.Kind == ShownKind.Word)
        {
            var (facet, slug) = shown.Value.Split('/') is [var f, var s] ? (f, s) : ("", shown.Value);
            return new(Say.Word(facet, slug), T("Word"), $"/words?q={Uri.EscapeDataString(Words.Label(facet, slug))}");
        }

        var list = RegionFrame.ListOf(shown.Kind)!;
        return frame.Find(shown) is { } entry
            ? new(Say.Entry(list, entry), Heading(list), $"/pieces/{frame.Garment.Id}#{shown.Value}")
            : new(T("Something no longer in the record"), Heading(list), null);
    }

    /// <summary>All that a region shows, in one line; of a bare line, that it is one.</summary>
    public static string Line(Region region, RegionFrame frame) => region.Now.Shows.Count > 0
        ? string.Join("; ", region.Now.Shows.Select(s => Of(s, frame).Text))
        : region.Now.Measured is { } measured ? T($"Measured: {measured.Text}") : T("A line");

    /// <summary>A picture's name: its caption, else what it shows of the piece, else its place among the others.</summary>
    public static string Picture(JsonObject picture, int place) =>
        picture["caption"]?.ToString() is { Length: > 0 } caption ? caption
        : Say.Word("views", picture["view"]) is { Length: > 0 } view ? view : T($"Picture {place}");

    private static string Heading(string list) => list switch { "techniques" => T("How it was made"), "condition" => T("Condition"), _ => T("Repair") };
}
