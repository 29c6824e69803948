using System.Net;

namespace HeirloomArchive.Web.Hosting;

/// <summary>
/// One person on her own machine signs in nowhere, so nobody else may come in: the program listens on this machine only, and a
/// page from elsewhere, open in her browser, can neither read nor write through it.
/// </summary>
public static class LoopbackOnly
{
    public const string DefaultAddress = "http://127.0.0.1:5080";

    /// <exception cref="StartException">An address that is none, or that others could reach while nobody signs in.</exception>
    public static void Check(IConfiguration configuration, AccessSettings access)
    {
        if (configuration.GetSection("Kestrel:Endpoints").Exists())
            throw new StartException("Kestrel:Endpoints is not read here: say the address with --urls.");
        foreach (var address in Addresses.Of(configuration["urls"]!)) CheckAddress(address, access.Accounts);
    }

    /// <summary>Refuses (403) what does not come from this machine's own pages or programs.</summary>
    public static IApplicationBuilder UseLoopbackOnly(this IApplicationBuilder app) => app.Use((context, next) =>
        Foreign(context.Request) is { } why
            ? Results.Problem(statusCode: StatusCodes.Status403Forbidden, title: "Not from this machine.", detail: why).ExecuteAsync(context)
            : next(context));

    private static void CheckAddress(string address, bool accounts)
    {
        if (!Uri.TryCreate(Addresses.Readable(address), UriKind.Absolute, out var url)
            || url.Scheme is not ("http" or "https"))
            throw new StartException($"urls is '{address}': it must be like {DefaultAddress}.");
        if (url.PathAndQuery != "/") throw new StartException($"urls is '{address}': an address without a path, like {DefaultAddress}.");
        if (!accounts && !IsLoopback(url.Host))
            throw new StartException($"urls is '{address}', which others could reach, and nobody has to sign in here. "
                + $"Use an address of this machine alone, like {DefaultAddress}; to let others in, start it with --Archive:Access=Accounts.");
    }

    private static string? Foreign(HttpRequest request)
    {
        var port = request.HttpContext.Connection.LocalPort;
        if (!IsLoopback(request.Host.Host) || (request.Host.Port ?? DefaultPort(request.Scheme)) != port)
            return $"The request asks for the host '{Shorten(request.Host.Value)}'; this archive answers only to {request.Scheme}://127.0.0.1:{port}, localhost and [::1].";
        foreach (var origin in request.Headers.Origin)
            if (!Uri.TryCreate(origin, UriKind.Absolute, out var from) || from.Scheme != request.Scheme || !IsLoopback(from.Host) || from.Port != port)
                return $"The request comes from a page of '{Shorten(origin)}', not from this archive.";
        var reads = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);
        return !reads && request.Headers["Sec-Fetch-Site"] == "cross-site" ? "The request comes from a page of another site." : null;
    }

    internal static bool IsLoopback(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || IPAddress.TryParse(host.Trim('[', ']'), out var address) && IPAddress.IsLoopback(address);

    private static int DefaultPort(string scheme) => scheme == "https" ? 443 : 80;

    private static string Shorten(string? text) => text is { Length: > 80 } ? text[..80] + "…" : text ?? "";
}
