using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Web.Iiif;

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
        var kind = KindOf(list);
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

    /// <summary>Learns of several pieces at once, before each is asked for.</summary>
    public async Task Learn(IReadOnlyList<Garment> garments, CancellationToken ct)
    {
        foreach (var (garment, regions) in garments.Zip(await keeping.OfGarments(garments, ct)))
        {
            known[garment.Id] = (garment, regions);
        }
    }

    /// <summary>The place that shows best the first of some entries that is marked at all: an area rather than a point, a line last. Null where none is.</summary>
    /// <inheritdoc cref="Of" path="/param"/>
    public async Task<CloseView?> Closest(string piece, string list, IEnumerable<string?> entries)
    {
        foreach (var entry in entries)
        {
            var (region, frame) = (await Of(piece, list, [entry])).OrderBy(p => p.Region.Now.Shape.Kind switch { ShapeKind.Line => 2, ShapeKind.Point => 1, _ => 0 }).FirstOrDefault();
            if (region is not null && frame.Find(new(KindOf(list)!.Value, entry!)) is { } shown)
            {
                return new(Closeup.Of(region, frame), region.Id, Say.Entry(list, shown), frame.Entry["sha256"]!.ToString());
            }
        }

        return null;
    }

    private static ShownKind? KindOf(string list) =>
        list switch { "techniques" => ShownKind.Technique, "condition" => ShownKind.Condition, "repairs" => ShownKind.Repair, _ => null };
}

/// <summary>A place on a picture that stands for an entry of a piece: on pages by its address, on paper cut out at the same size.</summary>
/// <param name="Place">What is cut out.</param>
/// <param name="Region">The mark that says so.</param>
/// <param name="Shows">The entry in words.</param>
/// <param name="Sha256">The picture's file.</param>
public sealed record CloseView(Closeup Place, Guid Region, string Shows, string Sha256)
{
    // As wide as a card of a page, and sharp at the 70 mm it has on paper. One size, so that it is made once.
    private const int Most = 480;

    public string Address => Place.Address(Most, Most);

    public (int Width, int Height) Size => Place.Size(Most, Most);

    /// <summary>The page on which the whole picture is looked at, with the place marked.</summary>
    public string Whole => $"/pictures/{Place.Picture}?region={Region}";

    public string Alt => T($"{Shows}, seen close on the piece");
}
