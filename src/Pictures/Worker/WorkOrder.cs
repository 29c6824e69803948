using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures;

/// <summary>One piece of work for a worker, and how to tell whether what comes back can be true.</summary>
/// <param name="Kind">What is wanted.</param>
/// <param name="Format">What <paramref name="Open"/> gives.</param>
/// <param name="Open">Opens what the worker is handed.</param>
internal abstract record WorkOrder(WorkKind Kind, PictureFormat Format, Func<Stream> Open)
{
    /// <summary>Whether a picture made from it can be so large, the right way up.</summary>
    public abstract bool CanMeasure(int width, int height);

    /// <summary>The format and the greatest length of each file that must come, in order, when the picture measures so.</summary>
    public abstract IEnumerable<(PictureFormat Format, int Longest)> Expected(int width, int height);

    /// <summary>Takes the size before any file comes.</summary>
    public virtual void Begin(int width, int height)
    {
    }

    /// <summary>Takes a file as it comes; by default the answer collects it.</summary>
    public virtual ValueTask Take(WorkerAnswer answer, byte[] file)
    {
        answer.Files.Add(file);
        return ValueTask.CompletedTask;
    }
}

/// <summary>Screen and thumbnail of an original, as JPEG.</summary>
internal sealed record FirstOrder(Func<Stream> Open, SoundPicture Sound) : WorkOrder(WorkKind.First, Sound.Format, Open)
{
    // Far above what the recipe can give.
    internal const int ScreenBytes = 8 << 20, ThumbnailBytes = 1 << 20;

    public override bool CanMeasure(int width, int height) => Sound.CanMeasure(width, height);

    public override IEnumerable<(PictureFormat Format, int Longest)> Expected(int width, int height) =>
        [(PictureFormat.Jpeg, ScreenBytes), (PictureFormat.Jpeg, ThumbnailBytes)];
}

/// <summary>Tiles of an original into a file, screen and thumbnail as WebP beside.</summary>
internal sealed record RestOrder(Func<Stream> Open, SoundPicture Sound, FileStream Tiles) : WorkOrder(WorkKind.Rest, Sound.Format, Open)
{
    // 512 × 512 pixels as JPEG; noise at this quality takes a third of it.
    private const int TileBytes = 1 << 20;

    private TileFile.Writer? writer;
    private int left;

    public override bool CanMeasure(int width, int height) => Sound.CanMeasure(width, height);

    public override void Begin(int width, int height)
    {
        writer = new TileFile.Writer(Tiles, width, height);
        left = Count(width, height);
    }

    public override IEnumerable<(PictureFormat Format, int Longest)> Expected(int width, int height) =>
    [
        .. Enumerable.Repeat((PictureFormat.Jpeg, TileBytes), Count(width, height)),
        (PictureFormat.WebP, FirstOrder.ScreenBytes), (PictureFormat.WebP, FirstOrder.ThumbnailBytes),
    ];

    public override ValueTask Take(WorkerAnswer answer, byte[] file) => left-- > 0 ? writer!.Add(file) : base.Take(answer, file);

    private static int Count(int width, int height) => TileLevels.Of(width, height)[^1].First + 1;
}

/// <summary>A region composed of tiles.</summary>
internal sealed record RegionOrder(RegionWork Work, IReadOnlyList<(int Left, int Top, ArraySegment<byte> File)> Tiles)
    : WorkOrder(WorkKind.Region, PictureFormat.Jpeg, () => new MemoryStream(Work.Message(Tiles), writable: false))
{
    public override bool CanMeasure(int width, int height) =>
        (width, height) == (Work.Rotation % 180 == 0 ? (Work.OutWidth, Work.OutHeight) : (Work.OutHeight, Work.OutWidth));

    /// <summary>At most four bytes a pixel, and a head.</summary>
    public override IEnumerable<(PictureFormat Format, int Longest)> Expected(int width, int height) => [(Work.Format, (4 * width * height) + 65_536)];
}
