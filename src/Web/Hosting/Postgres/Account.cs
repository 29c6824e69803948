using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;

namespace HeirloomArchive.Web.Hosting.Postgres;

/// <summary>The user PostgreSQL runs as when the program itself runs as root, which PostgreSQL refuses.</summary>
internal sealed record Account(string Name, uint User, uint Group)
{
    /// <summary>Null when the program's own user will do.</summary>
    public static Account? ForPostgres()
    {
        if (OperatingSystem.IsWindows() || !Environment.IsPrivilegedProcess) return null;
        var line = File.ReadLines("/etc/passwd").Select(l => l.Split(':')).FirstOrDefault(f => f is ["nobody", _, _, _, ..])
            ?? throw new StartException("PostgreSQL does not run as root, and there is no user 'nobody' here to run it: start the program as an ordinary user.");
        return new(line[0], uint.Parse(line[2], CultureInfo.InvariantCulture), uint.Parse(line[3], CultureInfo.InvariantCulture));
    }

    /// <summary>Throws when this user cannot pass through to the folder, naming the folder that shuts it out.</summary>
    [UnsupportedOSPlatform("windows")]
    public void MustReach(string folder)
    {
        using var tried = Process.Start(new ProcessStartInfo("/bin/sh", ["-c", "cd \"$0\" 2>/dev/null", folder]) { UserName = Name, WorkingDirectory = "/" })!;
        tried.WaitForExit();
        if (tried.ExitCode == 0) return;
        var shut = Ancestors(folder).FirstOrDefault(f => (File.GetUnixFileMode(f) & UnixFileMode.OtherExecute) == 0) ?? folder;
        throw new StartException($"The archive's folder {folder} is out of reach: started by root, the program runs PostgreSQL as the user '{Name}', "
            + $"and {shut} does not let that user through. Choose another folder with --Archive:Folder=PATH, or open the way with: chmod o+x {shut}");
    }

    /// <summary>Throws when PostgreSQL's files belong to somebody else: it refuses to serve those.</summary>
    /// <param name="data">Its data folder, which exists.</param>
    /// <param name="account">Who will run it; null for the program's own user.</param>
    [UnsupportedOSPlatform("windows")]
    public static void MustOwn(string data, Account? account)
    {
        var start = new ProcessStartInfo("/bin/sh", ["-c", "test -O \"$0\"", data]) { WorkingDirectory = "/" };
        if (account is not null) start.UserName = account.Name;
        using var tried = Process.Start(start)!;
        tried.WaitForExit();
        if (tried.ExitCode == 0) return;
        var who = account?.Name ?? Environment.UserName;
        throw new StartException($"The record in {data} belongs to another user than '{who}', who is to run PostgreSQL here, and PostgreSQL does not serve another's files. "
            + $"Start the program as the user who made the archive, or give the folder over with: chown -R {who} {data}");
    }

    private static IEnumerable<string> Ancestors(string folder) =>
        (Path.GetDirectoryName(folder) is { } parent ? Ancestors(parent) : []).Append(folder);
}
