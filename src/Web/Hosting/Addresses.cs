namespace HeirloomArchive.Web.Hosting;

/// <summary>The addresses that the setting <c>urls</c> names.</summary>
internal static class Addresses
{
    /// <summary>Each of them, as it was written.</summary>
    public static string[] Of(string urls) => urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    /// <summary>One as <see cref="Uri"/> reads it: every address of the machine, written <c>*</c> or <c>+</c>, is 0.0.0.0.</summary>
    public static string Readable(string address) =>
        address.Replace("://*", "://0.0.0.0", StringComparison.Ordinal).Replace("://+", "://0.0.0.0", StringComparison.Ordinal);
}
