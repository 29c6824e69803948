using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Iiif;

/// <summary>What a manifest tells of a garment: never what is private, nor where it is, nor whose name hangs on it.</summary>
public static class GarmentManifest
{
    private static readonly string[] Told = ["number", "kind", "dated", "made", "materials", "measures", "overall"];

    /// <summary>The garment with all its pictures; null when it has none, for a manifest has at least one.</summary>
    public static ManifestView? Of(Garment garment, IReadOnlyList<Region> regions, string site)
    {
        ArgumentNullException.ThrowIfNull(garment);
        var state = garment.State();
        var canvases = Canvases(garment, state, regions);
        return canvases.Count == 0 ? null : new(
            $"{site}/iiif/garments/{garment.Id}/manifest", garment.Name, state["description"]?.ToString(),
            FactsView.Of(Told.Select(name => GarmentShape.Garment.Fields.Single(f => f.Name == name && !f.Private)), state).Facts,
            $"{site}/pieces/{garment.Id}", canvases);
    }

    /// <summary>A canvas for each picture of a garment, in their order.</summary>
    public static IReadOnlyList<CanvasView> Canvases(Garment garment, JsonObject state, IReadOnlyList<Region> regions)
    {
        ArgumentNullException.ThrowIfNull(garment);
        ArgumentNullException.ThrowIfNull(state);
        return [.. (state["pictures"] as JsonArray ?? []).OfType<JsonObject>().Select((picture, i) =>
        {
            var frame = new RegionFrame(Guid.Parse(picture["id"]!.ToString()), garment, picture);
            return new CanvasView(garment.Id, frame.Picture, frame.Width, frame.Height, RegionWord.Picture(picture, i + 1),
                [.. regions.Where(r => r.Picture == frame.Picture).Select(r => (r, RegionWord.Line(r, frame)))]);
        })];
    }
}
