using System.Reflection;

namespace HeirloomArchive.Web.Hosting;

/// <summary>Where the program's own files lie: beside it when published, beside its source when built and run there.</summary>
public static class ProgramFolders
{
    public static string Assembly { get; } = typeof(ProgramFolders).Assembly.Location;

    public static string Source { get; } = typeof(ProgramFolders).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>()
        .Single(a => a.Key == "SourceFolder").Value!;

    /// <summary>The folder of this relative path beside the program, else beside its source; null when neither is there.</summary>
    public static string? Find(string relative) =>
        new[] { Path.GetDirectoryName(Assembly)!, Source }.Select(f => Path.GetFullPath(Path.Combine(f, relative))).FirstOrDefault(Directory.Exists);
}
