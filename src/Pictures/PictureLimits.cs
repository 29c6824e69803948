namespace HeirloomArchive.Pictures;

/// <summary>What an upload and the worker may use; beyond it a file is refused with a reason.</summary>
public sealed record PictureLimits
{
    /// <summary>Bytes of one file: 60 MB.</summary>
    public long FileBytes { get; init; } = 60_000_000;

    /// <summary>Pixels of one picture: 50 megapixels.</summary>
    public long Pixels { get; init; } = 50_000_000;

    /// <summary>Pixels along one side: what the decoder of JPEG reads.</summary>
    public int Side { get; init; } = 65_500;

    /// <summary>Memory of one worker, all told: 512 MiB.</summary>
    public long WorkerBytes { get; init; } = 512L << 20;

    /// <summary>The processor's time for one picture, of all threads of its worker: 20 s. It is the same on a machine that is busy.</summary>
    public TimeSpan WorkerTime { get; init; } = TimeSpan.FromSeconds(20);

    /// <summary>How long one picture may take by the clock, whatever the machine does besides: 120 s.</summary>
    public TimeSpan WorkerWait { get; init; } = TimeSpan.FromSeconds(120);

    /// <summary>Bytes of regions kept because they may be asked for again: 256 MB; the longest unused go first.</summary>
    public long RegionCacheBytes { get; init; } = 256_000_000;

    /// <summary>Files in one upload.</summary>
    public int Files { get; init; } = 50;

    /// <summary>Uploads in parts that may be under way or waiting at once.</summary>
    public int Unfinished { get; init; } = 200;

    /// <summary>How long an upload in parts waits for its next part, or for its piece to be saved: seven days.</summary>
    public TimeSpan UnfinishedTime { get; init; } = TimeSpan.FromDays(7);
}
