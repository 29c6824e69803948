using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Accounts;
using Microsoft.AspNetCore.Identity;

namespace HeirloomArchive.Web.Api;

/// <summary>Coming in and going out. A refusal says the same whether a name is known or not.</summary>
public static class AccountApi
{
    public static void MapAccount(this IEndpointRouteBuilder app)
    {
        var account = app.MapGroup("/api/account").WithTags("Account");
        account.MapGet("/", Me).WithSummary("Who you are here, and how you sign in.");
        account.MapPost("/first", First).WithSummary("Become the first owner, by the code that the program printed.").Accepts<JsonObject>("application/json");
        account.MapPost("/join", Join).WithSummary("Come in by an invitation.").Accepts<JsonObject>("application/json");
        account.MapPost("/sign-in", SignIn).WithSummary("Sign in by name and password.").Accepts<JsonObject>("application/json");
        account.MapPost("/sign-in/passkey/options", PasskeyOptions).WithSummary("What a browser needs to sign in by a passkey.");
        account.MapPost("/sign-in/passkey", ByPasskey).WithSummary("Sign in by a passkey: what the browser answered, as credential.").Accepts<JsonObject>("application/json");
        account.MapPost("/recover", Recover).WithSummary("Come in by a recovery code, with a new password.").Accepts<JsonObject>("application/json");
        account.MapPost("/sign-out", SignOut).WithSummary("End this session.");
    }

    internal static JsonObject Shown(Person person) => new() { ["id"] = person.Id.ToString(), ["name"] = person.Name, ["role"] = person.Role.Slug(), ["since"] = Moment(person.Since) };

    internal static string Moment(DateTimeOffset when) => when.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private static async Task<IResult> Me(HttpContext http, Mine mine)
    {
        var person = await mine.Of(http);
        var me = Shown(person);
        me["password"] = person.PasswordHash is not null;
        me["recoveryCodes"] = person.RecoveryCodes.Count;
        me["passkeys"] = new JsonArray([.. person.Passkeys.Select(AccountKeysApi.Shown)]);
        return Api.Json(me);
    }

    private static async Task<IResult> First(HttpContext http, FirstOwner first, Entrance entrance, Book book, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "code", "name", "password");
        return Api.Json(Shown(await first.Make(http, entrance, book, body.Text("code"), body.Text("name"), body.Text("password", 1000), ct)), StatusCodes.Status201Created);
    }

    private static async Task<IResult> Join(HttpContext http, Entrance entrance, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "code", "name", "password");
        return Api.Json(Shown(await entrance.ByInvitation(http, body.Text("code"), body.Text("name"), body.Text("password", 1000), ct)), StatusCodes.Status201Created);
    }

    private static async Task<IResult> SignIn(HttpContext http, Entrance entrance, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "name", "password");
        return Answer(http, await entrance.ByPassword(http, body.Text("name"), body.Text("password", 1000)));
    }

    private static async Task<IResult> Recover(HttpContext http, Entrance entrance, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "name", "code", "password");
        return Answer(http, await entrance.ByRecoveryCode(http, body.Text("name"), body.Text("code"), body.Text("password", 1000)));
    }

    private static async Task<IResult> PasskeyOptions(SignInManager<Person> signIn) =>
        Results.Content(await signIn.MakePasskeyRequestOptionsAsync(null), "application/json");

    private static async Task<IResult> ByPasskey(HttpContext http, Entrance entrance, CancellationToken ct) =>
        Answer(http, await entrance.ByPasskey(http, (await AccountBody.Read(http.Request, ct, "credential")).Json("credential")));

    private static async Task<IResult> SignOut(HttpContext http, SignInManager<Person> signIn, Book book)
    {
        await signIn.SignOutAsync();
        await book.Write(http, Deeds.SignedOut);
        return Results.NoContent();
    }

    private static IResult Answer(HttpContext http, Entered entered)
    {
        if (entered.Person is { } person)
        {
            return Api.Json(Shown(person));
        }

        entered.Refuse(http.Response);
        return Results.Problem(statusCode: http.Response.StatusCode, title: entered.Wait is null ? "Not signed in." : "Wait a little.", detail: entered.Why);
    }
}
