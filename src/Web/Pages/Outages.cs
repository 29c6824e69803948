using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Hosting;
using Microsoft.AspNetCore.Http.Features;

namespace HeirloomArchive.Web.Pages;

/// <summary>What she had typed when a form could not be taken, to be sent again from the page that says so.</summary>
/// <param name="Action">Where the form goes.</param>
/// <param name="Fields">Name and value, as they were sent.</param>
/// <param name="Files">Whether files came with it: no page can hold those.</param>
public sealed record HeldForm(string Action, IReadOnlyList<(string Name, string Value)> Fields, bool Files)
{
    /// <summary>The form of a request that failed; null where there was none, or where it holds what is secret.</summary>
    public static async Task<HeldForm?> Of(HttpRequest request)
    {
        if (!request.HasFormContentType || request.Path.StartsWithSegments("/account", StringComparison.OrdinalIgnoreCase))
        {
            return null;
        }

        try
        {
            var form = await request.ReadFormAsync();
            return new(request.PathBase + request.Path + request.QueryString, [.. form.SelectMany(f => f.Value, (f, value) => (f.Key, value ?? ""))], form.Files.Count > 0);
        }
        catch (Exception e) when (e is IOException or InvalidDataException or InvalidOperationException)
        {
            // Not to be read any more: too large, broken off, or already gone by.
            return null;
        }
    }
}

/// <summary>
/// Answers a person's request that failed by an <see cref="Outage"/>, or asked for what is not there, with a page that says so and holds what she
/// typed; it needs no database.
/// </summary>
public sealed class Outages(RequestDelegate next, ArchiveSettings settings)
{
    public async Task InvokeAsync(HttpContext context)
    {
        try
        {
            await next(context);
        }
        catch (Exception e) when (!context.Response.HasStarted && Outage.Of(e, settings) is { } outage)
        {
            await Show(context, outage, await HeldForm.Of(context.Request));
        }
        catch (NotFoundException) when (!context.Response.HasStarted && context.Request.Headers.Accept.ToString().Contains("text/html", StringComparison.Ordinal))
        {
            // A program that asks for a print is answered in JSON; a browser gets the page of what is not there.
            context.Features.Set(await HeldForm.Of(context.Request));
            context.Response.Clear();
            context.Response.StatusCode = StatusCodes.Status404NotFound;
        }
    }

    private async Task Show(HttpContext context, Outage outage, HeldForm? held)
    {
        var request = context.Request;
        context.Features.Set(outage with { Detail = outage.DetailFor(request.Method) });
        context.Features.Set(held);
        // Round again to the page, with nothing that would ask the database: as nobody, and with handlers that remember nothing.
        request.Headers.Remove("Cookie");
        request.Headers.Remove("Authorization");
        context.Features.Set<IRequestCookiesFeature>(null);
        (request.Method, request.Path, request.QueryString) = (HttpMethods.Get, $"/problem/{outage.Status.ToString(CultureInfo.InvariantCulture)}", QueryString.Empty);
        request.RouteValues = [];
        context.SetEndpoint(null);
        var before = context.RequestServices;
        await using var scope = before.CreateAsyncScope();
        context.RequestServices = scope.ServiceProvider;
        context.Response.StatusCode = outage.Status;
        context.Response.Headers.RetryAfter = outage.RetryAfter.ToString(CultureInfo.InvariantCulture);
        try
        {
            await next(context);
        }
        finally
        {
            context.RequestServices = before;
        }
    }
}
