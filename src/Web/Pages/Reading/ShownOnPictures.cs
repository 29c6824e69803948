using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Where an entry of a piece is seen on its pictures. One question of the database a page, however many entries it shows.</summary>
public sealed class ShownOnPictures(Archive archive, RegionKeeping keeping)
{
    private readonly Dictionary<Guid, (Garment Garment, IReadOnlyList<Region> Regions)> known = [];

    /// <summary>The regions that show one of some entries, each on its picture.</summary>
    /// <param name="piece">The garment's id.</param>
    /// <param name="list"><c>techniques</c>, <c>condition</c> or <c>repairs</c>; none of others.</param>
    /// <param name="entries">The entries' ids.</param>
    public async Task<IReadOnlyList<(Region Region, RegionFrame Frame)>> Of(string piece, string list, IReadOnlyList<string?> entries)
    {
        ShownKind? kind = list switch { "techniques" => ShownKind.Technique, "condition" => ShownKind.Condition, "repairs" => ShownKind.Repair, _ => null };
        if (kind is null || !Guid.TryParse(piece, out var id))
        {
            return [];
        }

        if (!known.TryGetValue(id, out var here))
        {
            if (await archive.Find(id) is not { } garment)
            {
                return [];
            }

            known[id] = here = (garment, await keeping.OfGarment(garment));
        }

        var keys = entries.OfType<string>().Select(e => ShownThing.KeyOf(kind.Value, e)).ToHashSet();
        return [.. from region in here.Regions
                   where region.Keys.Any(keys.Contains)
                   let picture = here.Garment.Fields["pictures"]!.AsArray().First(p => p!["id"]!.ToString() == region.Picture.ToString())
                   select (region, new RegionFrame(region.Picture, here.Garment, picture!.AsObject()))];
    }
}
