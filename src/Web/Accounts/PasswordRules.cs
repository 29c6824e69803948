using Microsoft.AspNetCore.Identity;

namespace HeirloomArchive.Web.Accounts;

/// <summary>
/// What a password must not be: short, or among the first that anybody would try. Which characters it has is hers to choose.
/// </summary>
public sealed class PasswordRules : IPasswordValidator<Person>
{
    public const int Shortest = 12, Longest = 200;

    private const string Rows = "1234567890qwertyuiopasdfghjklzxcvbnm", Letters = "abcdefghijklmnopqrstuvwxyz";

    // What is about this place and its people: of such words alone a password is soon guessed.
    private static readonly string[] OfThisPlace =
        ["heirloom", "archive", "sewing", "garment", "collection", "password", "passphrase", "secret", "welcome", "owner", "keeper", "helper", "pupil", "visitor", "teacher", "class"];

    private static readonly Lazy<HashSet<string>> Common = new(() =>
    {
        using var lines = new StreamReader(typeof(PasswordRules).Assembly.GetManifestResourceStream("common-passwords.txt")!);
        return [.. lines.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(line => line[0] != '#')];
    });

    /// <inheritdoc />
    public Task<IdentityResult> ValidateAsync(UserManager<Person> manager, Person user, string? password) => Task.FromResult(
        Fault(password ?? "", user.Name) is { } fault ? IdentityResult.Failed(new IdentityError { Code = "Password", Description = fault }) : IdentityResult.Success);

    /// <summary>What is wrong with a password; null if it will do.</summary>
    public static string? Fault(string password, string name)
    {
        if (password.Length < Shortest)
        {
            return N(password.Length,
                $"The password has {password.Length} character; take {Shortest} or more. Three or four words that do not belong together are easy to keep.",
                $"The password has {password.Length} characters; take {Shortest} or more. Three or four words that do not belong together are easy to keep.");
        }

        if (password.Length > Longest)
        {
            return T($"The password has {password.Length} characters; {Longest} is the most.");
        }

        var plain = password.ToLowerInvariant();
        return plain.Distinct().Count() < 5 || IsCommon(plain) || IsOfThisPlace(plain) || Walks(plain) || Unit(plain) is { } unit && (unit.Length < 5 || IsCommon(unit) || Walks(unit))
            ? T("This is among the first passwords that anybody would try; take three or four words that do not belong together.")
            : name.Length >= 3 && Core(plain) == Core(name.ToLowerInvariant()) ? T("The password is hardly more than the name; take another.") : null;
    }

    // A common one with figures or signs about it is as common.
    private static bool IsCommon(string plain) => Common.Value.Contains(plain) || Core(plain) is { Length: >= 4 } core && Common.Value.Contains(core);

    private static bool IsOfThisPlace(string plain) =>
        OfThisPlace.Aggregate(plain, (left, word) => left.Replace(word, "", StringComparison.Ordinal)) is var rest && rest.Length < plain.Length && rest.Count(char.IsLetter) < 4;

    private static string Core(string plain) => plain.Trim([.. "0123456789 .,;:!?-_+*/#$%&@()'\"=~^<>|\\[]{}"]);

    // Along the keys or the alphabet, there and back.
    private static bool Walks(string plain) => ((string[])[Rows + Rows, Letters + Letters]).Any(row => row.Contains(plain, StringComparison.Ordinal)
        || new string([.. row.Reverse()]).Contains(plain, StringComparison.Ordinal));

    // What is repeated; null if nothing is.
    private static string? Unit(string plain) => Enumerable.Range(1, plain.Length / 2)
        .Where(n => Enumerable.Range(n, plain.Length - n).All(i => plain[i] == plain[i - n])).Select(n => plain[..n]).FirstOrDefault();
}
