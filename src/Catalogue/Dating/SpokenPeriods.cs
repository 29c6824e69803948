using System.ComponentModel;
using System.Globalization;
using System.Text.RegularExpressions;

namespace HeirloomArchive.Catalogue.Dating;

/// <summary>Times that have a name: reigns, wars, the turn of the century; and those that must be asked back.</summary>
internal static partial class SpokenPeriods
{
    // Dates of general history: reigns from accession to death, wars from their first day to their last.
    private static readonly Period[] Known =
    [
        new(["victorian", "victorian times", "queen victoria's time", "queen victoria's reign"], "1837/1901", "Queen Victoria reigned from 1837 to 1901."),
        new(["edwardian", "edwardian times", "king edward's time"], "1901/1910", "King Edward VII reigned from 1901 to 1910; the word is often used up to 1914, then write 1901 to 1914."),
        new(["regency"], "1811/1820", "The Regency was from 1811 to 1820."),
        new(["turn of the century", "turn of the 20th century", "around the turn of the century"], "1895~/1905~", "The turn of the century is taken as the ten years about 1900: about 1895 to about 1905."),
        new(["between the wars"], "1918-11/1939-09", "From November 1918 to September 1939."),
    ];

    private static readonly WarOf[] Wars =
    [
        new("1914|14|1914-18|1914-1918|first|first world|great|world war i|world war 1|world war one|wwi|ww1|1914 to 1918", "1914-07", "1914-07", "1918-11", "The war of 1914 began on 28 July 1914 and ended on 11 November 1918."),
        new("1939|39|1939-45|1939-1945|second|second world|world war ii|world war 2|world war two|wwii|ww2|1939 to 1945", "1939-08", "1939-09", "1945-09", "The war of 1939 began on 1 September 1939 and ended on 2 September 1945."),
        new("1870|1870-71|franco-prussian|franco-german", "1870-07", "1870-07", "1871-05", "The war of 1870 began on 19 July 1870 and ended on 10 May 1871."),
        new("1861|1861-65|civil|american civil", "1861-04", "1861-04", "1865-04", "The American Civil War began on 12 April 1861; April 1865 is taken as its end."),
        new("1899|1899-1902|boer|south african", "1899-10", "1899-10", "1902-05", "The South African War began on 11 October 1899 and ended on 31 May 1902."),
    ];

    /// <summary>A named time, or null.</summary>
    public static Heard? Find(string said)
    {
        var text = Article().Replace(said, "");
        if (Known.FirstOrDefault(k => k.Names.Contains(text, StringComparer.OrdinalIgnoreCase)) is { Edtf: { } edtf } known)
        {
            return new(edtf, T(known.Rule));
        }

        var form = War().Match(said);
        if (!form.Success)
        {
            return null;
        }

        var name = form.Groups["name"].Value.ToLowerInvariant().Replace('–', '-');
        return Wars.FirstOrDefault(w => w.Names.Split('|').Contains(name)) is { From: { } from } war
            ? form.Groups["when"].Value.ToLowerInvariant() switch
            {
                "before" or "pre" => new("../" + war.Before, T(war.Words)),
                "after" or "since" or "post" => new(war.To + "/..", T(war.Words)),
                _ => new($"{from}/{war.To}", T(war.Words)),
            }
            : null;
    }

    /// <summary>What can't be told without asking, with the readings to choose from.</summary>
    public static SpokenDate? Asked(string said)
    {
        if (Figures().Match(said) is { Success: true } figures)
        {
            return InFigures(figures);
        }

        var text = Article().Replace(said, "");
        return text.ToLowerInvariant() switch
        {
            "before the war" or "pre-war" or "prewar" => new(null, ["../1914-07", "../1939-08"], T("Which war? Before the war of 1914, or before that of 1939?")),
            "after the war" or "post-war" or "postwar" => new(null, ["1918-11/..", "1945-09/.."], T("Which war? After the war of 1914, or after that of 1939?")),
            "during the war" or "in the war" or "wartime" or "war years" => new(null, ["1914-07/1918-11", "1939-09/1945-09"], T("Which war? That of 1914, or that of 1939?")),
            _ when ShortDecade().Match(text) is { Success: true } ten => InTens(ten),
            "undated" or "unknown" or "not known" or "no date" or "n.d" or "nd" => new(null, [], T("Leave the date empty when nothing is known of it.")),
            _ => null,
        };
    }

    private static SpokenDate InTens(Match ten)
    {
        string[] names = ["twenties", "thirties", "forties", "fifties", "sixties", "seventies", "eighties", "nineties"];
        var digit = ten.Groups["digit"].Success ? ten.Groups["digit"].Value : (2 + Array.IndexOf(names, ten.Value.ToLowerInvariant())).ToString(CultureInfo.InvariantCulture);
        return new(null, [$"18{digit}X", $"19{digit}X"], T($"Of which century? 18{digit}0s or 19{digit}0s?"));
    }

    private static SpokenDate InFigures(Match form)
    {
        var (a, b, year) = (Two(form.Groups["a"].Value), Two(form.Groups["b"].Value), form.Groups["year"].Value);
        if (year.Length != 4)
        {
            return new(null, [], T($"Write the year with four figures: {form.Groups["a"].Value}/{form.Groups["b"].Value}/19{year}."));
        }

        string[] days = [.. new[] { $"{year}-{b}-{a}", $"{year}-{a}-{b}" }.Where(d => Edtf.TryParse(d, out _, out _)).Distinct()];
        return days switch
        {
            [] => new(null, [], T($"There is no such day; write it with the month's name, 12 May {year}.")),
            [var one] => new(one, [], null),
            _ => new(null, days, T($"Which is the month? {DateInWords.Say(days[0])}, or {DateInWords.Say(days[1])}?")),
        };
    }

    private sealed record Period(string[] Names, string Edtf, [Localizable(true)] string Rule);

    private sealed record WarOf(string Names, string Before, string From, string To, [Localizable(true)] string Words);

    private static string Two(string figures) => figures.PadLeft(2, '0');

    [GeneratedRegex(@"^the ", RegexOptions.IgnoreCase)]
    private static partial Regex Article();

    [GeneratedRegex(@"^(?:(?<when>before|pre|during|in|after|since|post)[\s-]+)?(?:(?:the )?war of (?<name>[0-9 –-]+|[0-9]{4} to [0-9]{4})|(?:the )?(?<name>first|second|first world|second world|great|franco-prussian|franco-german|civil|american civil|boer|south african) war|(?<name>world war (?:ii|i|1|2|one|two)|wwii|wwi|ww1|ww2))$", RegexOptions.IgnoreCase)]
    private static partial Regex War();

    [GeneratedRegex(@"^(?<a>[0-9]{1,2})\s?[/.\-]\s?(?<b>[0-9]{1,2})\s?[/.\-]\s?(?<year>[0-9]{4}|[0-9]{2})$")]
    private static partial Regex Figures();

    [GeneratedRegex(@"^(?:['’]?(?<digit>[2-9])0['’]?s|twenties|thirties|forties|fifties|sixties|seventies|eighties|nineties)$", RegexOptions.IgnoreCase)]
    private static partial Regex ShortDecade();
}
