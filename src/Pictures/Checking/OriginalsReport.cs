namespace HeirloomArchive.Pictures.Checking;

/// <summary>What a check of the originals found. Two are kept: the last that was finished, and the one that runs.</summary>
public sealed class OriginalsReport
{
    /// <summary>The id of the last that was finished.</summary>
    public const string Last = "last";

    /// <summary>The id of the one that runs.</summary>
    public const string Now = "now";

    /// <summary><see cref="Last"/> or <see cref="Now"/>.</summary>
    public string Id { get; set; } = Now;

    /// <summary>When it began.</summary>
    public DateTimeOffset Started { get; set; }

    /// <summary>When it was finished; of one that runs, when it last was heard of.</summary>
    public DateTimeOffset Until { get; set; }

    /// <summary>Originals the record names.</summary>
    public int Total { get; set; }

    /// <summary>Of these, those looked at.</summary>
    public int Checked { get; set; }

    /// <summary>Bytes read.</summary>
    public long Bytes { get; set; }

    /// <summary>Originals that are not in the folder.</summary>
    public List<FaultyOriginal> Missing { get; set; } = [];

    /// <summary>Originals whose bytes are no longer those of their digest.</summary>
    public List<FaultyOriginal> Changed { get; set; } = [];

    /// <summary>Files among the originals that no picture of the record names, by their path in the folder; at most the first thousand.</summary>
    public List<string> Unknown { get; set; } = [];

    /// <summary>Whether every original is there and whole.</summary>
    public bool IsWell => Missing.Count + Changed.Count == 0;
}

/// <summary>An original that is not as it should be.</summary>
/// <param name="Sha256">Its digest.</param>
/// <param name="Pictures">The pictures that have it, and what each belongs to.</param>
public sealed record FaultyOriginal(string Sha256, IReadOnlyList<PictureOf> Pictures);

/// <summary>A picture and the garment, or the worksheet, it belongs to.</summary>
public sealed record PictureOf(Guid Picture, Guid Garment);
