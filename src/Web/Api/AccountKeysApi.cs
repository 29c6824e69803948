using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Accounts;

namespace HeirloomArchive.Web.Api;

/// <summary>One's own password, passkeys, recovery codes, sessions and tokens. Of others there is nothing here, by whatever id.</summary>
public static class AccountKeysApi
{
    public static void MapAccountKeys(this IEndpointRouteBuilder app)
    {
        var account = app.MapGroup("/api/account").WithTags("Account");
        account.MapPut("/password", Password).WithSummary("Change the password; all other sessions end.").Accepts<JsonObject>("application/json");
        account.MapPost("/recovery-codes", RecoveryCodes).WithSummary("Make recovery codes anew; they are told now and never again.").Accepts<JsonObject>("application/json");
        account.MapPost("/passkeys/options", PasskeyOptions).WithSummary("What a browser needs to make a passkey.");
        account.MapPost("/passkeys", AddPasskey).WithSummary("Keep the passkey that the browser made, as credential.").Accepts<JsonObject>("application/json");
        account.MapDelete("/passkeys/{key}", RemovePasskey).WithSummary("Remove a passkey.");
        account.MapGet("/sessions", ListSessions).WithSummary("Where you are signed in.");
        account.MapDelete("/sessions", EndOthers).WithSummary("End all sessions but this one.");
        account.MapDelete("/sessions/{id:guid}", EndSession).WithSummary("End a session.");
        account.MapGet("/tokens", ListTokens).WithSummary("Your tokens for programs.");
        account.MapPost("/tokens", MakeToken).WithSummary("Make a token for a program; its text is told now and never again.").Accepts<JsonObject>("application/json");
        account.MapDelete("/tokens/{id:guid}", EndToken).WithSummary("End a token.");
    }

    internal static JsonObject Shown(Passkey key) => new() { ["id"] = key.Id, ["name"] = key.Name, ["made"] = AccountApi.Moment(key.Made) };

    private static async Task<IResult> Password(HttpContext http, Mine mine, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "old", "password");
        await mine.ChangePassword(http, body.Text("old", 1000), body.Text("password", 1000), ct);
        return Results.NoContent();
    }

    private static async Task<IResult> RecoveryCodes(HttpContext http, Mine mine, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "old");
        return Api.Json(new JsonObject { ["codes"] = new JsonArray([.. (await mine.MakeRecoveryCodes(http, body.Text("old", 1000))).Select(c => JsonValue.Create(c))]) }, StatusCodes.Status201Created);
    }

    private static async Task<IResult> PasskeyOptions(HttpContext http, Mine mine) => Results.Content(await mine.BeginPasskey(http), "application/json");

    private static async Task<IResult> AddPasskey(HttpContext http, Mine mine, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "name", "credential");
        return Api.Json(Shown(await mine.AddPasskey(http, body.Text("name"), body.Json("credential"))), StatusCodes.Status201Created);
    }

    private static async Task<IResult> RemovePasskey(string key, HttpContext http, Mine mine) =>
        await mine.RemovePasskey(http, key) ? Results.NoContent() : throw new NotFoundException("You have no such passkey.");

    private static async Task<IResult> ListSessions(HttpContext http, Sessions sessions, CancellationToken ct)
    {
        var caller = http.Caller();
        return Api.Json(new JsonObject
        {
            ["items"] = new JsonArray([.. (await sessions.Of(caller.Id, ct)).Select(s => new JsonObject
            {
                ["id"] = s.Id.ToString(), ["browser"] = s.Browser, ["address"] = s.Address, ["began"] = AccountApi.Moment(s.Began), ["seen"] = AccountApi.Moment(s.Seen), ["this"] = s.Id == caller.Session,
            })]),
        });
    }

    private static async Task<IResult> EndOthers(HttpContext http, Sessions sessions, Book book, CancellationToken ct)
    {
        await sessions.EndAll(http.Caller().Id, http.Caller().Session, ct);
        await book.Write(http, Deeds.EndedSession, "all others");
        return Results.NoContent();
    }

    private static async Task<IResult> EndSession(Guid id, HttpContext http, Sessions sessions, Book book, CancellationToken ct)
    {
        if (!await sessions.End(http.Caller().Id, id, ct))
        {
            throw new NotFoundException($"You have no session with the id {id}.");
        }

        await book.Write(http, Deeds.EndedSession);
        return Results.NoContent();
    }

    private static async Task<IResult> ListTokens(HttpContext http, Tokens tokens, CancellationToken ct) => Api.Json(new JsonObject
    {
        ["items"] = new JsonArray([.. (await tokens.Of(http.Caller().Id, ct)).Select(Shown)]),
    });

    private static async Task<IResult> MakeToken(HttpContext http, Tokens tokens, Sessions sessions, Book book, CancellationToken ct)
    {
        await sessions.DemandFresh(http);
        var body = await AccountBody.Read(http.Request, ct, "name", "scopes", "days");
        var (token, text) = await tokens.Make(http.Caller().Id, body.Text("name"), body.Texts("scopes"), body.Number("days", 90), ct);
        await book.Write(http, Deeds.MadeToken, $"{token.Name}: {string.Join(", ", token.Scopes)}");
        var shown = Shown(token);
        shown["token"] = text;
        return Api.Json(shown, StatusCodes.Status201Created);
    }

    private static async Task<IResult> EndToken(Guid id, HttpContext http, Tokens tokens, Book book, CancellationToken ct)
    {
        var ended = await tokens.End(http.Caller().Id, id, ct) ?? throw new NotFoundException($"You have no token with the id {id}.");
        await book.Write(http, Deeds.EndedToken, ended.Name);
        return Results.NoContent();
    }

    private static JsonObject Shown(AccessToken token) => new()
    {
        ["id"] = token.Id.ToString(), ["name"] = token.Name, ["scopes"] = new JsonArray([.. token.Scopes.Select(s => JsonValue.Create(s))]),
        ["made"] = AccountApi.Moment(token.Made), ["ends"] = AccountApi.Moment(token.Ends), ["seen"] = token.Seen is { } seen ? AccountApi.Moment(seen) : null,
    };
}
