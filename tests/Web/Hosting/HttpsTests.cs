using System.Net;
using System.Net.Http.Json;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Authentication;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Accounts;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Hosting;

/// <summary>An archive with accounts that listens by https itself, with a certificate made for the test.</summary>
public sealed class HttpsTests(PostgresServer postgres)
{
    private const string Name = "archive.example";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task By_https_its_cookies_are_bound_to_the_host_and_go_by_nothing_else()
    {
        using var folder = new TemporaryFolder();
        await using var host = await Start(folder);
        using var client = Client(host, new CookieContainer());
        using var first = await client.PostAsJsonAsync("/api/account/first", new { code = host.Services.GetRequiredService<FirstOwner>().Code, name = "Orla", password = Household.Password }, Stop);
        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal("max-age=31536000; includeSubDomains", first.Headers.GetValues("Strict-Transport-Security").Single());
        List<string> cookies =
        [
            .. Cookies(first), .. Cookies(await client.GetAsync("/account", Stop)), .. Cookies(await client.GetAsync("/pieces?as=table", Stop)),
            .. Cookies(await client.PostAsync("/api/account/passkeys/options", null, Stop)),
        ];
        Assert.Equal(["__Host-heirloom-form", "__Host-heirloom-list", "__Host-heirloom-passkey", "__Host-heirloom-session"], cookies.Select(c => c.Split('=')[0]).Distinct().Order(StringComparer.Ordinal));
        foreach (var cookie in cookies.Select(c => c.ToLowerInvariant()))
        {
            Assert.Contains("; path=/;", cookie + ";", StringComparison.Ordinal);
            Assert.Contains("; secure", cookie, StringComparison.Ordinal);
            Assert.Contains("; httponly", cookie, StringComparison.Ordinal);
            Assert.Contains("; samesite=", cookie, StringComparison.Ordinal);
            Assert.DoesNotContain("samesite=none", cookie, StringComparison.Ordinal);
            Assert.DoesNotContain("domain=", cookie, StringComparison.Ordinal);
        }

        // The session begun by them holds, and ends for good, with what the browser kept of it.
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/api/account", Stop)).StatusCode);
        using var left = await client.PostAsync("/api/account/sign-out", null, Stop);
        Assert.Contains("\"cache\"", left.Headers.GetValues("Clear-Site-Data").Single(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync("/api/account", Stop)).StatusCode);
    }

    [Theory]
    [InlineData(SslProtocols.Tls12)]
    [InlineData(SslProtocols.Tls13)]
    public async Task Tls_of_today_is_spoken(SslProtocols version)
    {
        using var folder = new TemporaryFolder();
        await using var host = await Start(folder);
        Assert.Equal(version, await Shake(host, version));
    }

    [Fact]
    public async Task Older_tls_is_not()
    {
        using var folder = new TemporaryFolder();
        await using var host = await Start(folder);
        const int handshake = 22;
        Assert.Equal(handshake, await Greeted(host, minor: 3));
        Assert.NotEqual(handshake, await Greeted(host, minor: 2));
        Assert.NotEqual(handshake, await Greeted(host, minor: 1));
    }

    [Fact]
    public async Task By_http_the_session_s_cookie_is_still_out_of_reach_of_scripts()
    {
        await using var house = new Household(postgres);
        await house.InitializeAsync();
        using var client = new HttpClient(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = house.Host.Address };
        using var answer = await client.PostAsJsonAsync("/api/account/sign-in", new { name = "Orla", password = Household.Password }, Stop);
        var cookie = Cookies(answer).Single();
        Assert.StartsWith("heirloom-session=", cookie, StringComparison.Ordinal);
        Assert.Contains("; httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.False(answer.Headers.Contains("Strict-Transport-Security"));
    }

    private async Task<ArchiveHost> Start(TemporaryFolder folder)
    {
        using var key = RSA.Create(2048);
        var asked = new CertificateRequest($"CN={Name}", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        using var certificate = asked.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        var (file, password) = (Path.Combine(folder.Path, "certificate.pfx"), Guid.NewGuid().ToString("N"));
        await File.WriteAllBytesAsync(file, certificate.Export(X509ContentType.Pkcs12, password), Stop);
        return await ArchiveHost.Start(postgres, "--Archive:Access=Accounts", $"--Archive:Hosts={Name}", "--urls=https://127.0.0.1:0",
            $"--Kestrel:Certificates:Default:Path={file}", $"--Kestrel:Certificates:Default:Password={password}");
    }

    // By its name, which leads to this machine here; its certificate is nobody's but the test's.
    private static HttpClient Client(ArchiveHost host, CookieContainer cookies) => new(new SocketsHttpHandler
    {
        CookieContainer = cookies, AllowAutoRedirect = false,
        ConnectCallback = async (_, stop) =>
        {
            var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
            await socket.ConnectAsync(IPAddress.Loopback, host.Address.Port, stop);
            return new NetworkStream(socket, ownsSocket: true);
        },
        SslOptions = new() { RemoteCertificateValidationCallback = IsIts },
    })
    { BaseAddress = new($"https://{Name}:{host.Address.Port}/") };

    private static async Task<SslProtocols> Shake(ArchiveHost host, SslProtocols version)
    {
        using var tcp = new TcpClient();
        await tcp.ConnectAsync(IPAddress.Loopback, host.Address.Port, Stop);
        await using var tls = new SslStream(tcp.GetStream());
        await tls.AuthenticateAsClientAsync(new SslClientAuthenticationOptions { TargetHost = Name, EnabledSslProtocols = version, RemoteCertificateValidationCallback = IsIts }, Stop);
        return tls.SslProtocol;
    }

    // What kind of record comes back on a hello of TLS 1.0 to 1.2, sent by hand since a client of today may not send the older: -1 where it hangs up.
    private static async Task<int> Greeted(ArchiveHost host, byte minor)
    {
        byte[] suites = [0xC0, 0x2F, 0xC0, 0x30, 0xC0, 0x13, 0xC0, 0x14, 0, 0x2F, 0, 0x35];
        byte[] groups = [0, 10, 0, 6, 0, 4, 0, 0x1D, 0, 0x17], points = [0, 11, 0, 2, 1, 0], signatures = [0, 13, 0, 8, 0, 6, 8, 4, 4, 1, 2, 1];
        byte[] extensions = [.. groups, .. points, .. signatures];
        byte[] hello = [3, minor, .. RandomNumberGenerator.GetBytes(32), 0, 0, (byte)suites.Length, .. suites, 1, 0, 0, (byte)extensions.Length, .. extensions];
        byte[] record = [22, 3, 1, 0, (byte)(hello.Length + 4), 1, 0, 0, (byte)hello.Length, .. hello];
        using var tcp = new TcpClient();
        await tcp.ConnectAsync(IPAddress.Loopback, host.Address.Port, Stop);
        var stream = tcp.GetStream();
        await stream.WriteAsync(record, Stop);
        try
        {
            var first = new byte[1];
            return await stream.ReadAsync(first, Stop) == 0 ? -1 : first[0];
        }
        catch (IOException)
        {
            return -1;
        }
    }

    private static bool IsIts(object sender, X509Certificate? certificate, X509Chain? chain, SslPolicyErrors errors) => certificate?.Subject == $"CN={Name}";

    private static string[] Cookies(HttpResponseMessage answer) => answer.Headers.TryGetValues("Set-Cookie", out var set) ? [.. set] : [];
}
