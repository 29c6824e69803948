using Npgsql;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>Why something could not be written or read, in plain words.</summary>
internal static class Trouble
{
    /// <returns>A sentence, or null when it is no matter of disks and servers.</returns>
    public static string? Of(Exception e) => e switch
    {
        StartException => null,
        IOException full when FullDisk.Is(full) => "there is no room left on that disk.",
        PostgresException { SqlState: PostgresErrorCodes.DiskFull } => "PostgreSQL says that its disk is full.",
        UnauthorizedAccessException or IOException => e.Message,
        NpgsqlException => $"PostgreSQL did not answer to the end ({e.Message}).",
        _ => null,
    };
}
