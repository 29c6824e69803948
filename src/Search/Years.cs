namespace HeirloomArchive.Search;

/// <summary>The first and last year a date may mean, both inclusive; an open end is the least or greatest <see cref="int"/>.</summary>
internal readonly record struct Years(int From, int To)
{
    /// <summary>The years of the decade facet: from the 1700s to the present one.</summary>
    public static readonly int FirstDecade = 170;

    /// <summary>Reads <c>1900s</c> as 1900 to 1909; null for anything else.</summary>
    public static Years? OfDecade(string text) =>
        text.Length == 5 && text[4] == 's' && text[3] == '0' && text[..4].All(char.IsAsciiDigit)
            ? new Years(Number(text[..4]), Number(text[..4]) + 9)
            : null;

    /// <summary>Reads a year of four digits; null for anything else.</summary>
    public static int? Of(string text) => text.Length == 4 && text.All(char.IsAsciiDigit) ? Number(text) : null;

    private static int Number(string digits) => int.Parse(digits, System.Globalization.CultureInfo.InvariantCulture);
}
