using System.Diagnostics;
using System.Globalization;

namespace HeirloomArchive.Support;

/// <summary>A disk of a few megabytes that a test may fill, make larger or write-protect; in memory, gone when disposed. Only root on Linux can make one.</summary>
public sealed class SmallDisk : IDisposable
{
    private readonly TemporaryFolder at = new();
    private readonly List<string> mounted = [];

    private SmallDisk()
    {
    }

    /// <summary>Its folder.</summary>
    public string Path => at.Path;

    /// <summary>Bytes that are free.</summary>
    public long Free => new DriveInfo(Path).AvailableFreeSpace;

    /// <returns>Null, with the reason, where none can be made.</returns>
    public static (SmallDisk? Disk, string Reason) Make(int megabytes)
    {
        if (!OperatingSystem.IsLinux()) return (null, "A small disk is made by Linux's mount.");
        var disk = new SmallDisk();
        var reason = disk.Mount(disk.Path, "-t", "tmpfs", "-o", $"size={megabytes}m,mode=755", "heirloom-test");
        if (reason is null) return (disk, "");
        disk.Dispose();
        return (null, "No small disk can be mounted here: " + reason);
    }

    /// <summary>Takes all room but so much, with a file.</summary>
    public void Fill(long but)
    {
        using var ballast = new FileStream(System.IO.Path.Combine(Path, "ballast"), FileMode.Append);
        var bytes = new byte[64 * 1024];
        while (Free > but) ballast.Write(bytes, 0, (int)Math.Min(bytes.Length, Free - but));
    }

    /// <summary>Gives the room back.</summary>
    public void Empty() => File.Delete(System.IO.Path.Combine(Path, "ballast"));

    /// <summary>Makes it larger, or smaller as far as what lies there lets.</summary>
    public void Resize(int megabytes) => Must(Run("mount", "-o", "remount,size=" + megabytes.ToString(CultureInfo.InvariantCulture) + "m", Path));

    /// <summary>Lets nobody write to it any more; nothing may be open for writing.</summary>
    public void Protect() => Must(Run("mount", "-o", "remount,ro", Path));

    /// <summary>Lets nobody write to one folder of it, or again.</summary>
    public void Protect(string folder, bool on)
    {
        if (on)
        {
            Must(Mount(folder, "--bind", folder));
            Must(Run("mount", "-o", "remount,bind,ro", folder));
        }
        else
        {
            Must(Run("umount", folder));
            mounted.Remove(folder);
        }
    }

    public void Dispose()
    {
        foreach (var place in Enumerable.Reverse(mounted)) Run("umount", "-l", place);
        at.Dispose();
    }

    private string? Mount(string place, params string[] how)
    {
        var failed = Run("mount", [.. how, place]);
        if (failed is null) mounted.Add(place);
        return failed;
    }

    private static void Must(string? failed)
    {
        if (failed is not null) throw new InvalidOperationException(failed);
    }

    // What it complains of; null when it was done.
    private static string? Run(string program, params string[] arguments)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            var said = process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 ? null : said.Trim();
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            return e.Message;
        }
    }
}
