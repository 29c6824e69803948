using System.Text.RegularExpressions;

namespace HeirloomArchive.Sewing;

/// <summary>Lengths that stay on one line: a 3 at the end of one and 5/8 in at the head of the next are read as two lengths.</summary>
public static partial class Unbroken
{
    /// <summary>What stands between the parts of a length: a space at which no line ends.</summary>
    public const char Space = '\u00A0';

    /// <summary>A text with such spaces within its lengths, else as it is.</summary>
    public static string Of(string text) => Within().Replace(text, Space.ToString());

    [GeneratedRegex(@"(?<=≈) |(?<=[0-9]) (?=[0-9]+/[0-9])|(?<=[0-9]) (?=(?:in|mm|cm|m|yd|ft)\b)")]
    private static partial Regex Within();
}
