using System.Net;
using System.Net.Sockets;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

[Collection("Processes")]
public sealed class StartingTests : IDisposable
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(30);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task It_prints_one_line_with_its_address_when_it_is_ready()
    {
        await using var archive = await RunningArchive.Start(folder.Path).Ready();
        bool Tells(string line) => line.Contains(archive.Address.GetLeftPart(UriPartial.Authority), StringComparison.Ordinal);
        await Wait.Until(() => archive.Said.Split('\n').Any(Tells), "it prints its address");
        Assert.Single(archive.Said.Split('\n'), Tells);
    }

    [Fact]
    public async Task A_second_start_on_the_same_folder_says_so_and_leaves_the_first_alone()
    {
        await using var first = await RunningArchive.Start(folder.Path).Ready();
        await using var second = RunningArchive.Start(folder.Path);
        Assert.NotEqual(0, await second.Code(Soon));
        Assert.Contains("already open in another running program", second.Said, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await first.Client.GetAsync("/health/ready", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_relative_folder_is_under_the_one_it_was_typed_in(bool fromSource)
    {
        void Typed(System.Diagnostics.ProcessStartInfo start) => start.WorkingDirectory = folder.Path;
        var inside = Path.Combine(folder.Path, "my pieces");
        string[] arguments = ["--Archive:Folder", "my pieces"];
        await using var archive = await (fromSource ? RunningArchive.StartFromSource(inside, arguments, Typed) : RunningArchive.Start(inside, arguments, Typed)).Ready();
        Assert.True(File.Exists(archive.PostmasterFile));
    }

    [Fact]
    public async Task A_port_that_is_taken_is_named_and_postgres_is_not_left_running()
    {
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        var port = ((IPEndPoint)taken.LocalEndpoint).Port;
        await using var archive = RunningArchive.Start(folder.Path, ["--Archive:Folder=" + folder.Path, $"--urls=http://127.0.0.1:{port}"]);
        Assert.NotEqual(0, await archive.Code(Soon));
        Assert.Contains($":{port}", archive.Said, StringComparison.Ordinal);
        Assert.Contains("--urls", archive.Said, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", archive.Said, StringComparison.Ordinal);
        Assert.False(File.Exists(archive.PostmasterFile));
    }

    [Theory]
    [InlineData("Archive:Access", "--Archive:Access=Everybody")]
    [InlineData("Archive:Visitors", "--Archive:Visitors=true")]
    [InlineData("--Archive:Foldr", "--Archive:Foldr=here")]
    [InlineData("--Archive:Pictures", "--Archive:Pictures=")]
    [InlineData("start it with --Archive:Access=Accounts", "--urls=http://0.0.0.0:0")]
    [InlineData("urls", "--urls=http://0.0.0.0:0")]
    [InlineData("urls", "--urls=http://*:0")]
    [InlineData("urls", "--urls=somewhere")]
    [InlineData("ConnectionStrings:Archive", "--ConnectionStrings:Archive=rubbish")]
    [InlineData("ConnectionStrings:Archive", "--ConnectionStrings:Archive=Host=127.0.0.1;Port=1;Username=u;Password=p;Database=d")]
    [InlineData("demo", "demo")]
    public async Task A_wrong_setting_stops_the_start_and_is_named(string named, string argument)
    {
        await using var archive = RunningArchive.Start(folder.Path, ["--Archive:Folder=" + folder.Path, argument]);
        Assert.NotEqual(0, await archive.Code(Soon));
        Assert.Contains(named, archive.Said, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", archive.Said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Archive__Foldr", "Archive:Foldr")]
    [InlineData("Archive__Hosts__0", "Archive:Hosts:0")] // as a list in appsettings.json comes; its hosts would not be held to
    public async Task A_wrong_setting_of_the_environment_is_named_too(string name, string named)
    {
        await using var archive = RunningArchive.Start(folder.Path, ["--Archive:Folder=" + folder.Path, "--Archive:Access=Accounts"], start => start.Environment[name] = "here");
        Assert.NotEqual(0, await archive.Code(Soon));
        Assert.Contains(named, archive.Said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Demo_pieces_are_not_mixed_into_her_own_archive()
    {
        Directory.CreateDirectory(Path.Combine(folder.Path, "pg18"));
        await using var archive = RunningArchive.Start(folder.Path, ["--demo", "--Archive:Folder=" + folder.Path]);
        Assert.NotEqual(0, await archive.Code(Soon));
        Assert.Contains("--demo", archive.Said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_that_the_user_of_postgres_cannot_reach_is_named()
    {
        Assert.SkipUnless(Environment.IsPrivilegedProcess, "Only root runs PostgreSQL as another user.");
        var closed = Directory.CreateDirectory(Path.Combine(folder.Path, "closed")).FullName;
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(closed, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        await using var archive = RunningArchive.Start(Path.Combine(closed, "archive"));
        Assert.NotEqual(0, await archive.Code(Soon));
        Assert.Contains("out of reach", archive.Said, StringComparison.Ordinal);
        Assert.Contains(closed, archive.Said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_ordinary_user_runs_it_in_the_state_folder_of_her_own()
    {
        void AsNobody(System.Diagnostics.ProcessStartInfo start)
        {
            start.Environment["XDG_STATE_HOME"] = folder.Path;
            if (!Environment.IsPrivilegedProcess) return;
            start.UserName = "nobody";
            start.WorkingDirectory = "/";
        }
        if (Environment.IsPrivilegedProcess)
        {
            using var reads = System.Diagnostics.Process.Start(new System.Diagnostics.ProcessStartInfo("/bin/sh",
                ["-c", "test -r \"$0\" && test -r \"$1\"", Web.Hosting.ProgramFolders.Assembly, Path.Combine(Web.Hosting.ProgramFolders.Source, "package.json")]) { UserName = "nobody", WorkingDirectory = "/" })!;
            await reads.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.SkipWhen(reads.ExitCode != 0, "The user 'nobody' cannot read the program where it was built.");
            if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(folder.Path, (UnixFileMode)0b111_111_111);
        }
        await using var archive = await RunningArchive.Start(Path.Combine(folder.Path, "heirloom-archive"), [], AsNobody).Ready();
        Assert.True(File.Exists(archive.PostmasterFile));
        RunningArchive.Signal("TERM", archive.Id);
        Assert.Equal(0, await archive.Code(TimeSpan.FromSeconds(10)));
    }
}
