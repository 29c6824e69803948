using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Hosting;

/// <summary>Who sends by drops, or more than is taken, is let go; everybody else is answered meanwhile.</summary>
public sealed class SlowTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    // Far beyond the limits, for a machine that is busy; without them it would take as long as one likes.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Headers_that_come_by_drops_are_not_waited_for()
    {
        var slow = Enumerable.Range(0, 20).Select(_ => Dribble($"GET /pieces HTTP/1.1\r\nHost: {Host}\r\nX-Slow: ")).ToList();
        await Answered();
        Assert.All(await Task.WhenAll(slow), answer => Assert.True(answer.Length == 0 || answer.StartsWith("HTTP/1.1 408", StringComparison.Ordinal), answer));
    }

    [Fact]
    public async Task A_body_that_comes_by_drops_is_not_waited_for()
    {
        var slow = Enumerable.Range(0, 20).Select(_ => Dribble($"POST /api/garments HTTP/1.1\r\nHost: {Host}\r\nContent-Type: application/json\r\nContent-Length: 100000\r\n\r\n")).ToList();
        await Answered();
        Assert.All(await Task.WhenAll(slow), answer => Assert.StartsWith("HTTP/1.1 408", answer, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("GET /{long} HTTP/1.1\r\nHost: {host}\r\n\r\n", "HTTP/1.1 414")]
    [InlineData("GET / HTTP/1.1\r\nHost: {host}\r\nX-Long: {longer}\r\n\r\n", "HTTP/1.1 431")]
    [InlineData("GET / HTTP/1.1\r\nHost: {host}\r\n{many}\r\n", "HTTP/1.1 431")]
    [InlineData("POST /api/garments HTTP/1.1\r\nHost: {host}\r\nContent-Type: application/json\r\nContent-Length: 99999999\r\n\r\n", "HTTP/1.1 413")]
    [InlineData("POST /api/garments HTTP/1.1\r\nHost: {host}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\nContent-Length: 2\r\n\r\nzz\r\n", "HTTP/1.1 400")]
    [InlineData("TRACE / HTTP/1.1\r\nHost: {host}\r\n\r\n", "HTTP/1.1 403")]
    [InlineData("GET / HTTP/1.1\r\nHost: {host}\r\nHost: elsewhere.example\r\n\r\n", "HTTP/1.1 400")]
    public async Task More_or_other_than_is_taken_is_refused(string request, string answer)
    {
        var text = request.Replace("{host}", Host, StringComparison.Ordinal).Replace("{long}", new string('a', 20_000), StringComparison.Ordinal)
            .Replace("{longer}", new string('a', 40_000), StringComparison.Ordinal).Replace("{many}", string.Concat(Enumerable.Range(0, 200).Select(i => $"X-{i}: 1\r\n")), StringComparison.Ordinal);
        using var tcp = await Connect();
        var stream = tcp.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(text), Stop);
        Assert.StartsWith(answer, await FirstLine(stream), StringComparison.Ordinal);
    }

    private string Host => host.Address.Authority;

    private async Task Answered()
    {
        using var answer = await host.Client.GetAsync(new Uri("/api/garments", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    /// <summary>Sends the beginning, then a letter a second until the other side hangs up; answers what it said.</summary>
    private async Task<string> Dribble(string begin)
    {
        using var tcp = await Connect();
        var stream = tcp.GetStream();
        var all = ReadAll(stream);
        await stream.WriteAsync(Encoding.ASCII.GetBytes(begin), Stop);
        for (var clock = Stopwatch.StartNew(); !all.IsCompleted; await Task.Delay(1000, Stop))
        {
            Assert.True(clock.Elapsed < Patience, "It still waits.");
            try
            {
                await stream.WriteAsync("a"u8.ToArray(), Stop);
            }
            catch (IOException)
            {
                break;
            }
        }

        return await all.WaitAsync(Patience, Stop);
    }

    private async Task<TcpClient> Connect()
    {
        var tcp = new TcpClient();
        await tcp.ConnectAsync(IPAddress.Loopback, host.Address.Port, Stop);
        return tcp;
    }

    private static async Task<string> ReadAll(NetworkStream stream)
    {
        var (text, buffer) = (new StringBuilder(), new byte[4096]);
        try
        {
            for (int read; (read = await stream.ReadAsync(buffer, Stop)) > 0;) text.Append(Encoding.UTF8.GetString(buffer, 0, read));
        }
        catch (IOException)
        {
            // Hung up in the middle; what came before counts.
        }

        return text.ToString();
    }

    private static async Task<string> FirstLine(NetworkStream stream)
    {
        var buffer = new byte[4096];
        var read = await stream.ReadAsync(buffer, Stop).AsTask().WaitAsync(Patience, Stop);
        return Encoding.UTF8.GetString(buffer, 0, read);
    }
}
