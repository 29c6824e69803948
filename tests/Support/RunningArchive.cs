using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using HeirloomArchive.Web.Hosting;
using Xunit.v3;

namespace HeirloomArchive.Support;

/// <summary>The program as she starts it: a process of its own, over a folder, on a free port.</summary>
public sealed class RunningArchive : IAsyncDisposable
{
    private readonly Process process;
    private readonly StringBuilder said = new();

    private RunningArchive(ProcessStartInfo start, string folder, int port)
    {
        Folder = folder;
        Address = new($"http://127.0.0.1:{port.ToString(CultureInfo.InvariantCulture)}");
        Client = new HttpClient { BaseAddress = Address };
        start.RedirectStandardOutput = start.RedirectStandardError = start.RedirectStandardInput = true;
        process = Process.Start(start)!;
        process.OutputDataReceived += (_, line) => Hear(line.Data);
        process.ErrorDataReceived += (_, line) => Hear(line.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    public string Folder { get; }
    public Uri Address { get; }
    public HttpClient Client { get; }

    /// <summary>The process that was started: <c>dotnet run</c>, or the host itself.</summary>
    public int Id => process.Id;

    public int PostgresId => int.Parse(File.ReadLines(PostmasterFile).First(), CultureInfo.InvariantCulture);
    public string PostmasterFile => Path.Combine(Folder, "pg18", "postmaster.pid");

    public string Said
    {
        get { lock (said) return said.ToString(); }
    }

    /// <summary>The built program, without the SDK around it.</summary>
    public static RunningArchive Start(string folder, string[]? arguments = null, Action<ProcessStartInfo>? change = null) =>
        Start(["exec", ProgramFolders.Assembly], folder, arguments ?? ["--Archive:Folder=" + folder], change);

    /// <summary><c>dotnet run --project src/Web</c>, as the README says it.</summary>
    public static RunningArchive StartFromSource(string folder, string[]? arguments = null, Action<ProcessStartInfo>? change = null) =>
        Start(["run", "--no-build", "-c", Configuration, "--project", ProgramFolders.Source, "--"], folder, arguments ?? ["--Archive:Folder=" + folder], change);

    private static string Configuration =>
#if DEBUG
        "Debug";
#else
        "Release";
#endif

    private static RunningArchive Start(string[] program, string folder, string[] arguments, Action<ProcessStartInfo>? change)
    {
        if (!OperatingSystem.IsLinux()) throw new PlatformNotSupportedException(DynamicSkipToken.Value + "It watches processes through /proc, which only Linux has.");
        var port = FreePort();
        var start = new ProcessStartInfo(Environment.ProcessPath is { } dotnet && Path.GetFileNameWithoutExtension(dotnet) == "dotnet" ? dotnet : "dotnet",
            [.. program, $"--urls=http://127.0.0.1:{port.ToString(CultureInfo.InvariantCulture)}", .. arguments]);
        change?.Invoke(start);
        return new(start, folder, port);
    }

    public async Task<RunningArchive> Ready()
    {
        var clock = Stopwatch.StartNew();
        while (clock.Elapsed < TimeSpan.FromSeconds(90))
        {
            if (process.HasExited) throw new InvalidOperationException($"It ended before it was ready. It said: {Said}");
            if (await IsReady()) return this;
            await Task.Delay(50);
        }
        throw new TimeoutException($"It is not ready after {clock.Elapsed}. It said: {Said}");
    }

    public async Task<bool> IsReady()
    {
        try
        {
            return (await Client.GetAsync("/health/ready")).StatusCode == HttpStatusCode.OK;
        }
        catch (HttpRequestException)
        {
            return false;   // It does not listen yet.
        }
    }

    /// <returns>The code it ended with, by itself.</returns>
    public async Task<int> Code(TimeSpan within)
    {
        try { await process.WaitForExitAsync().WaitAsync(within); }
        catch (TimeoutException) { throw new TimeoutException($"It has not ended within {within}. It said: {Said}"); }
        return process.ExitCode;
    }

    /// <summary>The host's own id, also under <c>dotnet run</c>.</summary>
    public int HostId() => Children(Id) is [var child, ..] && CommandOf(Id).Contains("run", StringComparison.Ordinal) ? child : Id;

    /// <summary>Whether this run ignores a signal ("HUP", "INT" or "TERM"), as under nohup or in a shell's background; all that it starts does too.</summary>
    public static bool IsIgnored(string signal)
    {
        // SigIgn is a mask in hexadecimal; SIGHUP is its lowest bit, SIGINT the next, SIGTERM the fifteenth.
        var mask = Convert.ToUInt64(File.ReadLines("/proc/self/status").Single(l => l.StartsWith("SigIgn:", StringComparison.Ordinal))["SigIgn:".Length..].Trim(), 16);
        return (mask >> (signal switch { "HUP" => 0, "INT" => 1, _ => 14 }) & 1) == 1;
    }

    public static void Signal(string name, params int[] processes)
    {
        using var kill = Process.Start("/bin/sh", ["-c", $"kill -{name} {string.Join(' ', processes)}"]);
        kill.WaitForExit();
    }

    /// <summary>Whether it runs; one that has ended and only waits for its parent's notice does not.</summary>
    public static bool Runs(int id)
    {
        try { return !File.ReadAllText($"/proc/{id}/stat").Split(')')[^1].StartsWith(" Z", StringComparison.Ordinal); }
        catch (IOException) { return false; }
    }

    /// <summary>A port of this machine where nothing listens, below those it hands out itself: one of them a connection could take while the host is still starting.</summary>
    public static int FreePort()
    {
        while (true)
        {
            var port = Random.Shared.Next(20_000, 32_000);
            using var listener = new TcpListener(IPAddress.Loopback, port);
            try
            {
                listener.Start();
                return port;
            }
            catch (SocketException)
            {
                // Another listens there.
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        if (!process.HasExited)
        {
            Signal("TERM", Id);
            try { await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(10)); }
            catch (TimeoutException) { process.Kill(entireProcessTree: true); }
        }
        process.Dispose();
    }

    private void Hear(string? line)
    {
        lock (said) said.AppendLine(line);
    }

    private static string CommandOf(int id) => string.Join(' ', File.ReadAllText($"/proc/{id}/cmdline").Split('\0').Skip(1).Take(1));

    /// <summary>The processes that one has started.</summary>
    public static int[] Children(int id) =>
        [.. Directory.EnumerateDirectories("/proc").Select(d => Path.GetFileName(d)).Where(n => char.IsAsciiDigit(n[0]))
            .Select(n => int.Parse(n, CultureInfo.InvariantCulture)).Where(child => ParentOf(child) == id)];

    private static int? ParentOf(int id)
    {
        try { return int.Parse(File.ReadAllText($"/proc/{id}/stat").Split(')')[^1].Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture); }
        catch (IOException) { return null; }
    }
}
