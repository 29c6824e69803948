using System.Net.Sockets;
using System.Runtime.InteropServices;
using Microsoft.AspNetCore.Connections;

namespace HeirloomArchive.Web.Hosting;

/// <summary>From the first moment to the last: hears the signals to stop, and ends with a reason instead of a stack.</summary>
public static class Running
{
    /// <summary>Runs until the work ends or a signal asks it to stop.</summary>
    /// <returns>The program's code: 0 when it ended as asked, else 1.</returns>
    public static async Task<int> UntilStopped(Func<CancellationToken, Task> work)
    {
        using var stop = new CancellationTokenSource();
        void Stop(PosixSignalContext signal)
        {
            signal.Cancel = true;
            stop.Cancel();
        }
        using var interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        using var terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
        using var hangUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, Stop);
        try
        {
            await work(stop.Token);
            return 0;
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            return 0;
        }
        catch (StartException e)
        {
            await Console.Error.WriteLineAsync(e.Message);
        }
        catch (Exception e) when (e is AddressInUseException || e.InnerException is AddressInUseException)
        {
            await Console.Error.WriteLineAsync($"{e.Message} Another program listens there: end it, or take another address with --urls=http://127.0.0.1:PORT.");
        }
        catch (Exception e) when (e is SocketException or IOException or UnauthorizedAccessException)
        {
            await Console.Error.WriteLineAsync(e.Message);
        }
        return 1;
    }
}
