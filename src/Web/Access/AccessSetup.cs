using HeirloomArchive.Web.Hosting;
using Microsoft.AspNetCore.Authentication;

namespace HeirloomArchive.Web.Access;

/// <summary>Who may come in and what she may do: registered, and put before all routes.</summary>
public static class AccessSetup
{
    public static IServiceCollection AddAccess(this IServiceCollection services, AccessSettings access)
    {
        services.AddAuthentication(OnePerson.Name).AddScheme<AuthenticationSchemeOptions, OnePerson>(OnePerson.Name, null);
        return services;
    }

    /// <summary>After the routing: what may be done hangs on the route.</summary>
    public static void UseAccess(this WebApplication app, AccessSettings access)
    {
        app.UseLoopbackOnly();
        app.UseAuthentication();
        app.UseMiddleware<Gate>();
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
