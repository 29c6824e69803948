using HeirloomArchive.Support;
using HeirloomArchive.Web.Access;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.RazorPages.Infrastructure;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Patterns;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Access;

/// <summary>The table of who may do what, against the routes of the running service.</summary>
public sealed class MatrixTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private IReadOnlyList<Endpoint> Endpoints => host.Services.GetRequiredService<EndpointDataSource>().Endpoints;

    [Fact]
    public void Every_route_has_a_row() => Assert.Empty(Matrix.Missing(Endpoints));

    [Fact]
    public void A_route_without_a_row_is_found_missing()
    {
        Endpoint[] unknown = [new RouteEndpoint(_ => Task.CompletedTask, RoutePatternFactory.Parse("/api/no-such-noun"), 0, new([new HttpMethodMetadata(["PATCH"])]), null)];
        Assert.Equal(["PATCH /api/no-such-noun"], Matrix.Missing(unknown));
        Assert.Null(Matrix.Find("PATCH", unknown[0]));
    }

    [Fact]
    public async Task Every_page_that_takes_a_form_has_a_row_for_it()
    {
        var loader = host.Services.GetRequiredService<PageLoader>();
        var missing = new List<string>();
        foreach (var endpoint in Endpoints.OfType<RouteEndpoint>())
        {
            if (endpoint.Metadata.GetMetadata<PageActionDescriptor>() is not { } page) continue;
            var compiled = await loader.LoadAsync(page, EndpointMetadataCollection.Empty);
            missing.AddRange(compiled.HandlerMethods.Where(h => h.HttpMethod.Equals("POST", StringComparison.OrdinalIgnoreCase) && Matrix.Find("POST", endpoint, h.Name) is null)
                .Select(h => $"POST {Matrix.RouteOf(endpoint)} ({h.MethodInfo.Name})"));
        }

        Assert.Empty(missing);
    }

    [Fact]
    public async Task A_program_of_the_one_person_is_let_through_and_her_name_stands_in_the_history()
    {
        var entered = await host.Client.PostAsync(new Uri("/api/garments", UriKind.Relative), new StringContent("""{"name":"Guimpe"}""", System.Text.Encoding.UTF8, "application/json"), TestContext.Current.CancellationToken);
        var history = await host.Client.GetStringAsync(new Uri(entered.Headers.Location + "/history", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Contains("\"who\":\"owner\"", history, StringComparison.Ordinal);
    }
}
