using System.Reflection;

namespace HeirloomArchive.Web.Hosting;

/// <summary>Where the program's own files lie: beside it when published, beside its source when built and run there.</summary>
public static class ProgramFolders
{
    public static string Assembly { get; } = typeof(ProgramFolders).Assembly.Location;

    public static string Source { get; } = typeof(ProgramFolders).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>()
        .Single(a => a.Key == "SourceFolder").Value!;

    /// <summary>The demo's pieces, as files.</summary>
    /// <exception cref="StartException">They are neither beside the program nor where it was built.</exception>
    public static string SeedDemo => Find("seed-demo") ?? Find(Path.Combine("..", "..", "seed-demo"))
        ?? throw new StartException("The demo's pieces, the folder seed-demo, are not here: start without --demo.");

    /// <summary>The folder of this relative path beside the program, else beside its source; null when neither is there.</summary>
    public static string? Find(string relative) =>
        new[] { Path.GetDirectoryName(Assembly)!, Source }.Select(f => Path.GetFullPath(Path.Combine(f, relative))).FirstOrDefault(Directory.Exists);
}
