using System.Net.Http.Headers;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Access;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Access;

/// <summary>Every endpoint of the running service, tried as each role: who may gets through, who may not is refused.</summary>
public sealed partial class WalkTests(Household house) : IClassFixture<Household>
{
    [Theory]
    [InlineData("visitor", Role.Visitor)]
    [InlineData("pupil", Role.Pupil)]
    [InlineData("helper", Role.Helper)]
    [InlineData("keeper", Role.Keeper)]
    [InlineData("owner", Role.Owner)]
    public async Task Each_role_may_do_what_the_table_says_and_nothing_else(string who, Role role)
    {
        var wrong = new List<string>();
        var tried = 0;
        foreach (var endpoint in house.Host.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>())
        {
            if (endpoint.Metadata.GetMetadata<Microsoft.AspNetCore.StaticAssets.StaticAssetDescriptor>() is not null) continue;
            var page = endpoint.Metadata.GetMetadata<PageActionDescriptor>() is not null;
            foreach (var method in page ? ["GET", "POST"] : endpoint.Metadata.GetMetadata<Microsoft.AspNetCore.Routing.HttpMethodMetadata>()!.HttpMethods)
            {
                // Signing out would end the walk; it is tried elsewhere.
                if (Matrix.RouteOf(endpoint) is "/api/account/sign-out" or "/{**path:file}") continue;
                var row = Matrix.Find(method, endpoint);
                var (status, to) = await Try(house.As(who), method, endpoint);
                tried++;
                var refused = status is 401 or 403 || to.StartsWith("/account/sign-in?", StringComparison.Ordinal);
                var may = row is not null && role >= row.Least;
                if (may ? refused && row!.Least != Role.Anyone : !refused) wrong.Add($"{method} {Matrix.RouteOf(endpoint)}: {status} {to}, {(may ? "but she may" : "but she may not")}");
                if (!may && status == 401 && role > Role.Visitor) wrong.Add($"{method} {Matrix.RouteOf(endpoint)}: 401 for somebody who has signed in");
            }
        }

        Assert.True(tried > 120, $"only {tried} were tried");
        Assert.Empty(wrong);
    }

    private static async Task<(int Status, string To)> Try(HttpClient client, string method, RouteEndpoint endpoint)
    {
        var path = Parameter().Replace(Matrix.RouteOf(endpoint), m => m.Value switch
        {
            var p when p.Contains(":guid", StringComparison.Ordinal) => "0199a1b2-0000-7000-8000-00000000abcd",
            var p when p.Contains("regex", StringComparison.Ordinal) => "techniques",
            var p when p.Contains(":long", StringComparison.Ordinal) || p.Contains(":int", StringComparison.Ordinal) => "404",
            "{documentName}" => "v1",
            "{entry}" => "new",
            _ => "some",
        });
        using var request = new HttpRequestMessage(new(method), path);
        if (method is not ("GET" or "HEAD"))
        {
            var type = endpoint.Metadata.GetMetadata<IAcceptsMetadata>()?.ContentTypes[0];
            request.Content = new ByteArrayContent("{}"u8.ToArray());
            request.Content.Headers.ContentType = new MediaTypeHeaderValue(type ?? "application/json");
        }

        using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        return ((int)answer.StatusCode, answer.Headers.Location?.ToString() ?? "");
    }

    [GeneratedRegex(@"\{(?:[^{}]|\([^)]*\))*\}")]
    private static partial Regex Parameter();
}
