namespace HeirloomArchive.Web.Hosting.Postgres;

/// <summary>Sees to it that the archive's own PostgreSQL runs: one that ends by itself is started again, at the same address.</summary>
internal static partial class Keeping
{
    private static readonly TimeSpan FirstPause = TimeSpan.FromMilliseconds(500), LongestPause = TimeSpan.FromSeconds(30);

    /// <summary>Until asked to stop. Meanwhile, requests that need the record are answered with 503; nothing that was acknowledged is lost.</summary>
    public static async Task Keep(this EmbeddedPostgres postgres, ILogger log, CancellationToken stop)
    {
        try
        {
            while (true)
            {
                await postgres.Ended.WaitAsync(stop);
                HasEnded(log, postgres.ExitCode);
                await StartAgain(postgres, log, stop);
                RunsAgain(log);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // The archive itself ends, and PostgreSQL with it.
        }
    }

    // What keeps it from starting may pass, as a full disk does: it is tried for as long as the archive runs, ever more rarely.
    private static async Task StartAgain(EmbeddedPostgres postgres, ILogger log, CancellationToken stop)
    {
        for (var pause = FirstPause; ; pause = pause * 2 < LongestPause ? pause * 2 : LongestPause)
        {
            try
            {
                await postgres.StartAgain(stop);
                return;
            }
            catch (Exception e) when (e is StartException or IOException or UnauthorizedAccessException or System.ComponentModel.Win32Exception)
            {
                DoesNotStart(log, pause.TotalSeconds, e.Message);
            }

            await Task.Delay(pause, stop);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "PostgreSQL has ended by itself (code {Code}). It is started again; what was saved is there.")]
    private static partial void HasEnded(ILogger log, int code);

    [LoggerMessage(Level = LogLevel.Warning, Message = "PostgreSQL runs again.")]
    private static partial void RunsAgain(ILogger log);

    [LoggerMessage(Level = LogLevel.Error, Message = "It is tried again in {Seconds} s: {Reason}")]
    private static partial void DoesNotStart(ILogger log, double seconds, string reason);
}
