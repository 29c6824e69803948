namespace HeirloomArchive.Sewing.Language;

/// <summary>Which form of a text goes with a whole number.</summary>
/// <remarks>Source: Unicode CLDR, "Language Plural Rules", cardinals, whole numbers below a million; the languages a reader of this collection is likeliest to bring.</remarks>
public static class Plurals
{
    /// <summary>The place of the form, from 0, in CLDR's order of one, few, many, other, those that the language has.</summary>
    /// <param name="number">What is counted; its sign makes no difference.</param>
    /// <param name="language">As BCP 47 writes it; only its first part counts.</param>
    public static int FormOf(long number, string language)
    {
        var n = Math.Abs(number);
        return language.Split('-')[0] switch
        {
            "ja" or "ko" or "zh" or "vi" or "th" or "id" => 0,
            "fr" => n > 1 ? 1 : 0,
            "pt" when !language.StartsWith("pt-PT", StringComparison.OrdinalIgnoreCase) => n > 1 ? 1 : 0,
            "cs" or "sk" => n == 1 ? 0 : n is >= 2 and <= 4 ? 1 : 2,
            "pl" => n == 1 ? 0 : IsFew(n) ? 1 : 2,
            "ru" or "uk" => n % 10 == 1 && n % 100 != 11 ? 0 : IsFew(n) ? 1 : 2,
            _ => n == 1 ? 0 : 1,
        };
    }

    private static bool IsFew(long n) => n % 10 is >= 2 and <= 4 && n % 100 is not (>= 12 and <= 14);
}
