using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Pages;

namespace HeirloomArchive.Web.Access;

/// <summary>With accounts: by which name the archive is asked, and from which page.</summary>
public static class Outside
{
    /// <summary>Refuses (403) what is asked by another name than its own, or comes from another site's page.</summary>
    public static IApplicationBuilder UseOwnSiteOnly(this IApplicationBuilder app, AccessSettings access) => app.Use((context, next) =>
        Foreign(context.Request, access) is { } why ? Gate.Answer(context, StatusCodes.Status403Forbidden, "Not from this archive.", why) : next(context));

    /// <summary>Tells a browser that came by https to come by nothing else, for a year; also with an answer to a fault, which clears the headers first.</summary>
    public static IApplicationBuilder UseHttpsOnly(this IApplicationBuilder app, AccessSettings access) => app.Use((context, next) =>
    {
        if (access.Secure && context.Request.IsHttps && !LoopbackOnly.IsLoopback(context.Request.Host.Host))
        {
            context.Response.OnStarting(() =>
            {
                context.Response.Headers.StrictTransportSecurity = "max-age=31536000; includeSubDomains";
                return Task.CompletedTask;
            });
        }

        return next(context);
    });

    private static string? Foreign(HttpRequest request, AccessSettings access)
    {
        // Programs on this machine (a probe of its health, the loading of the demo) need no https to it.
        if (access.Secure && !request.IsHttps && !(!request.IsForPeople() && request.HttpContext.Connection.RemoteIpAddress is { } from && System.Net.IPAddress.IsLoopback(from)))
        {
            return "This archive is reached by https alone; a proxy before it must say so with X-Forwarded-Proto: https.";
        }

        if (access.Hosts.Count > 0 && !access.Hosts.Contains(request.Host.Host, StringComparer.OrdinalIgnoreCase) && !access.Hosts.Contains(request.Host.Value, StringComparer.OrdinalIgnoreCase))
        {
            return "The request asks for another host than this archive's own (Archive:Hosts).";
        }

        foreach (var origin in request.Headers.Origin)
        {
            if (!string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase))
            {
                return "The request comes from a page of another site.";
            }
        }

        var reads = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);
        return !reads && request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site" ? "The request comes from a page of another site." : null;
    }
}
