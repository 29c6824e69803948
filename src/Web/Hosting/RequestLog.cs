using System.Collections;
using System.Diagnostics;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Diagnostics;

namespace HeirloomArchive.Web.Hosting;

/// <summary>
/// Gives each request an id: in the answer's header, in its problem details (<c>traceId</c>), and on every line that is logged for it.
/// What is logged of a request is its route and not its address, which may hold what somebody searched for, or a code.
/// </summary>
public sealed partial class RequestLog(RequestDelegate next, ILogger<RequestLog> log)
{
    public const string Header = "X-Request-Id";

    public async Task InvokeAsync(HttpContext context)
    {
        var id = context.TraceIdentifier = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(8));
        // At the last moment: whoever answers a fault clears the headers first.
        context.Response.OnStarting(() =>
        {
            context.Response.Headers[Header] = id;
            return Task.CompletedTask;
        });
        var begun = Stopwatch.GetTimestamp();
        using var scope = log.BeginScope(new Scope(id));
        try
        {
            await next(context);
        }
        finally
        {
            // What answers a refusal takes the endpoint away first.
            var endpoint = context.Features.Get<IExceptionHandlerFeature>()?.Endpoint ?? context.GetEndpoint();
            var route = (endpoint as RouteEndpoint)?.RoutePattern.RawText ?? "(none)";
            Name(context, route, id);
            Answered(log, context.Request.Method, route, context.Response.StatusCode, Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }
    }

    // Only with telemetry is there an activity.
    private static void Name(HttpContext context, string route, string id)
    {
        if (Activity.Current is not { } activity) return;
        activity.DisplayName = $"{context.Request.Method} {route}";
        activity.SetTag("http.route", route);
        activity.SetTag("http.response.status_code", context.Response.StatusCode);
        activity.SetTag("heirloom.request_id", id);
    }

    [LoggerMessage(LogLevel.Information, "{Method} {Route} {Status} in {Milliseconds:0.0} ms")]
    private static partial void Answered(ILogger log, string method, string route, int status, double milliseconds);

    private sealed class Scope(string id) : IReadOnlyList<KeyValuePair<string, object>>
    {
        public int Count => 1;

        public KeyValuePair<string, object> this[int index] => index == 0 ? new("RequestId", id) : throw new ArgumentOutOfRangeException(nameof(index));

        public IEnumerator<KeyValuePair<string, object>> GetEnumerator()
        {
            yield return this[0];
        }

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

        public override string ToString() => "RequestId:" + id;
    }
}
