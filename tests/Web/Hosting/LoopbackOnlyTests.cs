using System.Net;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Hosting;

public class LoopbackOnlyTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData("archive.example")]
    [InlineData("archive.example:{port}")]
    [InlineData("127.0.0.1:1")]
    [InlineData("localhost.example:{port}")]
    [InlineData("192.168.1.5:{port}")]
    public async Task A_foreign_host_is_refused(string name) => await Refused(HttpMethod.Get, r => r.Headers.Host = Fill(name));

    [Theory]
    [InlineData("localhost:{port}")]
    [InlineData("127.0.0.1:{port}")]
    [InlineData("[::1]:{port}")]
    public async Task The_names_of_this_machine_are_answered(string name) => await Answered(HttpMethod.Get, r => r.Headers.Host = Fill(name));

    [Theory]
    [InlineData("http://archive.example")]
    [InlineData("http://archive.example:{port}")]
    [InlineData("http://127.0.0.1:1")]
    [InlineData("https://127.0.0.1:{port}")]
    [InlineData("null")]
    public async Task A_page_from_elsewhere_can_neither_read_nor_write(string origin)
    {
        await Refused(HttpMethod.Get, r => r.Headers.Add("Origin", Fill(origin)));
        await Refused(HttpMethod.Post, r => r.Headers.Add("Origin", Fill(origin)));
    }

    [Theory]
    [InlineData("http://localhost:{port}")]
    [InlineData("http://127.0.0.1:{port}")]
    public async Task Its_own_pages_are_answered(string origin) => await Answered(HttpMethod.Get, r => r.Headers.Add("Origin", Fill(origin)));

    [Fact]
    public async Task A_form_of_another_site_cannot_write_but_a_link_from_there_opens()
    {
        await Refused(HttpMethod.Post, r => r.Headers.Add("Sec-Fetch-Site", "cross-site"));
        await Answered(HttpMethod.Get, r => r.Headers.Add("Sec-Fetch-Site", "cross-site"));
    }

    private async Task Refused(HttpMethod method, Action<HttpRequestMessage> change)
    {
        var answer = await Send(method, change);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }

    private async Task Answered(HttpMethod method, Action<HttpRequestMessage> change) =>
        Assert.Equal(HttpStatusCode.OK, (await Send(method, change)).StatusCode);

    private async Task<HttpResponseMessage> Send(HttpMethod method, Action<HttpRequestMessage> change)
    {
        using var request = new HttpRequestMessage(method, "/health/live");
        change(request);
        return await host.Client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    private string Fill(string text) => text.Replace("{port}", host.Address.Port.ToString(System.Globalization.CultureInfo.InvariantCulture), StringComparison.Ordinal);
}
