using System.Globalization;
using HeirloomArchive.Sewing.Language;

namespace HeirloomArchive.Worksheets;

/// <summary>The language of a worksheet: that of whoever made it, whoever prints it later.</summary>
internal static class SheetLanguage
{
    /// <summary>What is made now is made in it, as BCP 47 writes it: the reader's, or English where her own is not there.</summary>
    public static string Now => Languages.Reader;

    /// <summary>Does some work in a language, and goes back to that of whoever asked.</summary>
    public static TAnswer In<TAnswer>(string language, Func<TAnswer> work)
    {
        var before = CultureInfo.CurrentUICulture;
        try
        {
            CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(language);
            return work();
        }
        finally
        {
            CultureInfo.CurrentUICulture = before;
        }
    }

    /// <summary>A day, as it stands at the foot of a print.</summary>
    public static string Day(DateTimeOffset day, string language) =>
        day.ToString("d MMMM yyyy", language == Languages.MadeUp ? CultureInfo.InvariantCulture : CultureInfo.GetCultureInfo(language));
}
