using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Processes;

/// <summary>The verb <c>health</c>, as a container's health check starts it: a program of its own, which ends with a code.</summary>
[Collection("Processes")]
public sealed class HealthQuestionTests(PostgresServer postgres) : IDisposable
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(60);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task It_ends_with_0_only_while_the_service_is_ready()
    {
        await using var host = await ArchiveHost.Start(postgres);
        var readiness = host.Services.GetRequiredService<Readiness>();
        Assert.Equal((0, "ready"), await Ask($"--urls={host.Address}"));

        readiness.Report("The demo archive: 3 of 40 pieces.");
        var (code, said) = await Ask($"--urls={host.Address}");
        Assert.Equal(1, code);
        Assert.Contains("503", said, StringComparison.Ordinal);
        Assert.Contains("3 of 40 pieces", said, StringComparison.Ordinal);

        await host.StopAsync();
        (code, said) = await Ask($"--urls={host.Address}");
        Assert.Equal(1, code);
        Assert.Contains("does not answer", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_asks_by_the_archives_own_name_and_where_the_service_listens_everywhere()
    {
        string[] shared = ["--Archive:Access=Accounts", "--Archive:Hosts=archive.example, other.example", "--Archive:Proxies=10.0.0.5"];
        await using var host = await ArchiveHost.Start(postgres, shared);
        Assert.Equal((0, "ready"), await Ask([$"--urls=https://*:1;http://*:{host.Address.Port}", .. shared]));
        // By another name the archive refuses; so that is what the name was for.
        var (code, said) = await Ask([$"--urls={host.Address}", "--Archive:Access=Accounts", "--Archive:Hosts=elsewhere.example"]);
        Assert.Equal(1, code);
        Assert.Contains("403", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_opens_no_archive_and_makes_no_folder()
    {
        var nowhere = Path.Combine(folder.Path, "archive");
        Assert.Equal(1, (await Ask($"--urls=http://127.0.0.1:{RunningArchive.FreePort()}", "--Archive:Folder=" + nowhere)).Code);
        Assert.False(Directory.Exists(nowhere));
    }

    private async Task<(int Code, string Said)> Ask(params string[] settings)
    {
        await using var asked = RunningArchive.Start(folder.Path, ["health", .. settings]);
        var code = await asked.Code(Soon);
        return (code, asked.Said.Trim());
    }
}
