using HeirloomArchive.Web.Hosting;

namespace HeirloomArchive.Support;

/// <summary>The source that the tests were built from.</summary>
public static class SourceFolder
{
    /// <summary>Its topmost folder, where the solution lies.</summary>
    public static string Top { get; } = Path.GetFullPath(Path.Combine(ProgramFolders.Source, "..", ".."));
}
