using System.Diagnostics;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

/// <summary>The image of <c>docker/Dockerfile</c>, built and then run as <c>docker/compose.yaml</c> runs it; only where there is an engine and somebody names the images it stands on.</summary>
[Collection("Processes")]
public sealed partial class ImageTests(PostgresServer postgres) : IAsyncDisposable
{
    private readonly string name = "heirloom-archive-test-" + Guid.NewGuid().ToString("N");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task It_serves_as_nobody_in_particular_writes_to_its_volume_alone_and_ends_when_asked()
    {
        var (sdk, runtime) = (Environment.GetEnvironmentVariable("DOTNET_SDK_IMAGE"), Environment.GetEnvironmentVariable("DOTNET_RUNTIME_IMAGE"));
        Assert.SkipWhen(sdk is null || runtime is null, "DOTNET_SDK_IMAGE and DOTNET_RUNTIME_IMAGE name no images to build on.");
        Assert.SkipWhen(await Docker("version") is (not 0, _), "There is no Docker engine here.");
        await Done("build", "--network=host", "-f", "docker/Dockerfile", "-t", name, "--build-arg", "SDK=" + sdk, "--build-arg", "RUNTIME=" + runtime, ".");

        using var client = new HttpClient { BaseAddress = new($"http://127.0.0.1:{RunningArchive.FreePort()}") };
        await Done("run", "-d", "--name", name, "--network=host", "--read-only", "--tmpfs", "/tmp", "--cap-drop", "ALL", "--security-opt", "no-new-privileges:true",
            "-e", "Archive__Access=Accounts", "-e", "ASPNETCORE_URLS=" + client.BaseAddress, "-e", $"ConnectionStrings__Archive={await postgres.NewDatabase()};GSS Encryption Mode=Disable", name);
        await Wait.Until(async () => await Docker("inspect", "-f", "{{.State.Health.Status}}", name) is (0, "healthy"), "the container is healthy", every: 200);

        var (_, said) = await Docker("logs", name);
        await Household.Post(client, "/api/account/first", new() { ["code"] = Code().Match(said).Groups[1].Value, ["name"] = "Orla", ["password"] = Household.Password });
        var garment = (await Household.Post(client, "/api/garments", new() { ["number"] = "K-1", ["name"] = "Nightgown of longcloth" }))["id"]!.ToString();
        using var form = new MultipartFormDataContent { { new ByteArrayContent(Made.Png()), "file", "front.png" } };
        using var sent = await client.PostAsync($"/api/garments/{garment}/pictures", form, Cancel);
        Assert.True(sent.StatusCode == HttpStatusCode.Created, await sent.Content.ReadAsStringAsync(Cancel));
        var picture = JsonNode.Parse(await sent.Content.ReadAsStringAsync(Cancel))![0]!["id"]!.ToString();
        Assert.NotEmpty(await client.GetByteArrayAsync($"/api/pictures/{picture}/thumbnail", Cancel));

        Assert.NotEqual("0", await Done("exec", name, "id", "-u"));
        Assert.Equal((1, "Read-only file system"), await Docker("exec", name, "sh", "-c", "touch /archive/x 2>&1 | grep -o 'Read-only file system' && exit 1"));
        await Done("exec", name, "dotnet", "HeirloomArchive.Web.dll", "backup", "/var/lib/heirloom-archive/kept.heirloom");

        await Done("stop", "-t", "15", name);
        Assert.Equal("0", await Done("inspect", "-f", "{{.State.ExitCode}}", name));
    }

    public async ValueTask DisposeAsync()
    {
        if (await Docker("image", "inspect", name) is (not 0, _)) return;
        await Docker("rm", "-f", "-v", name);
        await Docker("rmi", name);
    }

    private static async Task<string> Done(params string[] words)
    {
        var (code, said) = await Docker(words);
        Assert.True(code == 0, $"docker {string.Join(' ', words)}: {said}");
        return said;
    }

    /// <returns>Its code, and what it wrote; where there is no such program, a code that is not 0.</returns>
    private static async Task<(int Code, string Said)> Docker(params string[] words)
    {
        try
        {
            using var docker = Process.Start(new ProcessStartInfo("docker", words) { WorkingDirectory = SourceFolder.Top, RedirectStandardOutput = true, RedirectStandardError = true })!;
            var errors = docker.StandardError.ReadToEndAsync();
            var said = await docker.StandardOutput.ReadToEndAsync();
            await docker.WaitForExitAsync();
            return (docker.ExitCode, (said + await errors).Trim());
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            return (127, e.Message);
        }
    }

    [GeneratedRegex("enter this code: ([a-z0-9-]+)")]
    private static partial Regex Code();
}
