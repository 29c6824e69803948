using System.Security.Authentication;
using JasperFx.Events.Daemon;
using Marten;
using Microsoft.Extensions.Logging.Console;
using Npgsql;

namespace HeirloomArchive.Web.Hosting;

/// <summary>What every room stands on: settings, logs, the record's store.</summary>
public static class Foundation
{
    // Quiet: warnings and worse. The weakest source, so that appsettings.json, environment and command line win.
    private static readonly Dictionary<string, string?> Defaults = new()
    {
        ["urls"] = LoopbackOnly.DefaultAddress,
        ["Logging:LogLevel:Default"] = "Warning",
        ["Logging:Console:FormatterOptions:IncludeScopes"] = "true",
        ["Logging:Console:FormatterOptions:UseUtcTimestamp"] = "true",
        ["Logging:Console:FormatterOptions:TimestampFormat"] = "yyyy-MM-dd'T'HH:mm:ss.fff'Z' ",
        // One line for each statement, of which a request has many.
        ["Logging:LogLevel:Npgsql"] = "Warning",
        // It listens to PostgreSQL until the very end, and would warn when that is stopped; it finds its way back by itself.
        ["Logging:LogLevel:Marten.Events.Daemon.Coordination.ProjectionCoordinator"] = "Error",
        // It would warn that keys lie unencrypted where the whole archive lies.
        ["Logging:LogLevel:Microsoft.AspNetCore.DataProtection"] = "Error",
    };

    // Never logged, whatever is set: what they write holds what must not be in a log.
    private static readonly string[] NeverLogged =
    [
        "Marten.IDocumentStore",                        // on an error the statement with its values, which are notes and names of people
        "Microsoft.AspNetCore.Hosting.Diagnostics",     // whole addresses, with what was searched for and codes of invitations; RequestLog is in its place
    ];

    /// <param name="settings">As <c>--Key=value</c>.</param>
    public static WebApplicationBuilder CreateBuilder(string[] settings)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            Args = settings,
            ApplicationName = typeof(Program).Assembly.GetName().Name,
            // The folder it was started in is hers, not the program's.
            ContentRootPath = Path.GetDirectoryName(ProgramFolders.Assembly),
        });
        builder.Configuration.Sources.Insert(0, new Microsoft.Extensions.Configuration.Memory.MemoryConfigurationSource { InitialData = Defaults });
        builder.Configuration["http_ports"] = builder.Configuration["https_ports"] = "";   // images set them; only urls counts
        // A shared archive's log is read by programs, one person's by herself.
        if (AccessSettings.AreAccounts(builder.Configuration)) builder.Configuration["Logging:Console:FormatterName"] ??= ConsoleFormatterNames.Json;
        builder.Logging.ClearProviders().AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        builder.Services.PostConfigure<LoggerFilterOptions>(filter =>
        {
            foreach (var category in NeverLogged) filter.Rules.Add(new(null, category, LogLevel.None, null));
        });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            // Who sends headers by drops is dropped; of bodies Kestrel's least rate is kept (240 bytes a second after five seconds).
            kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
            kestrel.ConfigureHttpsDefaults(https => https.SslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13);
        });
        builder.Services.Configure<HostOptions>(host => host.ShutdownTimeout = TimeSpan.FromSeconds(4));
        return builder;
    }

    /// <summary>The record's store over one PostgreSQL; each room says what it keeps there.</summary>
    public static IServiceCollection AddRecord(this IServiceCollection services, string database, params Action<StoreOptions>[] rooms)
    {
        services.AddNpgsqlDataSource(database);
        services.AddMarten(provider =>
            {
                var options = new StoreOptions();
                options.Events.TimeProvider = provider.GetRequiredService<TimeProvider>();
                foreach (var room in rooms) room(options);
                return options;
            })
            .UseNpgsqlDataSource().UseLightweightSessions()
            .ApplyAllDatabaseChangesOnStartup().AddAsyncDaemon(DaemonMode.HotCold);
        return services;
    }

    /// <exception cref="StartException">The PostgreSQL of one's own does not answer.</exception>
    public static async Task CheckDatabase(string database, CancellationToken cancel)
    {
        try
        {
            await using var source = NpgsqlDataSource.Create(database);
            await using var connection = await source.OpenConnectionAsync(cancel);
        }
        catch (NpgsqlException e)
        {
            throw new StartException($"The PostgreSQL of ConnectionStrings:Archive cannot be used: {e.Message}");
        }
    }
}
