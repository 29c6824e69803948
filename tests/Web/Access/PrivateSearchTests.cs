using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Access;

/// <summary>What is private is in no index: nobody finds, counts or is offered a piece by it.</summary>
public sealed class PrivateSearchTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    [Fact]
    public async Task A_private_word_finds_nothing_counts_nothing_and_is_not_suggested()
    {
        var stop = TestContext.Current.CancellationToken;
        var entered = await host.Client.PostAsJsonAsync("/api/garments", JsonNode.Parse("""
            {"name":"Sacque with a zephyrine yoke","acquired":{"from":"quillimarsh","price":"quillimarsh","papers":"quillimarsh torchon","when":"quillimarsh","insuredFor":"quillimarsh"},
             "place":{"shelf":"quillimarsh","box":"quillimarsh"},"whereabouts":{"is":"lent","to":"quillimarsh"}}
            """), stop);
        var seen = entered.Headers.GetValues("X-Position").Single();

        async Task<long> Total(string question) =>
            JsonNode.Parse(await host.Client.GetStringAsync(new Uri($"/api/search?{question}&seen={seen}", UriKind.Relative), stop))!["total"]!.GetValue<long>();

        Assert.Equal(1, await Total("q=zephyrine"));
        Assert.Equal(1, await Total("q=zephyrine&whereabouts=lent"));
        Assert.Equal(0, await Total("q=quillimarsh"));
        Assert.Equal(0, await Total("q=quillim"));
        Assert.Equal(0, await Total("q=zephyrine+quillimarsh"));
        Assert.DoesNotContain("quillimarsh", await host.Client.GetStringAsync(new Uri($"/api/search?q=zephyrine&seen={seen}", UriKind.Relative), stop), StringComparison.Ordinal);
        Assert.DoesNotContain("\"value\":\"quillimarsh", await host.Client.GetStringAsync(new Uri("/api/suggest?q=quillim", UriKind.Relative), stop), StringComparison.Ordinal);
    }
}
