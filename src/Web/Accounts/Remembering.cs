using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Access;

namespace HeirloomArchive.Web.Accounts;

/// <summary>Writes into the book what was seen and taken; and lets no browser keep what only a person who signed in may see.</summary>
public sealed class Remembering(RequestDelegate next, Book book)
{
    private const int MostNamed = 20;

    public async Task InvokeAsync(HttpContext context)
    {
        context.Response.OnStarting(() =>
        {
            if (context.Response.Headers.CacheControl.Count == 0 && context.Caller().IsKnown)
            {
                context.Response.Headers.CacheControl = "no-store";
            }

            return Task.CompletedTask;
        });
        await next(context);
        if (context.Response.StatusCode >= 400 || context.Features.Get<Row>() is not { } row)
        {
            return;
        }

        if (row.Deed is { } deed)
        {
            await book.Write(context, deed, context.Request.Path);
        }

        if (Viewer.Now.SawPrivateOf is { Count: > 0 } saw)
        {
            var more = saw.Count > MostNamed ? $" and {saw.Count - MostNamed} more" : "";
            await book.Write(context, Deeds.SawPrivate, string.Join(' ', saw.Take(MostNamed)) + more);
        }
    }
}
