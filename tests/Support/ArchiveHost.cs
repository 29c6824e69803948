using HeirloomArchive.Web;
using HeirloomArchive.Web.Hosting;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace HeirloomArchive.Support;

/// <summary>
/// The whole service in this process: on a free loopback port, over a new database and a folder of its own.
/// As a class fixture, or within a test: <c>await using var host = await ArchiveHost.Start(postgres)</c>.
/// </summary>
public sealed class ArchiveHost(PostgresServer postgres) : IAsyncLifetime
{
    private readonly TemporaryFolder folder = new();
    private WebApplication? app;

    /// <summary>Where it listens, such as <c>http://127.0.0.1:40123/</c>.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>Asks at <see cref="Address"/>; follows no redirects, keeps no cookies.</summary>
    public HttpClient Client { get; private set; } = null!;

    /// <summary>Settings besides, as <c>--Archive:Access=Accounts</c>; before it is started.</summary>
    public IReadOnlyList<string> Settings { get; init; } = [];

    /// <summary>Puts services of the test's own, such as a clock, in place of the host's; before it is started.</summary>
    public Action<IServiceCollection>? Instead { get; init; }

    /// <summary>The archive's folder.</summary>
    public string Folder => folder.Path;

    /// <summary>Its database; a new one unless one is given before it is started.</summary>
    public string ConnectionString { get; set; } = "";

    public IServiceProvider Services => app!.Services;

    /// <param name="postgres">Where its database is made.</param>
    /// <param name="settings">Settings besides.</param>
    public static async Task<ArchiveHost> Start(PostgresServer postgres, params string[] settings)
    {
        var host = new ArchiveHost(postgres) { Settings = settings };
        await host.InitializeAsync();
        return host;
    }

    public async ValueTask InitializeAsync()
    {
        if (ConnectionString.Length == 0) ConnectionString = await postgres.NewDatabase();
        await StartAsync();
    }

    /// <summary>Starts it, again after <see cref="StopAsync"/> at the same address, over the same database and folder.</summary>
    public async Task StartAsync()
    {
        var address = Address is null ? "http://127.0.0.1:0" : Address.GetLeftPart(UriPartial.Authority);
        var builder = Foundation.CreateBuilder([$"--urls={address}", $"--Archive:Folder={Folder}", $"--ConnectionStrings:Archive={ConnectionString}", .. Settings]);
        Instead?.Invoke(builder.Services);
        app = Program.Build(builder, ArchiveSettings.Read(builder.Configuration, demo: false));
        await app.StartAsync();
        app.Services.GetRequiredService<Readiness>().Reach();
        Address = new(app.Urls.Single());
        Client ??= new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = Address };
    }

    /// <summary>Stops it; the database and the folder stay.</summary>
    public async Task StopAsync()
    {
        if (app is not null)
        {
            await app.StopAsync();
            await app.DisposeAsync();
            app = null;
        }
    }

    public async ValueTask DisposeAsync()
    {
        Client?.Dispose();
        await StopAsync();
        folder.Dispose();
    }
}
