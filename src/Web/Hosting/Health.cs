using Npgsql;

namespace HeirloomArchive.Web.Hosting;

/// <summary>For whoever watches over the service.</summary>
public static class Health
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    public static void MapHealth(this IEndpointRouteBuilder app)
    {
        app.MapGet("/health/live", () => Results.Text("live")).ExcludeFromDescription();
        app.MapGet("/health/ready", Ready).ExcludeFromDescription();
    }

    private static async Task<IResult> Ready(Readiness readiness, NpgsqlDataSource database, HttpResponse response, CancellationToken cancel)
    {
        response.Headers.CacheControl = "no-store";
        if ((readiness.Progress ?? await Away(database, cancel)) is not { } progress) return Results.Text("ready");
        response.Headers.RetryAfter = "1";
        return Results.Problem(statusCode: StatusCodes.Status503ServiceUnavailable, title: "Not ready yet.", detail: progress,
            extensions: new Dictionary<string, object?> { ["progress"] = progress });
    }

    private static async Task<string?> Away(NpgsqlDataSource database, CancellationToken cancel)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(Patience);
        try
        {
            await using var command = database.CreateCommand("select 1");
            await command.ExecuteScalarAsync(limit.Token);
            return null;
        }
        catch (Exception e) when (e is NpgsqlException or OperationCanceledException && !cancel.IsCancellationRequested)
        {
            return "The archive's database does not answer.";
        }
    }
}
