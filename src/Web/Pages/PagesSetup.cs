using System.Security.Cryptography;
using System.Text;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages;

/// <summary>The pages: what they need, and the headers that every one of them carries.</summary>
public static class PagesSetup
{
    // The diagram of a worksheet carries its own look, in print and on other pages alike; nothing else inline is allowed.
    private static readonly string Policy =
        $"default-src 'self'; style-src 'self' 'sha256-{Digest(Svg.Look)}'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

    /// <summary>Razor Pages, found under <c>Pages/</c>.</summary>
    public static IServiceCollection AddPages(this IServiceCollection services)
    {
        services.AddRazorPages();
        services.AddSingleton<Numbers.CollectionNumbers>();
        services.AddScoped<Reading.ShownOnPictures>();
        services.AddSingleton<Api.PrintPictures>();
        services.Configure<RouteOptions>(o => o.LowercaseUrls = true);
        return services;
    }

    /// <summary>The headers, and a page in plain words where there is none. Before the routes.</summary>
    public static void UsePages(this WebApplication app)
    {
        app.Use((context, next) =>
        {
            // At the last moment: what answers a fault clears the headers first.
            context.Response.OnStarting(() =>
            {
                var headers = context.Response.Headers;
                headers.ContentSecurityPolicy = Policy;
                headers.XContentTypeOptions = "nosniff";
                headers["Referrer-Policy"] = "same-origin";
                headers["Cross-Origin-Opener-Policy"] = headers["Cross-Origin-Resource-Policy"] = "same-origin";
                headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=(), payment=(), usb=()";
                return Task.CompletedTask;
            });
            return next(context);
        });
        app.UseWhen(context => context.Request.IsForPeople(), people => people.UseReadersCountry().UseExceptionHandler("/problem/500").UseStatusCodePagesWithReExecute("/problem/{0}").UseMiddleware<Outages>());
        // After what sends a request round again: it is to be routed anew.
        app.UseRouting();
    }

    /// <summary>The pages and their look.</summary>
    public static void MapPages(this WebApplication app)
    {
        app.MapStaticAssets();
        app.MapRazorPages().WithStaticAssets();
    }

    /// <summary>Whether a person looks at the answer in her browser; a program gets a problem in JSON instead of a page.</summary>
    public static bool IsForPeople(this HttpRequest request) =>
        !((string[])["/api", "/health", "/openapi", "/iiif"]).Any(p => request.Path.StartsWithSegments(p, StringComparison.Ordinal));

    private static string Digest(string text) => Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
