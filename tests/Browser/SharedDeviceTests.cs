using System.Net;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>One browser and several people: what somebody typed outlives her session, and she alone gets it; no page of hers is left for the next.</summary>
public sealed class SharedDeviceTests(Household house, Chromium chromium) : IClassFixture<Household>, IAsyncLifetime
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        await house.As("owner").DeleteAsync("/api/drafts/new-piece", Stop);
        await house.As("keeper").DeleteAsync("/api/drafts/new-piece", Stop);
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Fact]
    public async Task What_is_typed_after_her_session_has_ended_is_kept_and_saved_once_she_is_back()
    {
        var page = await chromium.Open(house.Host.Address, width: 390);
        await SignIn(page, "Kitty", "/pieces/new");
        await Name(page).FillAsync("Lawn slip");
        await Expect(Said(page)).ToHaveTextAsync("Kept as a draft.");
        await EndSession(page.Context);
        await Name(page).FillAsync("Lawn slip with a beaded waist");
        await Expect(Said(page)).ToContainTextAsync("not signed in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(Said(page)).ToContainTextAsync("Not saved yet: you are not signed in");
        await Expect(Name(page)).ToHaveValueAsync("Lawn slip with a beaded waist");

        // Somebody else who signs in meanwhile gets none of it.
        var other = await page.Context.NewPageAsync();
        await page.RunAndWaitForResponseAsync(() => SignIn(other, "Orla", "/account"), answer => answer.Url.EndsWith("/api/account", StringComparison.Ordinal) && answer.Ok);
        await Expect(Said(page)).ToContainTextAsync("not signed in");
        Assert.Equal(HttpStatusCode.NotFound, await Draft("owner"));

        await EndSession(page.Context);
        await SignIn(other, "Kitty", "/account");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Lawn slip with a beaded waist", Level = 1 })).ToBeVisibleAsync();
        Assert.Equal(HttpStatusCode.NotFound, await Draft("keeper"));
    }

    [Fact]
    public async Task What_was_typed_and_never_sent_comes_to_her_who_typed_it_and_to_nobody_else()
    {
        var page = await chromium.Open(house.Host.Address);
        await SignIn(page, "Kitty", "/pieces/new");
        await page.Context.SetOfflineAsync(true);
        await Name(page).FillAsync("Mull fichu, darned");
        await Expect(Said(page)).ToContainTextAsync("does not answer");
        var context = page.Context;
        await page.CloseAsync();
        await context.SetOfflineAsync(false);
        await EndSession(context);

        page = await context.NewPageAsync();
        await SignIn(page, "Orla", "/pieces/new");
        await page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        await Expect(Name(page)).ToHaveValueAsync("");
        Assert.Equal(HttpStatusCode.NotFound, await Draft("owner"));

        await EndSession(context);
        await SignIn(page, "Kitty", "/pieces/new");
        await Expect(Name(page)).ToHaveValueAsync("Mull fichu, darned");
    }

    [Theory]
    [InlineData("/account/sign-in")]
    [InlineData("/account/join")]
    [InlineData("/account/recover")]
    public async Task Where_another_comes_in_no_page_is_kept_of_who_was_there_before(string way)
    {
        var page = await chromium.Open(house.Host.Address);
        await SignIn(page, "Kitty", "/pieces/new");
        await Wait.Until(() => page.EvaluateAsync<bool>("caches.match('/pieces/new', { ignoreVary: true }).then(Boolean)"), "the browser keeps the page");
        await EndSession(page.Context);
        await page.GotoAsync(way);
        await Wait.Until(() => page.EvaluateAsync<bool>("caches.match('/pieces/new', { ignoreVary: true }).then((kept) => !kept)"), "the browser has forgotten the page");
    }

    private static ILocator Name(IPage page) => page.GetByLabel("Name", new() { Exact = true });

    private static ILocator Said(IPage page) => page.Locator("[data-draft-said]");

    private static async Task SignIn(IPage page, string name, string back)
    {
        await page.GotoAsync("/account/sign-in?back=" + back);
        await page.GetByLabel("Your name").FillAsync(name);
        await page.GetByLabel("Password").FillAsync(Household.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
        await page.WaitForURLAsync("**" + back);
    }

    // As when it was not used for long.
    private static Task EndSession(IBrowserContext context) => context.ClearCookiesAsync(new() { Name = "heirloom-session" });

    private async Task<HttpStatusCode> Draft(string who)
    {
        using var answer = await house.As(who).GetAsync("/api/drafts/new-piece", Stop);
        return answer.StatusCode;
    }
}
