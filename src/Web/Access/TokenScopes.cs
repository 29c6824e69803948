namespace HeirloomArchive.Web.Access;

/// <summary>What a token for a program can be made for.</summary>
public static class TokenScopes
{
    public const string Read = "read", Add = "add", Change = "change", Private = "private";

    /// <summary>Each with what it lets a program do, in English.</summary>
    public static IReadOnlyDictionary<string, string> All { get; } = new Dictionary<string, string> // texts
    {
        [Read] = "Read pieces, lessons, worksheets and words.",
        [Add] = "Work sums out, add pictures, keep drafts.",
        [Change] = "Enter and change pieces, lessons, worksheets and words.",
        [Private] = "See what is private in what it reads: how a piece was come by, where it lies.",
    };

    /// <summary>The scope that a row asks for.</summary>
    public static string Of(Row row) => row.Reads ? Read : row.Least <= Role.Helper ? Add : Change;
}
