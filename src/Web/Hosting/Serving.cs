using HeirloomArchive.Web.Accounts;
using HeirloomArchive.Web.Demo;
using HeirloomArchive.Web.Hosting.Postgres;

namespace HeirloomArchive.Web.Hosting;

/// <summary>From the schema to the last request.</summary>
public static class Serving
{
    /// <summary>Brings the schema up to date, listens, makes the demo if it was asked for, says the address, and serves until stopped.</summary>
    /// <param name="app">The service, not started yet.</param>
    /// <param name="demo">Whether the demo archive is to be made.</param>
    /// <param name="postgres">The PostgreSQL of its own, which is kept running; null where it is somebody else's.</param>
    /// <param name="said">Told what is being done.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task Serve(this WebApplication app, bool demo, EmbeddedPostgres? postgres, IProgress<string> said, CancellationToken stop)
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var kept = postgres?.Keep(app.Logger, end.Token) ?? Task.CompletedTask;
        try
        {
            await app.StartAsync(stop);
            var readiness = app.Services.GetRequiredService<Readiness>();
            if (demo) await MakeDemo(app, readiness, said, stop);
            readiness.Reach();
            await app.SayHowToBegin(said, stop);
            said.Report("The archive is ready: " + string.Join(" ", app.Urls));
            await app.WaitForShutdownAsync(stop);
        }
        finally
        {
            await end.CancelAsync();
            await kept;
        }
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
