namespace HeirloomArchive.Web.Hosting;

/// <summary>For whoever watches over the service.</summary>
public static class Health
{
    public static void MapHealth(this IEndpointRouteBuilder app)
    {
        app.MapGet("/health/live", () => Results.Text("live")).ExcludeFromDescription();
        app.MapGet("/health/ready", Ready).ExcludeFromDescription();
    }

    private static IResult Ready(Readiness readiness, HttpResponse response)
    {
        response.Headers.CacheControl = "no-store";
        if (readiness.Progress is not { } progress) return Results.Text("ready");
        response.Headers.RetryAfter = "1";
        return Results.Problem(statusCode: StatusCodes.Status503ServiceUnavailable, title: "Not ready yet.", detail: progress,
            extensions: new Dictionary<string, object?> { ["progress"] = progress });
    }
}
