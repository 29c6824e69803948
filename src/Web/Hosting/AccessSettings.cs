using System.Net;

namespace HeirloomArchive.Web.Hosting;

/// <summary>Who may come in, and by which way.</summary>
/// <param name="Accounts">Whether people sign in; else one person keeps the archive on her own machine.</param>
/// <param name="Visitors">Whether those who have not signed in may look at the pieces shown to visitors.</param>
/// <param name="Hosts">The names that the archive answers to; none for any.</param>
/// <param name="Proxies">The networks whose word is taken for where a request came from.</param>
public sealed record AccessSettings(bool Accounts, bool Visitors, IReadOnlyList<string> Hosts, IReadOnlyList<IPNetwork> Proxies)
{
    /// <summary>Whether it is reached by https, here or through a proxy.</summary>
    public bool Secure { get; init; }

    /// <summary>Every setting that is read here.</summary>
    public static IReadOnlyList<string> Keys { get; } = ["Archive:Access", "Archive:Visitors", "Archive:Hosts", "Archive:Proxies"];

    /// <summary>One person on her own machine.</summary>
    public static AccessSettings OnePerson { get; } = new(false, false, [], []);

    /// <exception cref="StartException">A value that cannot be.</exception>
    public static AccessSettings Read(IConfiguration configuration)
    {
        var access = configuration["Archive:Access"] ?? "OnePerson";
        var accounts = AreAccounts(configuration);
        if (!accounts && !access.Equals("OnePerson", StringComparison.OrdinalIgnoreCase))
        {
            throw new StartException($"Archive:Access is '{access}': it can be OnePerson (the default) or Accounts.");
        }

        if (!accounts && Keys.Skip(1).FirstOrDefault(k => configuration[k] is { Length: > 0 }) is { } idle)
        {
            throw new StartException($"{idle} makes sense only with Archive:Access=Accounts: without it nobody but you can reach the archive.");
        }

        var proxies = List(configuration, "Archive:Proxies").Select(Network).ToList();
        return new(accounts, YesOrNo(configuration, "Archive:Visitors"), List(configuration, "Archive:Hosts"), proxies)
        {
            Secure = proxies.Count > 0 || configuration["urls"]?.Contains("https://", StringComparison.OrdinalIgnoreCase) == true,
        };
    }

    /// <summary>Whether people are to sign in.</summary>
    internal static bool AreAccounts(IConfiguration configuration) => "Accounts".Equals(configuration["Archive:Access"], StringComparison.OrdinalIgnoreCase);

    private static bool YesOrNo(IConfiguration configuration, string key) => configuration[key] is not { Length: > 0 } text
        ? false
        : bool.TryParse(text, out var yes) ? yes : throw new StartException($"{key} is '{text}': it can be true or false (the default).");

    private static string[] List(IConfiguration configuration, string key) =>
        configuration[key]?.Split([',', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) ?? [];

    private static IPNetwork Network(string text) =>
        IPNetwork.TryParse(text, out var network) ? network
        : IPAddress.TryParse(text, out var one) ? new(one, one.AddressFamily == System.Net.Sockets.AddressFamily.InterNetwork ? 32 : 128)
        : throw new StartException($"Archive:Proxies has '{text}': it takes addresses and networks with commas between, like 10.0.0.5, 192.168.1.0/24.");
}
