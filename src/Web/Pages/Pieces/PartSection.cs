using System.ComponentModel;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Forms;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A stretch of a piece as it is looked over: from the top down, outside before inside.</summary>
/// <param name="Id">The place on the page.</param>
/// <param name="Title">In English, translated where it is shown.</param>
/// <param name="Help">What to look for there, in English too.</param>
/// <param name="Parts">The slugs of <c>parts</c> that belong to it; a row added here starts with the first.</param>
public sealed record PartSection(string Id, [Localizable(true)] string Title, [Localizable(true)] string Help, params string[] Parts)
{
    /// <summary>In the order in which one handles a piece. The last takes whatever stands nowhere else.</summary>
    public static IReadOnlyList<PartSection> InOrder { get; } =
    [
        new("top", "Neck, collar and shoulders", "On a cap or bonnet: brim, crown and curtain.", "neck", "collar", "shoulder", "strap", "revers", "epaulette", "bretelles", "crown", "brim", "curtain"),
        new("body", "Yoke and body", "Front, then back. Tucks, insertions, whitework; stains where it was worn.", "yoke", "yoke-back", "bodice-front", "bodice-back", "front-panel", "bib-front", "centre-front", "centre-back", "side-seam", "underarm", "pocket"),
        new("sleeves", "Sleeves", "From the armhole down to the cuff. Left and right are the wearer's.", "sleeve", "armhole", "cuff"),
        new("waist", "Waist", "Gathers, bands, beading and what runs through it.", "waist", "waistband", "peplum", "sash"),
        new("lower", "Skirt, legs and hem", "Growth tucks, flounces, lace at the edge; mends and worn places at the hem.", "skirt", "flounce", "seat", "crotch", "leg", "leg-edge", "dust-ruffle", "hem"),
        new("openings", "Openings and ties", "Plackets, buttonholes, buttons, tapes. Rust marks beside hooks and pins.", "opening", "front-band", "strings"),
        new("inside", "Inside, as far as it opens by itself", "Seams, linings, gussets and the wrong side of the work. Nothing is turned inside out for this.", "lining", "facing", "waist-stay", "dress-shield", "gusset"),
        new("elsewhere", "The whole piece, and anywhere else", "What is found all over, and parts that have no place above."),
    ];

    /// <summary>The entries of a list that belong to this section, each with its place in the list.</summary>
    public IEnumerable<(int Place, JsonObject Entry)> Of(JsonNode? list) => (list as JsonArray ?? []).Select((e, i) => (Place: i, Entry: e as JsonObject))
        .Where(e => e.Entry is not null && ReferenceEquals(this, At(e.Entry["part"] is JsonValue part ? part.ToString() : "")))
        .Select(e => (e.Place, e.Entry!));

    /// <summary>Where a part belongs: by itself, or by the broader word it stands under.</summary>
    public static PartSection At(string part)
    {
        for (var word = part; word is not null; word = Words.Find("parts", word)?.Broader)
        {
            if (InOrder.FirstOrDefault(s => s.Parts.Contains(word)) is { } section)
            {
                return section;
            }
        }

        return InOrder[^1];
    }
}

/// <summary>A piece part by part, for <c>_Parts.cshtml</c>.</summary>
/// <param name="Form">With new rows in <c>techniques</c>, <c>condition</c> and <c>repairs</c>.</param>
/// <param name="Recorded">What is recorded of the piece already; null for a new one.</param>
public sealed record PartsView(Form Form, JsonObject? Recorded)
{
    /// <summary>The lists whose entries have a part, each with the shape of a row.</summary>
    public static IReadOnlyList<(string Name, RecordType Shape)> Lists { get; } =
        [("techniques", GarmentShape.Technique), ("condition", GarmentShape.Finding), ("repairs", GarmentShape.Repair)];

    /// <summary>Kinds of work that have a button of their own; others are added on the piece's page.</summary>
    public static IReadOnlyList<string> Kinds { get; } = ["tucks", "lace", "insertion", "whitework", "embroidery", "gathers", "hem", "seam", "fastening"];
}
