using Npgsql;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>Why something could not be written or read, in plain words.</summary>
internal static class Trouble
{
    private const int NoSpace = 28, OverQuota = 122, OverQuotaOnMac = 69, DiskFullOnWindows = unchecked((int)0x80070070);
    private const string DiskFull = "53100";

    /// <returns>A sentence, or null when it is no matter of disks and servers.</returns>
    public static string? Of(Exception e) => e switch
    {
        StartException => null,
        IOException { HResult: NoSpace or OverQuota or OverQuotaOnMac or DiskFullOnWindows } => "there is no room left on that disk.",
        PostgresException { SqlState: DiskFull } => "PostgreSQL says that its disk is full.",
        UnauthorizedAccessException or IOException => e.Message,
        NpgsqlException => $"PostgreSQL did not answer to the end ({e.Message}).",
        _ => null,
    };
}
