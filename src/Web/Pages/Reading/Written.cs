using System.Globalization;
using HeirloomArchive.Sewing.Language;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Days, times and numbers as the reader's country writes them, by what her browser asks for, and the language of the sentences (<see cref="Texts"/>).</summary>
public static class Written
{
    // British where the browser asks for none of them.
    private static readonly string[] Countries = ["en-GB", "en-US", "en-CA", "en-AU", "en-IE", "en-NZ"];

    /// <summary>Lets the browser's language decide, for the pages alone: what programs get is the same everywhere.</summary>
    public static IApplicationBuilder UseReadersCountry(this IApplicationBuilder pages) => pages.UseRequestLocalization(o =>
    {
        string[] all = [.. Countries, .. Languages.Names];
        o.SetDefaultCulture(Countries[0]).AddSupportedCultures(all).AddSupportedUICultures(all);
        // An address or a cookie says nothing of it.
        o.RequestCultureProviders = [.. o.RequestCultureProviders.OfType<Microsoft.AspNetCore.Localization.AcceptLanguageHeaderRequestCultureProvider>()];
    });

    /// <summary>3 May 2024, or May 3, 2024; of this computer's clock.</summary>
    public static string Day(DateTimeOffset when) => when.ToLocalTime().ToString(IsMonthFirst ? "MMMM d, yyyy" : "d MMMM yyyy", Here);

    /// <summary>The same where room is short: 3 May 2024, May 3, 2024.</summary>
    public static string ShortDay(DateTimeOffset when) => when.ToLocalTime().ToString(IsMonthFirst ? "MMM d, yyyy" : "d MMM yyyy", Here);

    /// <summary>3 May 2024, 14:05.</summary>
    public static string Moment(DateTimeOffset when) => $"{Day(when)}, {when.ToLocalTime().ToString("t", Here)}";

    /// <summary>3 May, 14:05: something of these days.</summary>
    public static string Lately(DateTimeOffset when, bool seconds = false) =>
        $"{when.ToLocalTime().ToString(IsMonthFirst ? "MMMM d" : "d MMMM", Here)}, {when.ToLocalTime().ToString(seconds ? "T" : "t", Here)}";

    /// <summary>May 1921.</summary>
    public static string Month(DateOnly day) => day.ToString("MMMM yyyy", Here);

    /// <summary>12,000.</summary>
    public static string Number(long number) => number.ToString("N0", Here);

    /// <summary>1,200.25, with no more places than it has, two at most.</summary>
    public static string Number(decimal number) => number.ToString("#,0.##", Here);

    // The made-up language has no country of its own.
    private static CultureInfo Here => CultureInfo.CurrentCulture.Name is { Length: > 0 } name && name != Languages.MadeUp && (Countries.Contains(name) || Languages.Names.Contains(name))
        ? CultureInfo.CurrentCulture : CultureInfo.GetCultureInfo(Countries[0]);

    private static bool IsMonthFirst => Here.DateTimeFormat.MonthDayPattern.StartsWith('M');
}
