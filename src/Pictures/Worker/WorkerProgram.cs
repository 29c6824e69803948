using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using System.Runtime.InteropServices;

namespace HeirloomArchive.Pictures;

/// <summary>How a worker is started: this very program with the hidden verb, with as little around it as the system allows.</summary>
/// <param name="Command">The program and what stands before the verb.</param>
public sealed record WorkerProgram(IReadOnlyList<string> Command)
{
    private const string Nobody = "65534";

    /// <summary>The running program when it is that assembly's own, else the assembly under <c>dotnet</c>.</summary>
    public static WorkerProgram Of(Assembly program)
    {
        ArgumentNullException.ThrowIfNull(program);
        var running = Environment.ProcessPath;
        return running is not null && Path.GetFileName(running) == program.GetName().Name + (OperatingSystem.IsWindows() ? ".exe" : "")
            ? new WorkerProgram([running])
            : new WorkerProgram([Dotnet(running), program.Location]);
    }

    /// <summary>A start with the limits the system itself can hold: CPU time, no file written, no rights, no environment.</summary>
    internal ProcessStartInfo Start(PictureLimits limits, TimeSpan cpu)
    {
        string[] command = [.. Confined(limits, cpu), .. Command, PictureWorker.Verb];
        var start = new ProcessStartInfo(command[0], command[1..])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Path.GetPathRoot(AppContext.BaseDirectory)!, // Any user can stand there; it has nothing of its own to write to.
        };
        var root = Environment.GetEnvironmentVariable("DOTNET_ROOT");
        var system = Environment.GetEnvironmentVariable("SystemRoot");
        start.Environment.Clear();
        foreach (var (name, value) in Surroundings(limits).Append(("DOTNET_ROOT", root)).Append(("SystemRoot", system)))
        {
            if (value is not null)
            {
                start.Environment[name] = value;
            }
        }

        return start;

        static IEnumerable<(string, string?)> Surroundings(PictureLimits limits) =>
        [
            // Pixels live outside the managed heap, so that the file itself and small things are all it needs.
            ("DOTNET_GCHeapHardLimit", (limits.WorkerBytes / 2).ToString("X", CultureInfo.InvariantCulture)),
            ("DOTNET_EnableDiagnostics", "0"),
            ("DOTNET_EnableWriteXorExecute", "0"), // It maps memory by way of a file, and no file may be written.
            ("DOTNET_TieredPGO", "0"),
            ("DOTNET_SYSTEM_GLOBALIZATION_INVARIANT", "1"),
        ];
    }

    private List<string> Confined(PictureLimits limits, TimeSpan cpu)
    {
        if (!OperatingSystem.IsLinux())
        {
            return [];
        }

        List<string> words = [];
        if (Tool("prlimit") is { } prlimit)
        {
            // The host looks at it more closely; its coming up alone can take a second.
            var seconds = Math.Max(10, (int)Math.Ceiling(cpu.TotalSeconds)).ToString(CultureInfo.InvariantCulture);
            var bytes = (limits.WorkerBytes * 3 / 2).ToString(CultureInfo.InvariantCulture);
            words.AddRange([prlimit, "--cpu=" + seconds, "--fsize=0", "--core=0", "--data=" + bytes]);
        }

        if (Tool("setpriv") is { } setpriv)
        {
            words.AddRange([setpriv, "--no-new-privs"]);
            if (Environment.IsPrivilegedProcess && Command.Where(Path.IsPathRooted).All(OpenToAll))
            {
                words.AddRange(["--reuid=" + Nobody, "--regid=" + Nobody, "--clear-groups"]);
            }
        }

        return words;
    }

    private static string? Tool(string name) =>
        new[] { "/usr/bin/", "/bin/" }.Select(folder => folder + name).FirstOrDefault(File.Exists);

    /// <summary>Whether any user can reach and read a file; under a closed home folder it can't be run as another.</summary>
    [System.Runtime.Versioning.SupportedOSPlatform("linux")]
    private static bool OpenToAll(string file)
    {
        for (var at = Path.GetDirectoryName(file); at is not null; at = Path.GetDirectoryName(at))
        {
            if (!File.GetUnixFileMode(at).HasFlag(UnixFileMode.OtherExecute))
            {
                return false;
            }
        }

        return File.GetUnixFileMode(file).HasFlag(UnixFileMode.OtherRead);
    }

    private static string Dotnet(string? running) =>
        Path.GetFileNameWithoutExtension(running) == "dotnet" ? running!
        : Environment.GetEnvironmentVariable("DOTNET_HOST_PATH")
            ?? Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "../../..", OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet"));
}
