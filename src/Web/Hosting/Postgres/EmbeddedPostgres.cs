using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using Npgsql;

namespace HeirloomArchive.Web.Hosting.Postgres;

/// <summary>
/// The PostgreSQL that the archive runs by itself: in <c>pg18</c> of its folder (18 its major version), on a free loopback port, with a password of its own.
/// The caller holds the folder's lock. Disposing stops it cleanly, once its clients are done. Ended by itself, <see cref="Keeping"/> starts it again.
/// </summary>
public sealed class EmbeddedPostgres : IAsyncDisposable
{
    private const string User = "heirloom";
    private readonly string major, data, bin, connectionFile;
    private readonly Account? account;
    private Process? server;
    private int port;

    private EmbeddedPostgres(string folder, string major, string programs, Account? account)
    {
        this.account = account;
        this.major = major;
        data = Path.Combine(folder, "pg" + major);
        bin = Path.Combine(programs, "bin");
        connectionFile = ConnectionFile(folder);
    }

    /// <summary>For Npgsql; good until disposed.</summary>
    public string ConnectionString { get; private set; } = "";

    /// <summary>Ends when the server does, asked or not; as of the newest start.</summary>
    public Task Ended => server!.WaitForExitAsync();

    /// <summary>The code the server has ended with.</summary>
    internal int ExitCode => server!.ExitCode;

    /// <summary>Holds the connection string while the server runs, for the owner's eyes only.</summary>
    public static string ConnectionFile(string folder) => Path.Combine(folder, "run", "connection");

    /// <summary>The connection string of the server that another program runs in this folder; null when none answers.</summary>
    public static async Task<string?> FindRunning(string folder, CancellationToken cancel)
    {
        var file = ConnectionFile(folder);
        if (!File.Exists(file)) return null;
        try
        {
            var found = await File.ReadAllTextAsync(file, cancel);
            await using var source = NpgsqlDataSource.Create(found);
            await using var connection = await source.OpenConnectionAsync(cancel);
            return found;
        }
        catch (Exception e) when (e is NpgsqlException or IOException) { return null; }
    }

    /// <param name="folder">The archive's folder, which exists. Gets <c>pg18</c> and <c>run</c>.</param>
    /// <param name="progress">Told what takes long.</param>
    /// <param name="package">The folder of PostgreSQL's programs, as npm brought them; null for those that came with this program.</param>
    /// <param name="cancel">Stops a start on its way.</param>
    /// <exception cref="StartException">The folder cannot be reached, holds another version, or the server refuses to start.</exception>
    public static async Task<EmbeddedPostgres> Start(string folder, IProgress<string>? progress = null, string? package = null, CancellationToken cancel = default)
    {
        folder = Path.GetFullPath(folder);
        var account = Account.ForPostgres();
        var run = Directory.CreateDirectory(Path.Combine(folder, "run")).FullName;
        if (account is not null && !OperatingSystem.IsWindows())
        {
            account.MustReach(folder);
            File.SetUnixFileMode(run, (UnixFileMode)0b111_001_001);
        }
        package ??= PostgresFiles.FindPackage();
        var programs = PostgresFiles.Copy(package, run);
        var postgres = new EmbeddedPostgres(folder, PostgresFiles.MajorOf(package), programs, account);
        postgres.CheckNoOther(folder);
        if (!Directory.Exists(postgres.data))
        {
            progress?.Report("Setting up PostgreSQL in " + folder);
            await postgres.Initialize(cancel);
        }
        postgres.CheckVersion();
        if (!OperatingSystem.IsWindows()) Account.MustOwn(postgres.data, account);
        await LeftBehind.End(postgres.data, postgres.bin, cancel);
        PostgresFiles.RemoveOthers(run, programs);
        await postgres.StartServer(cancel);
        return postgres;
    }

    /// <summary>Starts the server again that has ended, at the same address: the connection string stays good.</summary>
    /// <exception cref="StartException">It does not start, for a reason that may pass: the message says what it wrote.</exception>
    public async Task StartAgain(CancellationToken cancel)
    {
        // Of one that was killed, those that serve a client may still run for a moment.
        await LeftBehind.End(data, bin, cancel);
        if (!await Launch(cancel)) throw new StartException($"PostgreSQL does not start in {data}. It says:\n{LastLines()}");
    }

    public async ValueTask DisposeAsync()
    {
        if (server is null) return;
        File.Delete(connectionFile);
        // "Fast": running statements are rolled back, everything committed is on disk. The plain stop would wait for every client.
        if (OperatingSystem.IsWindows()) await Control("stop", "-m", "fast", "-w", "-t", "5");
        else if (!server.HasExited) Posix.Signal(server.Id, Posix.Interrupt);
        if (!await Ends(TimeSpan.FromSeconds(3)))
        {
            if (!OperatingSystem.IsWindows()) Posix.Signal(server.Id, Posix.Quit);   // recovers from its log at the next start
            if (!await Ends(TimeSpan.FromSeconds(1))) server.Kill();
        }
        server.Dispose();
        server = null;
    }

    private async Task<bool> Ends(TimeSpan within)
    {
        try { await server!.WaitForExitAsync().WaitAsync(within); return true; }
        catch (TimeoutException) { return false; }
    }

    // Made beside and moved into place, so that what is there is always whole.
    private async Task Initialize(CancellationToken cancel)
    {
        ClearHalfDone();
        // A name of its own: the initdb of a host that was killed may still be writing into its.
        var half = $"{data}.new-{Guid.NewGuid():N}";
        var passwordFile = half + ".password";
        Directory.CreateDirectory(half);
        OwnerOnly.Write(passwordFile, Convert.ToHexString(RandomNumberGenerator.GetBytes(24)));
        if (account is not null)
        {
            Posix.Give(half, account);
            Posix.Give(passwordFile, account);
        }
        var start = Command("initdb", "-D", half, "-U", User, "-A", "scram-sha-256", "--pwfile", passwordFile,
            "-E", "UTF8", "--locale-provider=builtin", "--builtin-locale=C.UTF-8", "--locale=C");
        start.RedirectStandardOutput = start.RedirectStandardError = true;
        using var initdb = Process.Start(start)!;
        var errors = initdb.StandardError.ReadToEndAsync(cancel);
        try
        {
            await initdb.StandardOutput.ReadToEndAsync(cancel);
            await initdb.WaitForExitAsync(cancel);
        }
        catch (OperationCanceledException)
        {
            initdb.Kill(entireProcessTree: true);
            throw;
        }
        if (initdb.ExitCode != 0) throw new StartException($"PostgreSQL could not be set up in {data}:\n{await errors}");
        File.Move(passwordFile, Path.Combine(half, "heirloom.password"));
        Directory.Move(half, data);
    }

    // What interrupted starts left; what is still being written to is for the start after this one.
    private void ClearHalfDone()
    {
        var (folder, name) = (Path.GetDirectoryName(data)!, Path.GetFileName(data));
        foreach (var left in Directory.EnumerateFileSystemEntries(folder, name + ".new-*").ToList())
        {
            try
            {
                if (Directory.Exists(left)) Directory.Delete(left, recursive: true);
                else File.Delete(left);
            }
            catch (IOException) { }
        }
    }

    private void CheckVersion()
    {
        var file = Path.Combine(data, "PG_VERSION");
        var version = File.Exists(file) ? File.ReadAllText(file).Trim() : null;
        if (version == major) return;
        throw version is null
            ? new StartException($"{data} is not a data folder of PostgreSQL: it has no PG_VERSION. Move it away to start with an empty archive.")
            : MadeByOther(data, version);
    }

    // An archive whose record lies in another version's folder is not an empty one.
    private void CheckNoOther(string folder)
    {
        if (Directory.Exists(data)) return;
        if (Directory.EnumerateDirectories(folder, "pg*").FirstOrDefault(d => Path.GetFileName(d)[2..].All(char.IsAsciiDigit) && File.Exists(Path.Combine(d, "PG_VERSION"))) is { } other)
            throw MadeByOther(other, File.ReadAllText(Path.Combine(other, "PG_VERSION")).Trim());
    }

    private StartException MadeByOther(string place, string version) => new($"{place} was made by PostgreSQL {version}, and this program runs PostgreSQL {major}, which cannot read it. "
        + "Make a backup with the program that made it (backup FILE), then restore it with this one into an empty folder (restore FILE).");

    private async Task StartServer(CancellationToken cancel)
    {
        for (var tries = 1; ; tries++)
        {
            port = FreePort();
            if (await Launch(cancel))
            {
                var password = (await File.ReadAllTextAsync(Path.Combine(data, "heirloom.password"), cancel)).Trim();
                ConnectionString = new NpgsqlConnectionStringBuilder
                {
                    Host = "127.0.0.1", Port = port, Username = User, Password = password, Database = "postgres", MaxPoolSize = 50, ApplicationName = "HeirloomArchive",
                }.ConnectionString;
                OwnerOnly.Write(connectionFile, ConnectionString);
                return;
            }
            var said = LastLines();
            var portWasTaken = said.Contains("could not create any TCP/IP sockets", StringComparison.Ordinal);
            if (!portWasTaken || tries == 5) throw new StartException($"PostgreSQL does not start in {data}. It says:\n{said}");
        }
    }

    private string Log => Path.Combine(data, "server.log");

    private string LastLines() => string.Join('\n', File.Exists(Log) ? File.ReadLines(Log).TakeLast(8) : []);

    // True when it serves, false when it has ended before.
    private async Task<bool> Launch(CancellationToken cancel)
    {
        if (new FileInfo(Log) is { Exists: true, Length: > 1_000_000 }) File.Delete(Log);
        string[] settings = ["-c", "listen_addresses=127.0.0.1", "-c", $"port={port}", "-c", "unix_socket_directories=", "-c", "log_checkpoints=off"];
        var file = Path.Combine(data, "postmaster.pid");
        if (OperatingSystem.IsWindows())
        {
            await Control("start", "-w", "-s", "-l", Log, "-o", string.Join(' ', settings));
            if (LeftBehind.PostmasterId(file) is not { } id) return false;
            Take(Process.GetProcessById(id));
            return true;
        }
        // A session of its own keeps Ctrl-C from reaching it before the host has closed its connections.
        string[] session = File.Exists("/usr/bin/setsid") ? ["/usr/bin/setsid"] : [];
        var start = Command("/bin/sh", ["-c", "exec \"$@\" </dev/null >>\"$0\" 2>&1", Log, .. session, Path.Combine(bin, "postgres"), "-D", data, .. settings]);
        Take(Process.Start(start)!);
        try
        {
            for (; !server!.HasExited; await Task.Delay(15, cancel))
                // A crash leaves a file that says "ready": only our own child's counts.
                if (ReadLines(file) is [var id, _, _, _, _, _, _, var state, ..] && id.Trim() == Text(server.Id) && state.Trim() == "ready") return true;
            return false;
        }
        catch (OperationCanceledException)
        {
            await DisposeAsync();
            throw;
        }
    }

    private void Take(Process begun)
    {
        server?.Dispose();
        server = begun;
    }

    private async Task Control(params string[] arguments)
    {
        using var control = Process.Start(Command("pg_ctl", [arguments[0], "-D", data, .. arguments[1..]]))!;
        await control.WaitForExitAsync();
    }

    private ProcessStartInfo Command(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(Path.Combine(bin, program), arguments) { WorkingDirectory = Path.GetPathRoot(bin)! };
        if (account is not null) start.UserName = account.Name;
        foreach (var name in start.Environment.Keys.Where(k => k.StartsWith("PG", StringComparison.Ordinal)).ToList()) start.Environment.Remove(name);
        return start;
    }

    private static string[] ReadLines(string file)
    {
        try { return File.ReadAllLines(file); }
        catch (IOException) { return []; }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
