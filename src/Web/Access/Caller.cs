using System.Security.Claims;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Access;

/// <summary>Who sent a request, as her claims say it. Every way of signing in makes the same claims.</summary>
/// <param name="Id">The person's id; empty where one person keeps the archive, and for who has not signed in.</param>
/// <param name="Name">As the history shows her.</param>
/// <param name="Role">What she may do; of a token, what its person may, within its <see cref="Scopes"/>.</param>
public sealed record Caller(Guid Id, string Name, Role Role)
{
    private const string Token = "token", Scope = "scope";

    /// <summary>Whether she has signed in.</summary>
    public bool IsKnown => Role > Role.Visitor;

    /// <summary>What a program's token was made for; null for a person.</summary>
    public IReadOnlySet<string>? Scopes { get; init; }

    /// <summary>Of a person's session, its id.</summary>
    public Guid? Session { get; init; }

    /// <summary>Whether a row lets her through.</summary>
    public bool May(Row row) => Role >= row.Least && (Scopes is null || (!row.IsOfAccounts && Scopes.Contains(TokenScopes.Of(row))));

    /// <summary>What of the record she sees; a program sees what is private only where its token says so.</summary>
    public Sight Sight() => Scopes?.Contains(TokenScopes.Private) == false ? Role.Sight().WithoutPrivate : Role.Sight();

    /// <summary>Who a request comes from.</summary>
    /// <param name="user">As authenticated.</param>
    /// <param name="visitors">Whether those who have not signed in may look at what is shown to them.</param>
    public static Caller Of(ClaimsPrincipal user, bool visitors) => user.Identity is { IsAuthenticated: true }
        ? new(
            Guid.TryParse(user.FindFirstValue(ClaimTypes.NameIdentifier), out var id) ? id : Guid.Empty,
            user.FindFirstValue(ClaimTypes.Name) ?? "",
            Enum.TryParse<Role>(user.FindFirstValue(ClaimTypes.Role), ignoreCase: true, out var role) ? role : Role.Anyone)
        {
            Scopes = user.HasClaim(c => c.Type == Token) ? user.FindAll(Scope).Select(c => c.Value).ToHashSet() : null,
            Session = Guid.TryParse(user.FindFirstValue(ClaimTypes.Sid), out var session) ? session : null,
        }
        : new(Guid.Empty, visitors ? "visitor" : "nobody", visitors ? Role.Visitor : Role.Anyone);

    /// <summary>The claims of a person, or of her program.</summary>
    public ClaimsPrincipal ToPrincipal(string scheme)
    {
        var identity = new ClaimsIdentity(
            [new(ClaimTypes.NameIdentifier, Id.ToString()), new(ClaimTypes.Name, Name), new(ClaimTypes.Role, Role.Slug())], scheme);
        if (Session is { } session)
        {
            identity.AddClaim(new(ClaimTypes.Sid, session.ToString()));
        }

        if (Scopes is not null)
        {
            identity.AddClaim(new(Token, "true"));
            identity.AddClaims(Scopes.Select(s => new Claim(Scope, s)));
        }

        return new(identity);
    }
}

/// <summary>Of a request.</summary>
public static class CallerOfRequest
{
    /// <summary>Who sent it.</summary>
    public static Caller Caller(this HttpContext context) => context.Features.Get<Caller>() ?? Access.Caller.Of(context.User, visitors: false);

    /// <summary>Where it came from, as tries are counted: of the newer kind of address the network, since one house has as many as it likes.</summary>
    public static string Address(this HttpContext context) => context.Connection.RemoteIpAddress switch
    {
        null => "",
        { IsIPv4MappedToIPv6: true } mapped => mapped.MapToIPv4().ToString(),
        { AddressFamily: System.Net.Sockets.AddressFamily.InterNetworkV6 } six => new System.Net.IPAddress([.. six.GetAddressBytes().Take(8), .. new byte[8]]) + "/64",
        var four => four.ToString(),
    };

    /// <summary>Whether the one who sent it may use a page or a route: what she may not is not offered.</summary>
    /// <param name="context">The request.</param>
    /// <param name="row">As in the table: <c>POST /pieces/new</c>.</param>
    public static bool May(this HttpContext context, string row) => row.Split(' ') is [var method, var route] && Matrix.Find(method, route) is { } found && context.Caller().May(found);
}
