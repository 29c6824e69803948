using System.Diagnostics;

namespace HeirloomArchive.Pictures;

/// <summary>The worker ended before it was ready, or never was: the program or its surroundings are at fault, and no picture can be taken now.</summary>
public sealed class WorkerDoesNotStartException(ProcessStartInfo start, string complaint)
    : Exception($"The picture worker does not start ({start.FileName} {string.Join(' ', start.ArgumentList)}): {complaint}")
{
    /// <summary>A signal ended it while it came up: the next may come up well.</summary>
    internal bool Killed { get; init; }
}
