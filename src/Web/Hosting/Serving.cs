using HeirloomArchive.Web.Accounts;
using HeirloomArchive.Web.Demo;

namespace HeirloomArchive.Web.Hosting;

/// <summary>From the schema to the last request.</summary>
public static class Serving
{
    /// <summary>Brings the schema up to date, listens, makes the demo if it was asked for, says the address, and serves until stopped.</summary>
    /// <exception cref="StartException">PostgreSQL ended by itself: without it nothing could be kept.</exception>
    public static async Task Serve(this WebApplication app, bool demo, Task? postgresEnded, IProgress<string> said, CancellationToken stop)
    {
        await app.StartAsync(stop);
        var readiness = app.Services.GetRequiredService<Readiness>();
        if (demo) await MakeDemo(app, readiness, said, stop);
        readiness.Reach();
        await app.SayHowToBegin(said, stop);
        said.Report("The archive is ready: " + string.Join(" ", app.Urls));
        var stopped = app.WaitForShutdownAsync(stop);
        if (postgresEnded is null || await Task.WhenAny(stopped, postgresEnded) == stopped)
        {
            await stopped;
            return;
        }
        await app.StopAsync(CancellationToken.None);
        throw new StartException("PostgreSQL has ended by itself, so the archive stops too. Start it again: what was saved is there.");
    }

    private static async Task MakeDemo(WebApplication app, Readiness readiness, IProgress<string> said, CancellationToken stop)
    {
        using var client = new HttpClient { BaseAddress = new(app.Urls.First()) };
        if (app.Services.GetService<Tokens>() is { } tokens) client.DefaultRequestHeaders.Authorization = new("Bearer", tokens.Own);
        try
        {
            readiness.Report("The demo archive is being made.");
            await new DemoLoader(client, ProgramFolders.SeedDemo).Load(new Steps(readiness, said), stop);
        }
        catch (Exception e)
        {
            await app.StopAsync(CancellationToken.None);
            if (e is DemoException) throw new StartException($"The demo archive could not be made: {e.Message}");
            throw;
        }
    }

    // Every step for whoever asks, every tenth part for the terminal.
    private sealed class Steps(Readiness readiness, IProgress<string> said) : IProgress<DemoProgress>
    {
        private int tenths;

        public void Report(DemoProgress value)
        {
            readiness.Report($"The demo archive: {value.Done} of {value.Total} steps. {value.What}");
            if (value.Done * 10 / value.Total <= tenths) return;
            tenths = value.Done * 10 / value.Total;
            said.Report($"Making the demo archive: {value.Done} of {value.Total}");
        }
    }
}

/// <summary>Tells the person at the terminal what is being done.</summary>
public sealed class Said : IProgress<string>
{
    public void Report(string value) => Console.Out.WriteLine(value);
}
