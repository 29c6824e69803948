namespace HeirloomArchive.Web.Demo;

/// <summary>How far the demonstration has been loaded.</summary>
/// <param name="Done">Steps done, those found done from an earlier start included.</param>
/// <param name="Total">All steps.</param>
/// <param name="What">What was just done: "H-004: picture".</param>
public sealed record DemoProgress(int Done, int Total, string What);

/// <summary>A file of the demonstration could not be loaded; the message names it and says why.</summary>
public sealed class DemoException(string file, string problem, Exception? inner = null) : Exception($"{file}: {problem}", inner)
{
    /// <summary>The file, relative to the seed folder.</summary>
    public string File { get; } = file;
}
