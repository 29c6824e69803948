using System.Globalization;
using Npgsql;

namespace HeirloomArchive.Web.Hosting;

/// <summary>Where the archive lies and who may come in.</summary>
/// <param name="Folder">The archive's folder, whole path.</param>
/// <param name="Pictures">Where the originals and derivatives lie, whole path; <c>pictures</c> in the folder unless several nodes share one.</param>
/// <param name="Database">Connection string of a PostgreSQL of one's own; null for the embedded one.</param>
public sealed record ArchiveSettings(string Folder, string Pictures, string? Database)
{
    /// <summary>Who may come in.</summary>
    public AccessSettings Access { get; init; } = AccessSettings.OnePerson;

    /// <summary>Every setting that is read here.</summary>
    public static IReadOnlyList<string> Keys { get; } = ["Archive:Folder", "Archive:Pictures", "Archive:CheckHour", .. AccessSettings.Keys, Hosting.Telemetry.Key, "ConnectionStrings:Archive"];

    /// <summary>Where traces and measures are sent; null for nowhere.</summary>
    public Uri? Telemetry { get; init; }

    /// <summary>Whether the keys of forms lie in the folder, and not in a PostgreSQL that is a server of its own.</summary>
    public bool KeysInFolder { get; init; }

    /// <summary>The hour of the night at which the originals are checked, 0 to 23.</summary>
    public int CheckHour { get; init; } = 3;

    /// <exception cref="StartException">A setting that is not one, or whose value cannot be.</exception>
    public static ArchiveSettings Read(IConfiguration configuration, bool demo)
    {
        foreach (var setting in configuration.GetSection("Archive").GetChildren())
        {
            if (!Keys.Contains(setting.Path, StringComparer.OrdinalIgnoreCase)) throw new StartException($"{setting.Path} is not a setting. There are: {string.Join(", ", Keys)}.");
            // A list in appsettings.json comes so; passed over, the archive would answer to any host.
            if (setting.GetChildren().FirstOrDefault() is { } part) throw new StartException($"{part.Path} is not a setting: {setting.Path} takes one text; several values stand in it with commas between.");
        }

        var folder = PathOf(configuration, "Archive:Folder") ?? DefaultFolder(demo);
        return new(folder, PathOf(configuration, "Archive:Pictures") ?? Path.Combine(folder, "pictures"), DatabaseOf(configuration))
        {
            Access = AccessSettings.Read(configuration),
            CheckHour = HourOf(configuration),
            Telemetry = Hosting.Telemetry.Read(configuration),
        };
    }

    private static int HourOf(IConfiguration configuration) => configuration["Archive:CheckHour"] is not { } text ? 3
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var hour) && hour < 24 ? hour
        : throw new StartException($"Archive:CheckHour is '{text}': it must be a whole hour, 0 to 23.");

    private static string? PathOf(IConfiguration configuration, string key)
    {
        if (configuration[key] is not { } path) return null;
        if (path.Trim().Length == 0 || path.Contains('\0')) throw new StartException($"{key} is '{path}': it must be the path of a folder.");
        return Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
    }

    private static string? DatabaseOf(IConfiguration configuration)
    {
        if (configuration.GetConnectionString("Archive") is not { } text) return null;
        try
        {
            if (new NpgsqlConnectionStringBuilder(text) is { Host: not null } good) return good.ConnectionString;
        }
        catch (Exception e) when (e is ArgumentException or FormatException)
        {
            // What is wrong is said below, without the text: it may hold a password.
        }
        throw new StartException("ConnectionStrings:Archive cannot be read: it must be like Host=db.example;Username=heirloom;Password=…;Database=heirloom.");
    }

    private static string DefaultFolder(bool demo)
    {
        const string Name = "heirloom-archive";
        var state = !OperatingSystem.IsLinux() ? Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData)
            : Environment.IsPrivilegedProcess ? "/var/lib"
            : Environment.GetEnvironmentVariable("XDG_STATE_HOME") is { Length: > 0 } xdg ? xdg
            : Environment.GetEnvironmentVariable("HOME") is { Length: > 0 } home ? Path.Combine(home, ".local", "state")
            : "";
        if (!Path.IsPathFullyQualified(state)) throw new StartException("There is no home folder to keep the archive in: name one with --Archive:Folder=PATH.");
        return Path.Combine(state, demo ? Name + "-demo" : Name);
    }
}
