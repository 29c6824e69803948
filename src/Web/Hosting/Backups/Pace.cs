using System.Diagnostics;
using System.Globalization;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>Tells how far a long work is, but no oftener than a person reads.</summary>
internal sealed class Pace(IProgress<string> progress)
{
    private static readonly TimeSpan Often = TimeSpan.FromSeconds(1);
    private readonly Stopwatch since = Stopwatch.StartNew();

    public void Say(Func<string> how)
    {
        if (since.Elapsed < Often) return;
        progress.Report(how());
        since.Restart();
    }

    public static string Megabytes(long bytes) => (bytes / 1_000_000.0).ToString("0.0", CultureInfo.InvariantCulture);
}
