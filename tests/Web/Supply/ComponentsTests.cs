using System.Diagnostics;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Supply;

/// <summary>What comes from elsewhere is locked, listed and under a licence that is permitted.</summary>
public sealed class ComponentsTests
{
    private static readonly IReadOnlyList<Components.Component> All = Components.All();

    private static string[] Permitted => [.. Components.Rules["permitted"]!.AsArray().Select(l => l!.ToString())];

    [Fact]
    public void Every_project_has_its_lock_file()
    {
        Assert.Empty(Components.Files("*.csproj").Select(p => Beside(p, "packages.lock.json")).Except(Components.Files("packages.lock.json")));
        Assert.Empty(Components.Files("package.json").Select(p => Beside(p, "package-lock.json")).Except(Components.Files("package-lock.json")));
        static string Beside(string file, string other) => Path.Combine(Path.GetDirectoryName(file)!, other);
    }

    [Fact]
    public void Only_permitted_licences_come_in()
    {
        Assert.True(All.Count > 150, $"only {All.Count} were found");
        Assert.Empty(All.Where(c => !IsPermitted(c)).Select(c => $"{c.Purl}: {c.Licence ?? "no licence declared"}. Take another package, or give the reason in tests/Web/Supply/supply.json."));
    }

    [Theory]
    [InlineData("GPL-3.0-only", false)]
    [InlineData("MIT AND LGPL-3.0-or-later", false)]
    [InlineData("MIT AND Apache-2.0", true)]
    [InlineData("(MIT OR GPL-2.0-only)", true)]
    [InlineData(null, false)]
    public void A_licence_that_is_not_permitted_is_seen(string? licence, bool permitted) =>
        Assert.Equal(permitted, IsPermitted(new("some", "1.0", "pkg:nuget/some@1.0", licence, Ships: true)));

    [Fact]
    public void Nothing_that_ships_is_an_exception() =>
        Assert.Empty(All.Where(c => c.Ships && Components.Rules["exceptions"]!.AsArray().Any(e => c.Purl.StartsWith(e!["of"]!.ToString(), StringComparison.Ordinal))).Select(c => c.Purl));

    [Fact]
    public void What_is_said_by_hand_is_so()
    {
        foreach (var said in Components.Rules["byHand"]!.AsArray())
        {
            var found = All.Where(c => c.ByHand == said).ToList();
            Assert.True(found.Count > 0, $"{said!["of"]} is no longer here: take the line out.");
            if (said!["file"] is { } file) Assert.All(found, c => Assert.Contains(said["says"]!.ToString(), Plain(Path.Combine(c.Folder!, file.ToString())), StringComparison.Ordinal));
            else Assert.True(said["because"]!.ToString().Length > 20);
        }

        foreach (var said in Components.Rules["carried"]!.AsArray())
        {
            if (said!["within"] is { } within) Assert.Contains(All, c => c.Ships && c.Purl.StartsWith(within.ToString(), StringComparison.Ordinal));
            else Assert.Contains(said["says"]!.ToString(), Plain(Path.Combine(SourceFolder.Top, said["file"]!.ToString())), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_list_of_components_is_up_to_date()
    {
        var now = Components.Written();
        if (Environment.GetEnvironmentVariable("HEIRLOOM_COMPONENTS") == "1") File.WriteAllText(Components.Kept, now);
        Assert.True(now == File.ReadAllText(Components.Kept).ReplaceLineEndings("\n"), "docs/components.cdx.json is not what the lock files say: run this test once with HEIRLOOM_COMPONENTS=1 and commit what it writes.");
    }

    [Fact]
    public async Task The_list_is_what_the_schema_of_CycloneDX_asks()
    {
        Assert.Equal("[]", await Check(Components.Written()));
        var spoilt = JsonNode.Parse(Components.Written())!;
        spoilt["components"]![0]!["scope"] = "perhaps";
        Assert.Contains("/components/0/scope", await Check(spoilt.ToJsonString()), StringComparison.Ordinal);
    }

    private static bool IsPermitted(Components.Component component)
    {
        var exceptions = Components.Rules["exceptions"]!.AsArray().Where(e => component.Purl.StartsWith(e!["of"]!.ToString(), StringComparison.Ordinal)).Select(e => e!["licence"]!.ToString());
        string[] all = [.. Permitted, .. exceptions];
        return component.Licence is { } licence && licence.Split(" AND ").All(part => part.Trim('(', ')').Split(" OR ").Any(l => all.Contains(l)));
    }

    private static string Plain(string file) => File.ReadAllText(file).ReplaceLineEndings("\n");

    // The schema comes with the npm package @cyclonedx/cyclonedx-library (Apache-2.0), the reader of schemas is ajv (MIT).
    private static async Task<string> Check(string list)
    {
        var folder = Path.Combine(SourceFolder.Top, "tests", "Web", "Supply");
        using var node = Process.Start(new ProcessStartInfo("node", "check.mjs") { WorkingDirectory = folder, RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true })!;
        var (answer, errors) = (node.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), node.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
        await node.StandardInput.WriteAsync(list);
        node.StandardInput.Close();
        await node.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(node.ExitCode == 0, await errors);
        return await answer;
    }
}
