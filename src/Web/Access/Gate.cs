using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Pages;

namespace HeirloomArchive.Web.Access;

/// <summary>Lets a request through or not, by the <see cref="Matrix"/>; names the one who asks to the rooms behind.</summary>
public sealed class Gate(RequestDelegate next, ArchiveSettings settings)
{
    private readonly AccessSettings access = settings.Access;

    public async Task InvokeAsync(HttpContext context)
    {
        var caller = Caller.Of(context.User, access.Visitors);
        context.Features.Set(caller);
        var viewer = new Viewer(caller.Name, caller.Sight());
        Viewer.Enter(viewer);
        // Without a route it is the answer that there is nothing, or not by this method or of this kind; that is for everybody.
        if (context.GetEndpoint() is not RouteEndpoint endpoint)
        {
            await next(context);
            return;
        }

        var row = Matrix.Find(context.Request.Method, endpoint, context.Request.Query["handler"]);
        await (Judge(row, caller) switch
        {
            Verdict.Yes => next(context),
            Verdict.NotThere => Answer(context, 404, "It is not in the archive.", "There is nothing here: the archive is kept by one person, who has no need to sign in."),
            Verdict.SignIn => AskToSignIn(context),
            _ => Answer(context, 403, "Not for you.", row is null
                ? $"{context.Request.Method} {context.Request.Path} has no row in the table of who may do what, so nobody may."
                : Why(row, caller)),
        });
    }

    private enum Verdict
    {
        Yes,
        No,
        SignIn,
        NotThere,
    }

    private Verdict Judge(Row? row, Caller caller) => row switch
    {
        null => Verdict.No,
        { IsOfAccounts: true } when !access.Accounts => Verdict.NotThere,
        _ when caller.May(row) => Verdict.Yes,
        _ => caller.IsKnown ? Verdict.No : Verdict.SignIn,
    };

    private static string Why(Row row, Caller caller) => caller.Scopes is not null
        ? caller.Role < row.Least
            ? $"This needs the role {row.Least.Slug()}; the token acts as {caller.Role.Slug()}."
            : "The token was not made for this; its scopes are " + string.Join(", ", caller.Scopes.Order(StringComparer.Ordinal)) + "."
        : $"This needs the role {row.Least.Slug()}; yours is {caller.Role.Slug()}. The owner of the archive can change it.";

    private static Task AskToSignIn(HttpContext context)
    {
        if (context.Request.IsForPeople())
        {
            var back = HttpMethods.IsGet(context.Request.Method) ? context.Request.Path + context.Request.QueryString : "/";
            context.Response.Redirect("/account/sign-in?back=" + Uri.EscapeDataString(back));
            return Task.CompletedTask;
        }

        context.Response.Headers.WWWAuthenticate = "Bearer";
        return Answer(context, 401, "Sign in first.", "This is not for everybody: sign in, or send a token that was made for it as Authorization: Bearer.");
    }

    // A page's refusal is a page: it is made from the status alone.
    private static Task Answer(HttpContext context, int status, string title, string detail)
    {
        if (!context.Request.IsForPeople())
        {
            return Results.Problem(statusCode: status, title: title, detail: detail).ExecuteAsync(context);
        }

        context.Response.StatusCode = status;
        return Task.CompletedTask;
    }
}
