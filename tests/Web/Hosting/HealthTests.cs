using System.Net;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Hosting;

public class HealthTests(PostgresServer postgres)
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_started_service_is_live_and_ready()
    {
        await using var host = await ArchiveHost.Start(postgres);
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/health/live", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/health/ready", Cancel)).StatusCode);
    }

    [Fact]
    public async Task While_it_works_it_is_live_but_not_ready_and_says_what_it_does()
    {
        await using var host = await ArchiveHost.Start(postgres);
        host.Services.GetRequiredService<Readiness>().Report("The demo archive: 3 of 40 pieces.");
        var ready = await host.Client.GetAsync("/health/ready", Cancel);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, ready.StatusCode);
        Assert.Equal("application/problem+json", ready.Content.Headers.ContentType?.MediaType);
        Assert.Equal("The demo archive: 3 of 40 pieces.", JsonNode.Parse(await ready.Content.ReadAsStringAsync(Cancel))!["progress"]!.GetValue<string>());
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/health/live", Cancel)).StatusCode);
    }
}
