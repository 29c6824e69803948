using System.Text.Json.Nodes;
using System.Text.Json.Serialization;

namespace HeirloomArchive.Pictures;

/// <summary>An upload that comes in parts: what was said of it when it began, and how far it is.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Length">Bytes of the whole file.</param>
/// <param name="Name">The file's name as the sender has it; shown, never used as a path.</param>
/// <param name="Garment">The garment it is for; null when it waits for a piece that is still to be entered.</param>
/// <param name="Caption">What is said of it, or null.</param>
/// <param name="View">A word of <c>views</c> or her own, or null.</param>
public sealed record PartedUpload(Guid Id, long Length, string Name, Guid? Garment, string? Caption, JsonNode? View)
{
    /// <summary>Who began it: a person's id, or the empty one where one person keeps the archive. It is there for nobody else.</summary>
    public Guid By { get; init; }

    /// <summary>Bytes that have come and are safe on disk.</summary>
    [JsonIgnore]
    public long Offset { get; init; }

    /// <summary>When it is thrown away unless something comes before.</summary>
    [JsonIgnore]
    public DateTimeOffset Expires { get; init; }

    /// <summary>What it became; null until it is whole and taken.</summary>
    public TakenPicture? Picture { get; init; }

    /// <summary>Whether all of it is there.</summary>
    [JsonIgnore]
    public bool IsWhole => Offset == Length;
}

/// <summary>A part was sent for another place than the upload stands at; nothing of it was kept.</summary>
public sealed class OffsetException(long stands) : Exception($"The upload stands at {stands} bytes; go on from there.")
{
    /// <summary>Bytes that have come.</summary>
    public long Stands { get; } = stands;
}

/// <summary>A part's bytes are not those of its checksum; nothing of it was kept.</summary>
public sealed class ChecksumException() : Exception("The part's bytes are not those of its Upload-Checksum; nothing of it was kept. Send it again.");

/// <summary>The sender began again on another connection, which goes on in place of this one.</summary>
public sealed class OvertakenException() : Exception("A newer request goes on with this upload.");

/// <summary>As many uploads wait as may.</summary>
public sealed class TooManyUploadsException(int most)
    : Exception($"{most} uploads are under way or wait for their piece, and there may be no more. Finish them or delete some.");
