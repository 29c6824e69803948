using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>Every sum by its route: the same answer as in the room that works it out, or its drawing for who asks for that.</summary>
public sealed class SumsApiTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    public static TheoryData<string> Slugs => [.. AllSums.InOrder.Select(s => s.Slug)];

    [Theory, MemberData(nameof(Slugs))]
    public async Task Its_example_is_answered_in_numbers_and_as_a_drawing(string slug)
    {
        var sum = AllSums.Find(slug)!;
        var numbers = await Send(sum, "application/json");
        Assert.True(JsonNode.DeepEquals(sum.Of(JsonNode.Parse(sum.Example)).ToJson(), JsonNode.Parse(numbers)), numbers);
        Assert.StartsWith("<svg ", await Send(sum, "image/svg+xml"), StringComparison.Ordinal);
    }

    private async Task<string> Send(Sum sum, string accept)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri($"/api/plans/{sum.Slug}", UriKind.Relative));
        request.Content = new StringContent(sum.Example, Encoding.UTF8, "application/json");
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue(accept));
        using var answer = await host.Client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(accept, answer.Content.Headers.ContentType!.MediaType);
        return await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
    }
}
