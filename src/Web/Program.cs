using HeirloomArchive.Pictures;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Hosting.Postgres;

namespace HeirloomArchive.Web;

/// <summary>The whole service, in the order in which it comes up.</summary>
public static class Program
{
    public static async Task<int> Main(string[] args) => args is [PictureWorker.Verb, ..] ? PictureWorker.Run(args) : await Running.UntilStopped(stop => Serve(CommandLine.Read(args), stop));

    private static async Task Serve(CommandLine command, CancellationToken stop)
    {
        var builder = Foundation.CreateBuilder(command.Settings);
        var settings = ArchiveSettings.Read(builder.Configuration, command.Demo);
        LoopbackOnly.Check(builder.Configuration);
        var readiness = new Readiness();
        var said = new Said(readiness);

        using var folder = ArchiveFolder.Open(settings.Folder, command.Demo);
        if (settings.Database is not null) await Foundation.CheckDatabase(settings.Database, stop);
        await using var postgres = settings.Database is null ? await EmbeddedPostgres.Start(settings.Folder, said, stop) : null;
        await using var app = Build(builder, settings with { Database = settings.Database ?? postgres!.ConnectionString }, readiness);
        await app.StartAsync(stop);
        readiness.Reach();
        Console.Out.WriteLine("The archive is ready: " + string.Join(" ", app.Urls));
        await app.WaitForShutdownAsync(stop);
    }

    /// <summary>The service over a folder and a database that are there; <c>StartAsync</c> brings the schema up to date and listens.</summary>
    /// <param name="builder">From <see cref="Foundation.CreateBuilder"/>.</param>
    /// <param name="settings">With a database.</param>
    /// <param name="readiness">Not reached until the caller says so.</param>
    public static WebApplication Build(WebApplicationBuilder builder, ArchiveSettings settings, Readiness readiness)
    {
        builder.Services.AddSingleton(settings).AddSingleton(readiness).AddSingleton(TimeProvider.System);
        builder.Services.AddRecord(settings.Database!, KeyRing.Configure);
        builder.Services.AddProblemDetails();
        builder.Services.AddRazorPages();

        var app = builder.Build();
        app.UseExceptionHandler();
        app.UseStatusCodePages();
        app.UseLoopbackOnly();
        app.MapHealth();
        app.MapStaticAssets();
        app.MapRazorPages().WithStaticAssets();
        return app;
    }
}
