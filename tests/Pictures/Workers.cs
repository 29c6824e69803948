using System.Reflection;
using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>Real worker processes for the tests; the classes that use them run one after another, as some count them.</summary>
internal static class Workers
{
    public static readonly PictureLimits Usual = new();

    public static readonly WorkerProgram Program = WorkerProgram.Of(Assembly.Load("HeirloomArchive.Web"));

    public static FirstOrder Order(byte[] file) => new(() => new MemoryStream(file), SoundPicture.Read(new MemoryStream(file), Usual));

    public static async Task<WorkDone[]> Make(PictureLimits limits, WorkerProgram program, params byte[][] files)
    {
        using var workshop = new Workshop(program, limits);
        return await workshop.Make([.. files.Select(Order)], TestContext.Current.CancellationToken);
    }
}

/// <summary>The room over a folder of its own: store, workers, derivatives and tiles.</summary>
internal sealed class Room : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pictures-");

    public Room(PictureLimits? limits = null)
    {
        Limits = limits ?? Workers.Usual;
        Store = new PictureStore(folder.FullName, Limits);
        Workshop = new Workshop(Workers.Program, Limits);
        Derivatives = new Derivatives(Store, Workshop, Limits);
        Tiles = new Tiles(Derivatives, Workshop, new RegionCache(Path.Combine(folder.FullName, "regions"), Limits.RegionCacheBytes));
    }

    public PictureLimits Limits { get; }

    public PictureStore Store { get; }

    public Workshop Workshop { get; }

    public Derivatives Derivatives { get; }

    public Tiles Tiles { get; }

    public string Folder => folder.FullName;

    /// <summary>Keeps an original; nothing is made of it yet.</summary>
    public async Task<string> Keep(byte[] file)
    {
        using var received = await Store.Receive(new MemoryStream(file), TestContext.Current.CancellationToken);
        await Store.KeepOriginal(received);
        return received.Sha256;
    }

    public void Dispose()
    {
        Workshop.Dispose();
        Store.Dispose();
        folder.Delete(recursive: true);
    }
}
