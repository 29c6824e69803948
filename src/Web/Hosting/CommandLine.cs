namespace HeirloomArchive.Web.Hosting;

/// <summary>
/// What was typed after <c>--</c>. Taken apart here, before the configuration sees it: its own reader lets a word without
/// a value swallow the one after it, and the archive would open in another folder than the one meant.
/// </summary>
/// <param name="Verb"><c>backup</c>, <c>restore</c>, <c>health</c>, or null to serve.</param>
/// <param name="File">The file of <c>backup</c> or <c>restore</c>, whole path.</param>
/// <param name="Demo">Whether the demo archive was asked for.</param>
/// <param name="Settings">The settings, each as <c>--Key=value</c>.</param>
public sealed record CommandLine(string? Verb, string? File, bool Demo, string[] Settings)
{
    public const string Backup = "backup", Restore = "restore", Health = "health";

    private static readonly string[] Keys = ["urls", .. ArchiveSettings.Keys];

    /// <exception cref="StartException">A word that means nothing here, or a setting without a value.</exception>
    public static CommandLine Read(IReadOnlyList<string> args)
    {
        string? verb = null, file = null;
        var demo = false;
        var settings = new List<string>();
        for (var i = 0; i < args.Count; i++)
        {
            if (args[i] == "--demo")
            {
                demo = true;
                continue;
            }
            if (args[i] == Health && verb is null)
            {
                verb = Health;
                continue;
            }
            if (args[i] is Backup or Restore && verb is null)
            {
                verb = args[i++];
                if (i == args.Count || args[i].StartsWith("--", StringComparison.Ordinal)) throw new StartException($"{verb} needs a file: {verb} FILE.");
                file = Path.GetFullPath(args[i]);
                continue;
            }
            if (!args[i].StartsWith("--", StringComparison.Ordinal)) throw NotKnown(args[i]);
            var (key, value) = args[i][2..].Split('=', 2) is [var k, var v] ? (k, v) : (args[i][2..], i + 1 < args.Count ? args[++i] : "");
            if (!Keys.Contains(key, StringComparer.OrdinalIgnoreCase) && !key.StartsWith("Logging:", StringComparison.OrdinalIgnoreCase)) throw NotKnown("--" + key);
            if (value.Length == 0 || value.StartsWith("--", StringComparison.Ordinal)) throw new StartException($"--{key} needs a value: --{key}=VALUE.");
            settings.Add($"--{key}={value}");
        }
        return new(verb, file, demo, [.. settings]);
    }

    private static StartException NotKnown(string word) => new(
        $"'{word}' means nothing here. What may be given: --demo, backup FILE, restore FILE, health, {string.Join(", ", Keys.Select(k => $"--{k}=VALUE"))}.");
}
