using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using JasperFx;
using Marten;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>
/// The door to the regions. Refusals: <see cref="NotFoundException"/>, <see cref="SetAsideException"/>, <see cref="StaleException"/>,
/// <see cref="FaultException"/>.
/// </summary>
public sealed class RegionKeeping(Archive archive, IDocumentStore store, TimeProvider clock)
{
    /// <summary>The most regions that stand on one picture.</summary>
    public const int MostOfPicture = 500;

    /// <summary>The picture in its garment.</summary>
    /// <exception cref="NotFoundException">There is no such picture, it was taken out, or it is not of a garment.</exception>
    public async Task<RegionFrame> Frame(Guid picture, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var owner = await session.LoadAsync<PictureOwner>(picture, ct);
        var garment = owner is null ? null : await archive.Find(owner.Garment, ct);
        var entry = (garment?.Fields["pictures"] as JsonArray ?? []).OfType<JsonObject>().FirstOrDefault(p => p["id"]?.GetValue<string>() == picture.ToString());
        return entry is null ? throw new NotFoundException($"No garment has a picture with the id {picture}.") : new(picture, garment!, entry);
    }

    /// <summary>The regions of a picture in the order of making; those taken away instead, if asked for.</summary>
    public async Task<IReadOnlyList<Region>> OfPicture(Guid picture, bool gone = false, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var all = await session.Query<Region>().Where(r => r.Picture == picture).OrderBy(r => r.Id).ToListAsync(ct);
        return [.. all.Where(r => r.Gone is not null == gone)];
    }

    /// <summary>The regions on all pictures that a garment has now; with a key only those that show it.</summary>
    /// <param name="garment">The garment.</param>
    /// <param name="key">As of <see cref="ShownThing.KeyOf"/>.</param>
    /// <param name="ct">Stops it.</param>
    public async Task<IReadOnlyList<Region>> OfGarment(Garment garment, string? key = null, CancellationToken ct = default)
    {
        ArgumentNullException.ThrowIfNull(garment);
        await using var session = store.QuerySession();
        var id = garment.Id;
        var asked = session.Query<Region>().Where(r => r.Garment == id);
        asked = key is null ? asked : asked.Where(r => r.Keys.Contains(key));
        return OnItsPictures(garment, await asked.OrderBy(r => r.Id).ToListAsync(ct));
    }

    /// <summary>The same of several, in the order given, with one question of the database.</summary>
    public async Task<IReadOnlyList<IReadOnlyList<Region>>> OfGarments(IReadOnlyList<Garment> garments, CancellationToken ct = default)
    {
        ArgumentNullException.ThrowIfNull(garments);
        var ids = garments.Select(g => g.Id).ToArray();
        await using var session = store.QuerySession();
        var found = (ids.Length == 0 ? [] : await session.Query<Region>().Where(r => r.Garment.IsOneOf(ids)).OrderBy(r => r.Id).ToListAsync(ct)).ToLookup(r => r.Garment);
        return [.. garments.Select(g => OnItsPictures(g, found[g.Id]))];
    }

    private static IReadOnlyList<Region> OnItsPictures(Garment garment, IEnumerable<Region> regions)
    {
        var pictures = (garment.Fields["pictures"] as JsonArray ?? []).OfType<JsonObject>().Select(p => p["id"]!.GetValue<string>()).ToList();
        return [.. regions.Where(r => r.Gone is null && pictures.Contains(r.Picture.ToString())).OrderBy(r => pictures.IndexOf(r.Picture.ToString()))];
    }

    /// <summary>One region, also one that was taken away.</summary>
    public async Task<Region> Find(Guid picture, Guid id, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return Of(picture, id, await session.LoadAsync<Region>(id, ct));
    }

    /// <summary>Marks a place.</summary>
    public async Task<Region> Add(Guid picture, JsonObject annotation, string who, CancellationToken ct = default)
    {
        var frame = Standing(await Frame(picture, ct));
        var saying = AnnotationReader.Read(annotation, frame, null);
        if ((await OfPicture(picture, ct: ct)).Count >= MostOfPicture)
        {
            throw new FaultException("", T($"The picture has {MostOfPicture} regions already; take one away first."));
        }

        var now = clock.GetUtcNow();
        var region = new Region { Id = clock.NewId(now), Picture = picture, Garment = frame.Garment.Id, Made = now, Version = 1 };
        Say(region, saying with { When = now, Who = who });
        await using var session = store.LightweightSession();
        session.Insert(region);
        await session.SaveChangesAsync(ct);
        return region;
    }

    /// <summary>Says anew what a region is; one that was taken away stands again.</summary>
    public async Task<Region> Put(Guid picture, Guid id, long version, JsonObject annotation, string who, CancellationToken ct = default)
    {
        var frame = await Frame(picture, ct);
        await using var session = store.LightweightSession();
        var region = Of(picture, id, await session.LoadAsync<Region>(id, ct));
        Standing(frame);
        CheckSeen(region, version, annotation);
        var saying = AnnotationReader.Read(annotation, frame, region);
        region.Earlier.Add(region.Now);
        Say(region, saying with { When = clock.GetUtcNow(), Who = who });
        region.Gone = null;
        await Save(session, region, annotation, ct);
        return region;
    }

    /// <summary>Takes a region away; what it said is kept.</summary>
    public async Task<Region> Remove(Guid picture, Guid id, long version, CancellationToken ct = default)
    {
        var frame = await Frame(picture, ct);
        await using var session = store.LightweightSession();
        var region = Of(picture, id, await session.LoadAsync<Region>(id, ct));
        Standing(frame);
        CheckSeen(region, version, null);
        region.Gone ??= clock.GetUtcNow();
        await Save(session, region, null, ct);
        return region;
    }

    private async Task Save(IDocumentSession session, Region region, JsonObject? yours, CancellationToken ct)
    {
        session.UpdateRevision(region, region.Version + 1);
        try
        {
            await session.SaveChangesAsync(ct);
        }
        catch (ConcurrencyException)
        {
            CheckSeen(await Find(region.Picture, region.Id, ct), -1, yours);
        }
    }

    private static void Say(Region region, RegionSaying saying)
    {
        region.Now = saying;
        region.Keys = [.. saying.Shows.Where(s => s.Kind != ShownKind.Text).Select(s => s.Key)];
    }

    private static void CheckSeen(Region region, long version, JsonObject? yours)
    {
        if (version == region.Version)
        {
            return;
        }

        var now = AnnotationWriter.Bare(region, "");
        throw new StaleException(region.Version, yours is null ? [] : new JsonArray([.. ((string[])["motivation", "body", "target"])
            .Where(n => !JsonNode.DeepEquals(yours[n], now[n])).Select(n => (JsonNode)new JsonObject { ["path"] = n, ["yours"] = yours[n]?.DeepClone(), ["now"] = now[n]?.DeepClone() })]));
    }

    private static RegionFrame Standing(RegionFrame frame) => frame.Garment.IsAside ? throw new SetAsideException() : frame;

    private static Region Of(Guid picture, Guid id, Region? region) =>
        region?.Picture == picture ? region : throw new NotFoundException($"The picture has no region with the id {id}.");
}
