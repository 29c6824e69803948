using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace HeirloomArchive.Pictures.Checking;

/// <summary>At which hour of the night the originals are checked.</summary>
/// <param name="Hour">0 to 23, of the local time.</param>
public sealed record CheckHour(int Hour = 3);

/// <summary>
/// What has to be done from time to time without being asked: uploads that expired are swept, and once a night every original is
/// checked. A computer that was off at that hour checks soon after it is on again.
/// </summary>
public sealed partial class PictureKeeping(OriginalsCheck check, PartedUploads uploads, CheckHour hour, TimeProvider clock, ILogger<PictureKeeping> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromMinutes(10);

    /// <summary>Whether a check is due.</summary>
    /// <param name="last">When the last that was finished began; null if there was none.</param>
    /// <param name="now">The local time.</param>
    /// <param name="hour">The hour it is set to.</param>
    public static bool IsDue(DateTimeOffset? last, DateTimeOffset now, int hour)
    {
        var today = new DateTimeOffset(now.Date.AddHours(hour), now.Offset);
        return last is null || last < (now >= today ? today : today.AddDays(-1));
    }

    /// <summary>Does what is due now.</summary>
    public async Task Round(CancellationToken stop)
    {
        uploads.Sweep();
        var (last, running) = await check.Look(stop);
        if (running is null && IsDue(last?.Started, clock.GetLocalNow(), hour.Hour) && await check.Begin(stop) is { } run)
        {
            var report = await run;
            if (!report.IsWell)
            {
                NotWell(report.Missing.Count, report.Changed.Count);
            }
        }
    }

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Pause, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                await Round(stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Failed(e);
            }
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "Originals are not as they should be: {Missing} missing, {Changed} changed. The page /pictures/check names them.")]
    private partial void NotWell(int missing, int changed);

    [LoggerMessage(Level = LogLevel.Warning, Message = "Sweeping expired uploads or checking the originals failed; it is tried again.")]
    private partial void Failed(Exception e);
}
