using System.Globalization;
using System.Threading.RateLimiting;

namespace HeirloomArchive.Web.Access;

/// <summary>What one caller may ask of a shared archive, by the kind of route. One person on her own machine is not limited.</summary>
public static class Limits
{
    /// <summary>A kind of route: how often a minute, how long one request may take, and whether it counts by address even for who is signed in.</summary>
    private sealed record Kind(string Name, int AMinute, TimeSpan Longest, bool ByAddress = false);

    private static readonly Kind
        SignIn = new("sign-in", 30, TimeSpan.FromSeconds(30), ByAddress: true),
        Finding = new("finding", 240, TimeSpan.FromSeconds(30)),
        Sending = new("sending", 240, TimeSpan.FromMinutes(15)),
        Changing = new("changing", 300, TimeSpan.FromMinutes(1)),
        Reading = new("reading", 1200, TimeSpan.FromMinutes(1)),
        Files = new("files", 6000, TimeSpan.FromMinutes(1));

    private static readonly string[] WaysIn =
        ["/account/sign-in", "/account/first", "/account/join", "/account/recover", "/api/account/sign-in", "/api/account/first", "/api/account/join", "/api/account/recover"];

    /// <summary>How many requests of one kind are counted together: by person, else by address.</summary>
    public static IServiceCollection AddLimits(this IServiceCollection services) => services.AddRateLimiter(limiter =>
    {
        limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        limiter.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, (string, string)>(context =>
        {
            var kind = Of(context);
            var caller = context.Features.Get<Caller>();
            var who = kind.ByAddress || caller is not { IsKnown: true } ? context.Address() : caller.Id.ToString();
            return RateLimitPartition.GetSlidingWindowLimiter((kind.Name, who), _ => new()
            {
                PermitLimit = kind.AMinute, Window = TimeSpan.FromMinutes(1), SegmentsPerWindow = 6, QueueLimit = 0,
            });
        });
        limiter.OnRejected = async (rejected, _) =>
        {
            var http = rejected.HttpContext;
            http.Response.Headers.RetryAfter = rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var wait) ? Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture) : "10";
            await Gate.Answer(http, StatusCodes.Status429TooManyRequests, "Too many requests.", "Wait as many seconds as Retry-After says, then go on.");
        };
    });

    /// <summary>How long a request may take before it is given up.</summary>
    public static TimeSpan Longest(HttpContext context) => Of(context).Longest;

    private static Kind Of(HttpContext context)
    {
        var row = context.Features.Get<Row>();
        return row switch
        {
            null => Reading,
            { Route: "/{file}" or "/{**path:file}" } => Files,
            { Reads: false } when WaysIn.Any(w => row.Route == w || row.Route.StartsWith(w + "/", StringComparison.Ordinal)) => SignIn,
            { Reads: false } when row.Route.Contains("/pictures", StringComparison.Ordinal) || row.Route.Contains("/uploads", StringComparison.Ordinal) || row.Route.EndsWith("/made-up", StringComparison.Ordinal) => Sending,
            { Route: "/api/search" or "/api/suggest" or "/examples" } => Finding,
            { Reads: true } when row.Route.Contains("/pictures/", StringComparison.Ordinal) || row.Route.StartsWith("/iiif/", StringComparison.Ordinal) => Files,
            { Reads: true } => Reading,
            _ => Changing,
        };
    }
}
