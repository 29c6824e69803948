using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace HeirloomArchive.Web.Hosting;

/// <summary>Traces and measures for whoever watches over a shared archive. Without the setting nothing listens, nothing is gathered, nothing is sent.</summary>
public static class Telemetry
{
    public const string Key = "Archive:Telemetry";

    /// <param name="services">The host's.</param>
    /// <param name="to">The base address of a collector that takes OTLP by HTTP, such as <c>http://127.0.0.1:4318</c>; null for none.</param>
    public static IServiceCollection AddTelemetry(this IServiceCollection services, Uri? to)
    {
        if (to is null) return services;
        services.AddOpenTelemetry()
            .ConfigureResource(r => r.AddService("heirloom-archive", serviceVersion: typeof(Telemetry).Assembly.GetName().Version?.ToString(3)))
            // Statements carry no values; of requests the route is told, by RequestLog.
            .WithTracing(t => t.AddSource("Microsoft.AspNetCore", "Npgsql").AddProcessor<WithoutAddresses>().AddOtlpExporter(o => Send(o, to, "v1/traces")))
            .WithMetrics(m => m.AddMeter("Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel", "Npgsql", "System.Runtime").AddOtlpExporter(o => Send(o, to, "v1/metrics")));
        return services;
    }

    /// <exception cref="StartException">No address.</exception>
    public static Uri? Read(IConfiguration configuration) =>
        configuration[Key] is not { Length: > 0 } text ? null
        : Uri.TryCreate(text.TrimEnd('/') + "/", UriKind.Absolute, out var to) && to.Scheme is "http" or "https" && to.UserInfo.Length == 0 ? to
        : throw new StartException($"{Key} is not the address of a collector: it must be like http://127.0.0.1:4318, without a name or password in it (those go into OTEL_EXPORTER_OTLP_HEADERS).");

    private static void Send(OtlpExporterOptions options, Uri to, string path)
    {
        options.Protocol = OtlpExportProtocol.HttpProtobuf;
        options.Endpoint = new Uri(to, path);
    }

    // What somebody searched for, where she came from, and with what browser.
    private sealed class WithoutAddresses : OpenTelemetry.BaseProcessor<System.Diagnostics.Activity>
    {
        private static readonly string[] Told = ["url.path", "url.query", "url.full", "http.url", "http.target", "user_agent.original", "client.address", "network.peer.address", "network.peer.port"];

        public override void OnEnd(System.Diagnostics.Activity data)
        {
            if (data.Source.Name != "Microsoft.AspNetCore") return;
            foreach (var tag in Told) data.SetTag(tag, null);
        }
    }
}
