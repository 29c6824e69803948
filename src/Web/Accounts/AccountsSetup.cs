using HeirloomArchive.Web.Hosting;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace HeirloomArchive.Web.Accounts;

/// <summary>Sign-in on ASP.NET Core Identity.</summary>
public static class AccountsSetup
{
    /// <summary>What OWASP's cheat sheet on password storage asks of PBKDF2 with HMAC-SHA512, in November 2026.</summary>
    private const int HashRounds = 210_000;

    private const string Either = "SessionOrToken";

    /// <param name="services">The host's.</param>
    /// <param name="secure">Whether the archive is reached by https: then its cookies go by nothing else.</param>
    public static IServiceCollection AddAccounts(this IServiceCollection services, bool secure)
    {
        services.AddHttpContextAccessor();
        services.AddIdentityCore<Person>(o => o.User.AllowedUserNameCharacters = "")
            .AddUserStore<PersonStore>().AddSignInManager();
        services.RemoveAll<IPasswordValidator<Person>>().AddSingleton<IPasswordValidator<Person>, PasswordRules>();
        services.AddScoped<IUserClaimsPrincipalFactory<Person>, ClaimsOf>();
        services.Configure<PasswordHasherOptions>(o => o.IterationCount = HashRounds);
        services.Configure<IdentityPasskeyOptions>(o => o.UserVerificationRequirement = "required");
        services.AddAuthentication(Either)
            .AddPolicyScheme(Either, null, o => o.ForwardDefaultSelector = http =>
                http.Request.Headers.Authorization.ToString().StartsWith(TokenHandler.Bearer, StringComparison.OrdinalIgnoreCase) ? TokenHandler.Name : IdentityConstants.ApplicationScheme)
            .AddScheme<AuthenticationSchemeOptions, TokenHandler>(TokenHandler.Name, null)
            .AddScheme<SessionHandler.Settings, SessionHandler>(IdentityConstants.ApplicationScheme, null, o => Shape(o.Cookie, "session", secure, SameSiteMode.Lax))
            // Here Identity keeps what a passkey's answer must match, for the minutes between question and answer.
            .AddCookie(IdentityConstants.TwoFactorUserIdScheme, o =>
            {
                Shape(o.Cookie, "passkey", secure, SameSiteMode.Strict);
                o.ExpireTimeSpan = TimeSpan.FromMinutes(5);
            });
        return services.AddHostedService<BookGuard>().AddSingleton<Sessions>().AddSingleton<Tokens>().AddSingleton<Delays>().AddSingleton<Book>().AddSingleton<FirstOwner>()
            .AddScoped<Entrance>().AddScoped<People>().AddScoped<Mine>();
    }

    /// <summary>A cookie of ours: by https it is bound to this host alone, and to its root.</summary>
    public static void Shape(CookieBuilder cookie, string name, bool secure, SameSiteMode sameSite)
    {
        cookie.Name = (secure ? "__Host-" : "") + "heirloom-" + name;
        (cookie.Path, cookie.HttpOnly, cookie.IsEssential, cookie.SameSite) = ("/", true, true, sameSite);
        cookie.SecurePolicy = secure ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
    }

    /// <summary>Tells the person at the terminal how the first owner comes in, and what is unwise about how it listens.</summary>
    public static async Task SayHowToBegin(this WebApplication app, IProgress<string> said, CancellationToken ct)
    {
        var access = app.Services.GetRequiredService<ArchiveSettings>().Access;
        if (!access.Accounts)
        {
            return;
        }

        if (app.Urls.Any(u => u.StartsWith("http://", StringComparison.Ordinal) && !LoopbackOnly.IsLoopback(new Uri(u).Host)) && access.Proxies.Count == 0)
        {
            said.Report("Beware: passwords and pieces go over the network unencrypted. Put a proxy with https before it (Archive:Proxies), or listen by https.");
        }

        var first = app.Services.GetRequiredService<FirstOwner>();
        if (!await first.IsThere(ct))
        {
            said.Report($"Nobody owns this archive yet. Open /account/first there and enter this code: {first.Code}");
        }
    }
}
