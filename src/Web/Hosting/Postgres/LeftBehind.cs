using System.Diagnostics;
using System.Globalization;

namespace HeirloomArchive.Web.Hosting.Postgres;

/// <summary>
/// The server of a host that was killed lives on. The next host, which holds the folder's lock, ends it, and clears away a
/// <c>postmaster.pid</c> whose number now belongs to some other process.
/// </summary>
internal static class LeftBehind
{
    public static async Task End(string data, string bin, CancellationToken cancel)
    {
        var file = Path.Combine(data, "postmaster.pid");
        if (PostmasterId(file) is not { } postmaster) return;
        if (OperatingSystem.IsLinux()) await EndOnLinux(data, postmaster, cancel);
        else if (NameOf(postmaster) == "postgres") await EndByControl(data, bin, cancel);
        // PostgreSQL clears its own stale file, but not when the number is taken again: it cannot tell.
        if (File.Exists(file) && (OperatingSystem.IsWindows() ? NameOf(postmaster) is not null : Posix.Exists(postmaster))) File.Delete(file);
    }

    /// <summary>Line 1 of the file: the server's process id.</summary>
    public static int? PostmasterId(string file) =>
        File.Exists(file) && int.TryParse(File.ReadLines(file).FirstOrDefault(), CultureInfo.InvariantCulture, out var id) ? id : null;

    private static async Task EndOnLinux(string data, int postmaster, CancellationToken cancel)
    {
        var real = Posix.RealPath(data);
        if (Servers(real).Contains(postmaster)) Posix.Signal(postmaster, Posix.Interrupt);
        if (await AllGone(real, TimeSpan.FromSeconds(5), cancel)) return;
        foreach (var server in Servers(real)) Posix.Signal(server, server == postmaster ? Posix.Quit : Posix.Kill);
        if (await AllGone(real, TimeSpan.FromSeconds(10), cancel)) return;
        throw new StartException($"A PostgreSQL of an earlier start still serves {data} (process {string.Join(", ", Servers(real))}) and cannot be ended: end it, then start again.");
    }

    private static async Task<bool> AllGone(string data, TimeSpan within, CancellationToken cancel)
    {
        for (var clock = Stopwatch.StartNew(); clock.Elapsed < within; await Task.Delay(20, cancel))
            if (Servers(data).Length == 0) return true;
        return false;
    }

    // Every process of a PostgreSQL works in its data folder, the server and those that serve one client each.
    private static int[] Servers(string data) =>
        [.. Directory.EnumerateDirectories("/proc").Select(Path.GetFileName)
            .Where(n => char.IsAsciiDigit(n![0]) && WorkingFolder(n) == data).Select(n => int.Parse(n!, CultureInfo.InvariantCulture))];

    private static string? WorkingFolder(string process)
    {
        try { return new FileInfo($"/proc/{process}/cwd").LinkTarget; }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException) { return null; }
    }

    private static async Task EndByControl(string data, string bin, CancellationToken cancel)
    {
        using var control = Process.Start(new ProcessStartInfo(Path.Combine(bin, "pg_ctl"), ["stop", "-D", data, "-m", "fast", "-w", "-t", "10", "-s"]))!;
        await control.WaitForExitAsync(cancel);
    }

    private static string? NameOf(int process)
    {
        try { return Process.GetProcessById(process).ProcessName; }
        catch (ArgumentException) { return null; }
    }
}
