using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace HeirloomArchive.Web.Accounts;

/// <summary>
/// Secrets that the archive makes. They are long enough that a digest without salt keeps them: nobody tries 2^138 of them.
/// </summary>
public static class Codes
{
    // No letter or digit that is taken for another.
    private const string Letters = "abcdefghjkmnpqrstuvwxyz23456789";

    /// <summary>For a person to copy: seven groups of four, 138 bits.</summary>
    public static string ForPeople() => string.Join('-', Enumerable.Range(0, 7).Select(_ => RandomNumberGenerator.GetString(Letters, 4)));

    /// <summary>For a program or a browser: 256 bits.</summary>
    public static string ForPrograms() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));

    /// <summary>What is kept of a secret.</summary>
    public static string Digest(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));

    /// <summary>A code that a person typed, as it was made: blanks, hyphens and capitals of hers do not count.</summary>
    public static string Typed(string? code)
    {
        var plain = string.Concat((code ?? "").ToLowerInvariant().Where(char.IsAsciiLetterOrDigit).Take(100));
        return string.Join('-', plain.Chunk(4).Select(g => new string(g)));
    }

    /// <summary>Whether two digests are the same, in the same time whichever they are.</summary>
    public static bool Same(string a, string b) => CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(a), Encoding.ASCII.GetBytes(b));
}
