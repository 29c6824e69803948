using System.Text.Json.Nodes;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Accounts;

namespace HeirloomArchive.Web.Api;

/// <summary>For the owner: who may come in and as what, and the book of what was done.</summary>
public static class AccountPeopleApi
{
    public static void MapAccountPeople(this IEndpointRouteBuilder app)
    {
        var account = app.MapGroup("/api/account").WithTags("Account");
        account.MapGet("/people", List).WithSummary("All who may come in.");
        account.MapPut("/people/{id:guid}", ChangeRole).WithSummary("Give somebody another role.").Accepts<JsonObject>("application/json");
        account.MapDelete("/people/{id:guid}", TakeOff).WithSummary("Take somebody off; what she did stays under her name.");
        account.MapDelete("/people/{id:guid}/sessions", EndSessions).WithSummary("End all sessions of somebody; she may sign in again.");
        account.MapPost("/people/{id:guid}/invitation", Again).WithSummary("A new way in for somebody who lost hers; the code is told now and never again.");
        account.MapGet("/invitations", Open).WithSummary("Invitations that can still be used.");
        account.MapPost("/invitations", Invite).WithSummary("Invite somebody; the code is told now and never again.").Accepts<JsonObject>("application/json");
        account.MapDelete("/invitations/{id:guid}", Withdraw).WithSummary("Take an invitation back.");
        account.MapGet("/book", ReadBook).WithSummary("Who came in, saw what is private, took copies, changed rights; the newest first.");
    }

    private static async Task<IResult> List(People people, CancellationToken ct) =>
        Api.Json(new JsonObject { ["items"] = new JsonArray([.. (await people.All(ct)).Select(AccountApi.Shown)]) });

    private static async Task<IResult> ChangeRole(Guid id, HttpContext http, People people, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "role");
        return Api.Json(AccountApi.Shown(await people.ChangeRole(http, id, Roles.Read(body.Text("role")), ct)));
    }

    private static async Task<IResult> TakeOff(Guid id, HttpContext http, People people, CancellationToken ct)
    {
        await people.TakeOff(http, id, ct);
        return Results.NoContent();
    }

    private static async Task<IResult> EndSessions(Guid id, HttpContext http, People people, CancellationToken ct)
    {
        await people.EndSessions(http, id, ct);
        return Results.NoContent();
    }

    private static async Task<IResult> Again(Guid id, HttpContext http, People people, CancellationToken ct) => Told(await people.InviteAgain(http, id, ct));

    private static async Task<IResult> Open(People people, CancellationToken ct) =>
        Api.Json(new JsonObject { ["items"] = new JsonArray([.. (await people.Invitations(ct)).Select(Shown)]) });

    private static async Task<IResult> Invite(HttpContext http, People people, CancellationToken ct)
    {
        var body = await AccountBody.Read(http.Request, ct, "role", "note", "days");
        return Told(await people.Invite(http, Roles.Read(body.Text("role")), body.Text("note"), body.Number("days", 7), null, ct));
    }

    private static async Task<IResult> Withdraw(Guid id, HttpContext http, People people, CancellationToken ct)
    {
        await people.Withdraw(http, id, ct);
        return Results.NoContent();
    }

    private static async Task<IResult> ReadBook(HttpRequest request, Book book, CancellationToken ct)
    {
        var paging = Paging.Read(request);
        var (total, lines) = await book.Page(paging.Page, paging.Size, ct);
        return Api.Json(new JsonObject
        {
            ["total"] = total,
            ["items"] = new JsonArray([.. lines.Select(l => new JsonObject
            {
                ["when"] = AccountApi.Moment(l.When), ["who"] = l.Who, ["what"] = l.What, ["about"] = l.About, ["from"] = l.From,
            })]),
        });
    }

    private static JsonObject Shown(Invitation invitation) => new()
    {
        ["id"] = invitation.Id.ToString(), ["role"] = invitation.Role.Slug(), ["note"] = invitation.Note, ["by"] = invitation.By, ["ends"] = AccountApi.Moment(invitation.Ends),
    };

    private static IResult Told((Invitation Invitation, string Code) made)
    {
        var shown = Shown(made.Invitation);
        shown["code"] = made.Code;
        return Api.Json(shown, StatusCodes.Status201Created);
    }
}
