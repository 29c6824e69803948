using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Pictures.Checking;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Accounts;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Guide;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Hosting.Backups;
using HeirloomArchive.Web.Hosting.Postgres;
using HeirloomArchive.Web.Pages;
using HeirloomArchive.Worksheets;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace HeirloomArchive.Web;

/// <summary>The whole service, in the order in which it comes up.</summary>
public static class Program
{
    public static async Task<int> Main(string[] args) => args is [PictureWorker.Verb, ..]
        ? PictureWorker.Run(args)
        : await Running.UntilStopped(stop => InEnglish(() => Run(CommandLine.Read(args), stop)));

    // Programs, logs and what is stored are told in English, whatever language the machine speaks; a page asks for its reader's own.
    private static Task InEnglish(Func<Task> run)
    {
        CultureInfo.DefaultThreadCurrentUICulture = CultureInfo.CurrentUICulture = CultureInfo.InvariantCulture;
        return run();
    }

    // A service that was asked to stop has done its work; a verb has not, and whoever called it has to know.
    private static async Task Run(CommandLine command, CancellationToken stop)
    {
        try
        {
            await Do(command, stop);
        }
        catch (OperationCanceledException) when (command.File is not null)
        {
            throw new StartException($"Stopped before the end: no {command.Verb} was made.");
        }
    }

    private static async Task Do(CommandLine command, CancellationToken stop)
    {
        var builder = Foundation.CreateBuilder(command.Settings);
        var settings = ArchiveSettings.Read(builder.Configuration, command.Demo);
        LoopbackOnly.Check(builder.Configuration, settings.Access);
        var said = new Said();
        if (command.Verb == CommandLine.Health)
        {
            await HealthQuestion.Ask(builder.Configuration["urls"]!, settings.Access, said, stop);
            return;
        }

        // A damaged backup is refused before anything is made.
        if (command.Verb == CommandLine.Restore) await Seal.Check(command.File!, said, stop);
        using var restored = command.Verb == CommandLine.Restore ? EmptyFolder.Open(settings.Folder) : null;
        // A backup joins the service that runs; all else has the folder to itself.
        var joined = command.Verb == CommandLine.Backup ? settings.Database ?? await EmbeddedPostgres.FindRunning(settings.Folder, stop) : null;
        using var folder = joined is null && restored is null ? ArchiveFolder.Open(settings.Folder, command.Demo) : null;
        if (command.Verb is null) FreePort.Check(builder.Configuration);
        await using var postgres = joined is null && settings.Database is null ? await EmbeddedPostgres.Start(settings.Folder, said, cancel: stop) : null;
        if (settings.Database is not null) await Foundation.CheckDatabase(settings.Database, stop);

        await using var app = Build(builder, settings with { Database = joined ?? settings.Database ?? postgres!.ConnectionString, KeysInFolder = settings.Database is null });
        await (command.Verb switch
        {
            CommandLine.Backup => Backup.Make(app.Services, command.File!, said, stop),
            CommandLine.Restore => Restore.From(app.Services, command.File!, left: restored!.Left && postgres is not null, said, stop),
            _ => app.Serve(command.Demo, postgres, said, stop),
        });
        restored?.Filled();
    }

    /// <summary>The service over a folder and a database that are there.</summary>
    /// <param name="builder">From <see cref="Foundation.CreateBuilder"/>.</param>
    /// <param name="settings">With a database.</param>
    public static WebApplication Build(WebApplicationBuilder builder, ArchiveSettings settings)
    {
        builder.Services.AddSingleton(settings).AddSingleton<Readiness>().TryAddSingleton(TimeProvider.System);
        builder.Services.AddRecord(settings.Database!, CatalogueStore.Configure, WorksheetStore.Configure, RegionStore.Configure, OriginalsCheck.Configure, KeyRing.Configure, AccountsStore.Configure);
        KeyRing.Add(builder.Services, settings);
        builder.Services.AddTelemetry(settings.Telemetry);
        builder.Services.AddCatalogue();
        builder.Services.AddPictures(settings.Pictures, settings.CheckHour);
        builder.Services.AddSearch(Path.Combine(settings.Folder, "index"));
        builder.Services.AddApi();
        builder.Services.AddPages();
        builder.Services.AddAccess(settings.Access);

        var app = builder.Build();
        app.UseMiddleware<RequestLog>();
        app.UseProxies(settings.Access);
        app.UseExceptionHandler();
        app.UseStatusCodePages();
        app.UsePages();
        app.UseAccess(settings.Access);
        app.MapHealth();
        app.MapApi();
        app.MapAccounts(settings.Access);
        app.MapPages();
        app.MapGuide();
        app.CheckMatrix();
        return app;
    }
}
