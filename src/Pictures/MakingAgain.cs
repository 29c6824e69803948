using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace HeirloomArchive.Pictures;

/// <summary>How far it has come with derivatives that are not there yet, or are of an older recipe.</summary>
/// <param name="Done">Originals seen to since the service started.</param>
/// <param name="Total">Originals known to need something since then; equal to <paramref name="Done"/> when nothing is left.</param>
/// <param name="Failed">Of those done, how many can no longer be decoded.</param>
public sealed record MakingProgress(int Done, int Total, int Failed);

/// <summary>
/// Makes in the background what nobody waits for: tiles and WebP of new originals, and all derivatives again when the recipe
/// has changed. One at a time, and after what others need of the machine.
/// </summary>
public sealed class MakingAgain(PictureStore store, Derivatives derivatives, ILogger<MakingAgain> log) : BackgroundService
{
    private volatile MakingProgress progress = new(0, 0, 0);

    /// <summary>How far it has come.</summary>
    public MakingProgress Progress => progress with { Total = progress.Total + derivatives.Later.Count };

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        var missing = store.Originals().Where(o => !store.HasFirst(o) || !store.HasRest(o)).ToList();
        progress = progress with { Total = missing.Count };
        foreach (var sha256 in missing)
        {
            await Make(sha256, stoppingToken);
        }

        store.DropOldRecipes();
        while (await derivatives.Later.WaitToReadAsync(stoppingToken))
        {
            progress = progress with { Total = progress.Total + 1 }; // Counted before it is taken out, so that it is never missed.
            await Make(await derivatives.Later.ReadAsync(stoppingToken), stoppingToken);
        }
    }

    private async Task Make(string sha256, CancellationToken stop)
    {
        var failed = 0;
        try
        {
            await derivatives.MakeMissing(sha256, stop);
        }
        catch (RefusedException e)
        {
            failed = 1;
            Said.Refused(log, sha256, e.Message);
        }
        // Whatever it is: what nobody waits for must not stop the archive, and is tried again at the next start.
        catch (Exception e) when (e is not OperationCanceledException)
        {
            failed = 1;
            Said.Failed(log, sha256, e);
        }

        progress = progress with { Done = progress.Done + 1, Failed = progress.Failed + failed };
    }
}

internal static partial class Said
{
    [LoggerMessage(LogLevel.Warning, "The original {Sha256} can't be made smaller pictures of: {Reason}")]
    public static partial void Refused(ILogger log, string sha256, string reason);

    [LoggerMessage(LogLevel.Error, "The smaller pictures of {Sha256} could not be made.")]
    public static partial void Failed(ILogger log, string sha256, Exception e);
}
