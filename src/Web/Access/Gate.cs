using HeirloomArchive.Web.Accounts;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Pages;

namespace HeirloomArchive.Web.Access;

/// <summary>Lets a request through or not, by its row in the <see cref="Matrix"/>.</summary>
public sealed class Gate(RequestDelegate next, ArchiveSettings settings)
{
    private enum Verdict
    {
        Yes,
        No,
        SignIn,
        NotThere,
    }

    public Task InvokeAsync(HttpContext context)
    {
        // Without a route it is the answer that there is nothing, or not by this method or of this kind; that is for everybody.
        if (context.GetEndpoint() is not RouteEndpoint)
        {
            return next(context);
        }

        var (row, caller) = (context.Features.Get<Row>(), context.Caller());
        return Judge(row, caller) switch
        {
            Verdict.Yes => next(context),
            Verdict.NotThere => Answer(context, 404, "It is not in the archive.", "There is nothing here: the archive is kept by one person, who has no need to sign in."),
            Verdict.SignIn => AskToSignIn(context),
            _ => Refuse(context, row, caller),
        };
    }

    /// <summary>Refuses: a program gets a problem in JSON, a person a page, which is made from the status alone.</summary>
    internal static Task Answer(HttpContext context, int status, string title, string detail)
    {
        if (!context.Request.IsForPeople())
        {
            return Results.Problem(statusCode: status, title: title, detail: detail).ExecuteAsync(context);
        }

        context.Response.StatusCode = status;
        return Task.CompletedTask;
    }

    private Verdict Judge(Row? row, Caller caller) => row switch
    {
        null => Verdict.No,
        { IsOfAccounts: true } when !settings.Access.Accounts => Verdict.NotThere,
        _ when caller.May(row) => Verdict.Yes,
        _ => caller.IsKnown ? Verdict.No : Verdict.SignIn,
    };

    private static async Task Refuse(HttpContext context, Row? row, Caller caller)
    {
        // There is a book only with accounts.
        if (context.RequestServices.GetService<Book>() is { } book)
        {
            await book.Write(context, Deeds.Refused, $"{context.Request.Method} {context.Request.Path}");
        }

        await Answer(context, StatusCodes.Status403Forbidden, "Not for you.", row is null
            ? $"{context.Request.Method} {context.Request.Path} has no row in the table of who may do what, so nobody may."
            : Why(row, caller));
    }

    private static string Why(Row row, Caller caller) => caller.Scopes is not null
        ? caller.Role < row.Least
            ? $"This needs the role {row.Least.Slug()}; the token acts as {caller.Role.Slug()}."
            : $"The token was not made for this; its scopes are {string.Join(", ", caller.Scopes.Order(StringComparer.Ordinal))}."
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
}
