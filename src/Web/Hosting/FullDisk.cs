namespace HeirloomArchive.Web.Hosting;

/// <summary>How each system says that a disk has no room left.</summary>
internal static class FullDisk
{
    // Linux and macOS, then Windows.
    private const int NoSpace = 28, OverQuota = 122, OverQuotaOnMac = 69, DiskFull = unchecked((int)0x80070070), HandleDiskFull = unchecked((int)0x80070027);

    public static bool Is(IOException e) => e.HResult is NoSpace or OverQuota or OverQuotaOnMac or DiskFull or HandleDiskFull;
}
