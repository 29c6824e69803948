using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Hosting;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Access;

/// <summary>Finds out who asks and for what, and names her to the rooms behind: what they answer hangs on it.</summary>
public sealed class Known(RequestDelegate next, ArchiveSettings settings, TimeProvider clock)
{
    public async Task InvokeAsync(HttpContext context)
    {
        var caller = Caller.Of(context.User, settings.Access.Visitors);
        context.Features.Set(caller);
        Viewer.Enter(new(caller.Name, caller.Sight()));
        if (context.GetEndpoint() is RouteEndpoint endpoint)
        {
            var handler = endpoint.Metadata.GetMetadata<PageActionDescriptor>() is null ? null : context.Request.Query["handler"].ToString();
            context.Features.Set(Matrix.Find(context.Request.Method, endpoint, handler));
        }

        if (!settings.Access.Accounts)
        {
            await next(context);
            return;
        }

        // A request that takes too long is given up: its reader has gone, or means no good.
        using var limit = new CancellationTokenSource(Limits.Longest(context), clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, limit.Token);
        context.RequestAborted = either.Token;
        await next(context);
    }
}
