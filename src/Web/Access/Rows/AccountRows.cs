namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: accounts, which are there only where people sign in, and what is shown to visitors.</summary>
internal static class AccountRows
{
    public static IEnumerable<Row> All =>
    [
        .. Role.Anyone.May(
            "POST /api/account/sign-in", "POST /api/account/sign-in/passkey/options", "POST /api/account/sign-in/passkey", "POST /api/account/first", "POST /api/account/join", "POST /api/account/recover",
            "GET POST /account/sign-in", "GET POST /account/first", "GET POST /account/join", "GET POST /account/recover"),
        .. Role.Pupil.May(
            "GET /api/account", "POST /api/account/sign-out", "PUT /api/account/password", "POST /api/account/recovery-codes",
            "POST /api/account/passkeys/options", "POST /api/account/passkeys", "DELETE /api/account/passkeys/{key}",
            "GET DELETE /api/account/sessions", "DELETE /api/account/sessions/{id:guid}", "GET POST /api/account/tokens", "DELETE /api/account/tokens/{id:guid}",
            "GET POST /account", "GET POST /account/sign-out"),
        .. Role.Owner.May(
            "GET /api/account/people", "PUT DELETE /api/account/people/{id:guid}", "POST /api/account/people/{id:guid}/invitation", "DELETE /api/account/people/{id:guid}/sessions",
            "GET POST /api/account/invitations", "DELETE /api/account/invitations/{id:guid}", "GET /api/account/book",
            "GET POST /account/people", "GET /account/book"),
        .. Role.Owner.May("GET PUT /api/garments/{id:guid}/visitors", "GET POST /pieces/{id:guid}/visitors").Select(r => r with { WithAccounts = true }),
    ];
}
