using HeirloomArchive.Support;
using HeirloomArchive.Web.Accounts;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace HeirloomArchive.Browser.Tests;

/// <summary>An archive with accounts in a real browser: the first owner, a passkey by Chromium's virtual authenticator, and every page of accounts.</summary>
public sealed class PasskeyTests(Chromium chromium, PostgresServer postgres)
{
    private const string Password = "nainsook drifts under the ninth lamp";

    [Fact]
    public async Task A_passkey_is_made_and_signs_in_where_the_password_did()
    {
        await using var host = await ArchiveHost.Start(postgres, "--Archive:Access=Accounts");
        var page = await Owner(host, 390);
        var devtools = await page.Context.NewCDPSessionAsync(page);
        await devtools.SendAsync("WebAuthn.enable");
        await devtools.SendAsync("WebAuthn.addVirtualAuthenticator", new()
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2", ["transport"] = "internal", ["hasResidentKey"] = true, ["hasUserVerification"] = true, ["isUserVerified"] = true, ["automaticPresenceSimulation"] = true,
            },
        });
        await page.GetByLabel("What it is on").FillAsync("my telephone");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make a passkey" }).ClickAsync();
        await Assertions.Expect(page.GetByText("my telephone, made")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
        await page.WaitForURLAsync("**/account/sign-in");
        // Where it leads nowhere yet the archive's name keeps its look.
        await Assertions.Expect(page.Locator("a.mark")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator(".mark")).ToHaveCSSAsync("display", "flex");
        await page.GetByRole(AriaRole.Button, new() { Name = "With a passkey" }).ClickAsync();
        await page.WaitForURLAsync(new Uri(Local(host), "/").ToString());
        await Assertions.Expect(page.GetByText("Signed in as Orla")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task No_page_of_accounts_has_a_fault_that_can_be_found_by_rule_or_scrolls_sideways()
    {
        await using var host = await ArchiveHost.Start(postgres, "--Archive:Access=Accounts", "--Archive:Visitors=true");
        var page = await Owner(host, 360);
        await page.GotoAsync("/account/people");
        await page.GetByLabel("For whom").FillAsync("the Tuesday class");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make an invitation" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "The invitation" })).ToBeVisibleAsync();
        await Sound(page, "the invitation");
        foreach (var address in new[] { "/account", "/account/people", "/account/book", "/account/sign-in", "/account/first", "/account/join", "/account/recover", "/pieces" })
        {
            await page.GotoAsync(address);
            await Sound(page, address);
        }

        await page.Context.ClearCookiesAsync();
        foreach (var address in new[] { "/", "/pieces", "/account/sign-in" })
        {
            await page.GotoAsync(address);
            await Sound(page, address + " as a visitor");
            await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "New piece" })).ToHaveCountAsync(0);
        }
    }

    // By the name localhost: a passkey belongs to a name.
    private static Uri Local(ArchiveHost host) => new($"http://localhost:{host.Address.Port}/");

    private async Task<IPage> Owner(ArchiveHost host, int width)
    {
        var page = await chromium.Open(Local(host), width: width);
        await page.GotoAsync("/account/first");
        await page.GetByLabel("The code that the program printed").FillAsync(host.Services.GetRequiredService<FirstOwner>().Code);
        await page.GetByLabel("Your name").FillAsync("Orla");
        await page.GetByLabel("A new password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Come in" }).ClickAsync();
        await page.WaitForURLAsync("**/account");
        return page;
    }

    private static async Task Sound(IPage page, string address)
    {
        await page.Faultless(address);
        await page.Fits();
    }
}
