using HeirloomArchive.Web.Accounts;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Hosting;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.HttpOverrides;

namespace HeirloomArchive.Web.Access;

/// <summary>Who may come in and what she may do: registered, and put before all routes.</summary>
public static class AccessSetup
{
    public static IServiceCollection AddAccess(this IServiceCollection services, AccessSettings access)
    {
        services.Configure<AntiforgeryOptions>(o => AccountsSetup.Shape(o.Cookie, "form", access.Secure, SameSiteMode.Strict));
        if (!access.Accounts)
        {
            services.AddAuthentication(OnePerson.Name).AddScheme<AuthenticationSchemeOptions, OnePerson>(OnePerson.Name, null);
            return services;
        }

        services.Configure<ForwardedHeadersOptions>(o =>
        {
            o.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto;
            o.KnownProxies.Clear();
            o.KnownIPNetworks.Clear();
            foreach (var network in access.Proxies)
            {
                o.KnownIPNetworks.Add(network);
            }
        });
        return services.AddAccounts(access.Secure).AddLimits();
    }

    /// <summary>Before everything: where a request really came from.</summary>
    public static void UseProxies(this WebApplication app, AccessSettings access)
    {
        if (access.Proxies.Count > 0)
        {
            app.UseForwardedHeaders();
        }

        if (access.Accounts)
        {
            app.UseHttpsOnly(access);
        }
    }

    /// <summary>After the routing: what may be done hangs on the route.</summary>
    public static void UseAccess(this WebApplication app, AccessSettings access)
    {
        if (!access.Accounts)
        {
            app.UseLoopbackOnly();
            app.UseAuthentication();
            app.UseMiddleware<Known>();
            app.UseMiddleware<Gate>();
            return;
        }

        app.UseOwnSiteOnly(access);
        app.UseAuthentication();
        app.UseMiddleware<Known>();
        app.UseRateLimiter();
        app.UseMiddleware<Gate>();
        app.UseMiddleware<Remembering>();
    }

    /// <summary>What is there only with accounts.</summary>
    public static void MapAccounts(this WebApplication app, AccessSettings access)
    {
        if (access.Accounts)
        {
            app.MapAccount();
            app.MapAccountKeys();
            app.MapAccountPeople();
            app.MapVisitors();
        }
    }

    /// <summary>After all routes are mapped.</summary>
    /// <exception cref="StartException">A route that the table does not know: nobody could use it.</exception>
    public static void CheckMatrix(this WebApplication app)
    {
        var missing = Matrix.Missing(((IEndpointRouteBuilder)app).DataSources.SelectMany(s => s.Endpoints));
        if (missing.Count > 0)
        {
            throw new StartException($"Who may use these is not said: {string.Join(", ", missing)}. Each needs a row in src/Web/Access/Rows, such as Role.Keeper.May(\"{missing[0]}\").");
        }
    }
}
