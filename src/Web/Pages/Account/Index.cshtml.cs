using System.Globalization;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Accounts;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Account;

/// <summary>One's own account.</summary>
public sealed class IndexModel(Mine mine, Sessions sessions, Tokens tokens, Book book) : AccountPage
{
    private static readonly string[] Browsers = ["Firefox", "Edg", "Chrome", "Safari"], Machines = ["iPhone", "iPad", "Android", "Windows", "Mac OS", "Linux"];

    public Person Me { get; private set; } = null!;

    public IReadOnlyList<Session> Sessions { get; private set; } = [];

    public IReadOnlyList<AccessToken> Tokens { get; private set; } = [];

    /// <summary>The session that this page is seen in.</summary>
    public Guid? This => HttpContext.Caller().Session;

    public Task<IActionResult> OnGet(CancellationToken ct) => Do(() => Task.FromResult<IActionResult?>(null), () => Load(ct));

    public Task<IActionResult> OnPostPassword(CancellationToken ct) => Press(() => mine.ChangePassword(HttpContext, Posted("old"), Posted("password"), ct), ct);

    public Task<IActionResult> OnPostCodes(CancellationToken ct) => Do(async () =>
    {
        Told = (T("Your recovery codes"), T("Write them down now and keep them apart from your telephone: they are not shown again."), await mine.MakeRecoveryCodes(HttpContext, Posted("old")));
        return null;
    }, () => Load(ct));

    public Task<IActionResult> OnPostRemovePasskey(CancellationToken ct) => Press(() => mine.RemovePasskey(HttpContext, Posted("id")), ct);

    public Task<IActionResult> OnPostEndSession(CancellationToken ct) => Press(async () =>
    {
        if (Guid.TryParse(Posted("id"), out var id) && await sessions.End(HttpContext.Caller().Id, id, ct))
        {
            await book.Write(HttpContext, Deeds.EndedSession);
        }
    }, ct);

    public Task<IActionResult> OnPostEndOthers(CancellationToken ct) => Press(async () =>
    {
        await sessions.EndAll(HttpContext.Caller().Id, This, ct);
        await book.Write(HttpContext, Deeds.EndedSession, "all others");
    }, ct);

    public Task<IActionResult> OnPostToken(CancellationToken ct) => Do(async () =>
    {
        await sessions.DemandFresh(HttpContext);
        var (token, text) = await tokens.Make(HttpContext.Caller().Id, Posted("name"), [.. Request.Form["scopes"].OfType<string>()], int.TryParse(Posted("days"), NumberStyles.None, CultureInfo.InvariantCulture, out var days) ? days : 0, ct);
        await book.Write(HttpContext, Deeds.MadeToken, $"{token.Name}: {string.Join(", ", token.Scopes)}");
        Told = (T($"The token “{token.Name}”"), T("Copy it now to where it is used: it is not shown again."), [text]);
        return null;
    }, () => Load(ct));

    public Task<IActionResult> OnPostEndToken(CancellationToken ct) => Press(async () =>
    {
        if (Guid.TryParse(Posted("id"), out var id) && await tokens.End(HttpContext.Caller().Id, id, ct) is { } ended)
        {
            await book.Write(HttpContext, Deeds.EndedToken, ended.Name);
        }
    }, ct);

    /// <summary>A browser in two words, as far as it says what it is.</summary>
    public string Browser(string agent)
    {
        var browser = Browsers.FirstOrDefault(b => agent.Contains(b, StringComparison.Ordinal)) ?? T("A browser");
        return Machines.FirstOrDefault(m => agent.Contains(m, StringComparison.Ordinal)) is { } machine ? T($"{browser} on {machine}") : browser;
    }

    private Task<IActionResult> Press(Func<Task> press, CancellationToken ct) => Do(async () =>
    {
        await press();
        return LocalRedirect("/account");
    }, () => Load(ct));

    private async Task Load(CancellationToken ct)
    {
        Me = await mine.Of(HttpContext);
        Sessions = await sessions.Of(Me.Id, ct);
        Tokens = await tokens.Of(Me.Id, ct);
    }
}
