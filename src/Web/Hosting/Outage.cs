using HeirloomArchive.Pictures;
using HeirloomArchive.Search;
using Npgsql;

namespace HeirloomArchive.Web.Hosting;

/// <summary>Something below the archive fails that may pass: its database is away, the disk is full, a folder may not be written to.</summary>
/// <param name="Status">503, or 507 where room is lacking.</param>
/// <param name="Title">In a few words.</param>
/// <param name="Detail">What it means and what to do, in plain words.</param>
/// <param name="RetryAfter">Seconds after which asking again makes sense.</param>
public sealed record Outage(int Status, string Title, string Detail, int RetryAfter)
{
    // The end of a save may have been lost on the way.
    private bool IsDoubtful { get; init; }

    // A disk that may only be read, as Linux and macOS call it.
    private const int ReadOnly = 30;

    // PostgreSQL's last words when its disk is full are often only that it ends.
    private const long Scarce = 16 * 1024 * 1024;

    private static string NothingLost => T("Nothing that was acknowledged is lost.");

    private static string NotKnown => T("Whether this was still saved is not known: look before you send it again.");

    /// <summary>What an exception tells of the machine; null where the fault lies elsewhere.</summary>
    /// <param name="exception">As it was thrown, whatever it is wrapped in.</param>
    /// <param name="settings">Where the archive lies; others than the one person whose machine it is are not told.</param>
    public static Outage? Of(Exception exception, ArchiveSettings settings)
    {
        for (Exception? e = exception; e is not null; e = e.InnerException)
        {
            if (Read(e, settings) is { } outage)
            {
                return outage;
            }
        }

        return null;
    }

    /// <summary>The detail, and for what was to change something whether it was kept.</summary>
    public string DetailFor(string method) => IsDoubtful && !HttpMethods.IsGet(method) && !HttpMethods.IsHead(method) ? $"{Detail} {NotKnown}" : Detail;

    private static Outage? Read(Exception e, ArchiveSettings settings) => e switch
    {
        IndexNotReadyException { Progress: var p } => new(StatusCodes.Status503ServiceUnavailable, T("The index is being built."), T($"The index is being built: {p.Done} of {p.Total} pieces."), 2),
        WorkerDoesNotStartException => new(StatusCodes.Status503ServiceUnavailable, T("Pictures can't be read now."),
            T("The separate process that reads pictures does not come up; the archive's log says why. No picture was added: send it again after a while."), 10),
        PostgresException { SqlState: PostgresErrorCodes.DiskFull } => NoRoom(settings),
        PostgresException { SqlState: PostgresErrorCodes.InsufficientPrivilege } => NotWritable(settings),   // its name for a disk that is read-only, too
        PostgresException p => IsAway(p) ? Away(settings) : null,
        NpgsqlException => Away(settings),
        IOException full when FullDisk.Is(full) => NoRoom(settings),
        IOException { HResult: ReadOnly } or UnauthorizedAccessException => NotWritable(settings),
        _ => null,
    };

    // It shuts down, comes up, has no place for another connection, was stopped by its own time limit, or its disk failed.
    private static bool IsAway(PostgresException e) =>
        e.SqlState.StartsWith("57", StringComparison.Ordinal) || e.SqlState.StartsWith("08", StringComparison.Ordinal)
        || e.SqlState is PostgresErrorCodes.TooManyConnections or PostgresErrorCodes.ReadOnlySqlTransaction or PostgresErrorCodes.IoError;

    private static Outage Away(ArchiveSettings settings) => Room(settings.Folder) < Scarce ? NoRoom(settings)
        : new(StatusCodes.Status503ServiceUnavailable, T("The archive's database does not answer."), $"{T("It should be back in a moment; try again then.")} {NothingLost}", 5) { IsDoubtful = true };

    private static Outage NoRoom(ArchiveSettings settings) => new(StatusCodes.Status507InsufficientStorage, T("The disk is full."),
        $"{T("This was not kept.")} {NothingLost} {T($"Make room on the disk where the archive lies{Named(settings)}, then send it again: nothing needs to be started anew.")}", 30);

    private static Outage NotWritable(ArchiveSettings settings) => new(StatusCodes.Status503ServiceUnavailable, T("The archive's folder may not be written to."),
        $"{T("This was not kept.")} {NothingLost} {T($"Whoever looks after the machine has to let the archive write to its folder{Named(settings)} again; nothing needs to be started anew.")}", 30);

    private static string Named(ArchiveSettings settings) => settings.Access.Accounts ? ""
        : settings.Pictures.StartsWith(settings.Folder + Path.DirectorySeparatorChar, StringComparison.Ordinal) ? $" ({settings.Folder})" : " " + T($"({settings.Folder}; pictures: {settings.Pictures})");

    private static long Room(string folder)
    {
        try { return new DriveInfo(folder).AvailableFreeSpace; }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException) { return long.MaxValue; }
    }
}
