using System.Text.Encodings.Web;
using HeirloomArchive.Catalogue;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace HeirloomArchive.Web.Access;

/// <summary>On her own machine nobody signs in: whoever reaches the archive there is its owner.</summary>
public sealed class OnePerson(IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory log, UrlEncoder encoder)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, log, encoder)
{
    public const string Name = "OnePerson";

    /// <inheritdoc />
    protected override Task<AuthenticateResult> HandleAuthenticateAsync() => Task.FromResult(AuthenticateResult.Success(
        new AuthenticationTicket(new Caller(Guid.Empty, Viewer.Owner.Name, Role.Owner).ToPrincipal(Name), Name)));
}
