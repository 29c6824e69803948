using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;

namespace HeirloomArchive.Outside.Tests;

/// <summary>
/// Dates against the Library of Congress, Extended Date/Time Format Specification (4 February 2019), and against the npm
/// package edtf, an independent reader of all its levels.
/// </summary>
public class EdtfTests
{
    /// <summary>The specification's examples with the years they span; the specification was read, the years are what its words say.</summary>
    private static readonly (string Text, int? From, int? To)[] Examples =
    [
        ("1985-04-12", 1985, 1985), ("1985-04", 1985, 1985), ("1985", 1985, 1985), ("1985-04-12T23:20:30", 1985, 1985), ("1985-04-12T23:20:30Z", 1985, 1985),
        ("1985-04-12T23:20:30-04", 1985, 1985), ("1985-04-12T23:20:30+04:30", 1985, 1985), ("1964/2008", 1964, 2008), ("2004-06/2006-08", 2004, 2006),
        ("2004-02-01/2005-02-08", 2004, 2005), ("2004-02-01/2005-02", 2004, 2005), ("2004-02-01/2005", 2004, 2005), ("2005/2006-02", 2005, 2006),
        ("Y170000002", 170000002, 170000002), ("Y-170000002", -170000002, -170000002), ("2001-21", 2001, 2001), ("1984?", 1984, 1984), ("2004-06~", 2004, 2004),
        ("2004-06-11%", 2004, 2004), ("201X", 2010, 2019), ("20XX", 2000, 2099), ("2004-XX", 2004, 2004), ("1985-04-XX", 1985, 1985), ("1985-XX-XX", 1985, 1985),
        ("1985-04-12/..", 1985, null), ("1985-04/..", 1985, null), ("1985/..", 1985, null), ("../1985-04-12", null, 1985), ("../1985-04", null, 1985), ("../1985", null, 1985),
        ("1985-04-12/", 1985, null), ("1985-04/", 1985, null), ("1985/", 1985, null), ("/1985-04-12", null, 1985), ("/1985-04", null, 1985), ("/1985", null, 1985),
        ("1984~/2004-06", 1984, 2004), ("1984/2004-06~", 1984, 2004), ("1984~/2004~", 1984, 2004), ("1984?/2004%", 1984, 2004),
        ("1984-06-02?/2004-08-08~", 1984, 2004), ("-1985", -1985, -1985),
    ];

    /// <summary>Level 2, old drafts, and what is of no level; the specification's where it has them, else common mistakes.</summary>
    private static readonly string[] Neither =
    [
        "156X-12-25", "15XX-12-25", "XXXX-12-XX", "1XXX-XX", "1984-1X", "2004-06~-11", "?2004-06-~11", "2004-06-~01/2004-06-~20", "[1667,1668,1670..1672]", "{1960,1961-12}",
        "2001-25", "2001-34", "Y-17E7", "1950S2", "190X~", "190X/192X", "2001-21~", "196u", "unknown/1985", "1985/open", "y170000002", "1984?~",
        "2004-13", "2004-00", "2004-06-31", "2004-04-31", "1985-4-12", "20050924T100000", "19850412", "12345", "Y1985", "1985-04-12T25:00:00", "about 1900", "c. 1900", "", "1905 ",
    ];

    /// <summary>Where the package is more generous than our contract, and why we are not.</summary>
    private static readonly Dictionary<string, string> Stricter = new()
    {
        ["19"] = "a century in two digits: a year has four, so that 19 is not mistaken for one",
        ["1900-02-29"] = "there was no such day",
        ["/"] = "an interval of nothing",
        ["../.."] = "an interval of nothing",
    };

    [Fact]
    public void The_specifications_examples_are_read_with_the_years_they_say()
    {
        foreach (var (text, from, to) in Examples)
        {
            Assert.True(Edtf.TryParse(text, out var date, out var problem), $"{text}: {problem}");
            Assert.Equal((text, from, to), (text, date.Years.From, date.Years.To));
        }
    }

    [Fact]
    public void The_specifications_examples_survive_being_said_in_words() =>
        Assert.All(Examples, e => Assert.Equal(e.Text, SpokenDate.Read(DateInWords.Say(e.Text)).Edtf));

    [Fact]
    public void An_open_end_is_not_an_unknown_one_and_a_month_not_known_is_not_a_year()
    {
        Assert.True(Edtf.TryParse("1985/..", out var open, out _) && open.OpenEnd);
        Assert.True(Edtf.TryParse("1985/", out var unknown, out _) && !unknown.OpenEnd);
        Assert.True(Edtf.TryParse("2004-XX", out var month, out _) && month.Start!.Value.Precision == "month");
        Assert.True(Edtf.TryParse("2004", out var year, out _) && year.Start!.Value.Precision == "year");
    }

    [Fact]
    public async Task An_independent_reader_accepts_and_refuses_the_same_and_finds_the_same_years()
    {
        string[] texts = [.. Examples.Select(e => e.Text), .. Neither, .. Stricter.Keys, .. Made()];
        var theirs = await Ask(texts);
        var wrong = new List<string>();
        for (var i = 0; i < texts.Length; i++)
        {
            var ours = Edtf.TryParse(texts[i], out var date, out _);
            var read = theirs[i]!["read"]!.GetValue<bool>();
            if (Stricter.ContainsKey(texts[i]))
            {
                Assert.True(read && !ours, $"{texts[i]} is read alike by now; take it out of the list of differences.");
            }
            else if (ours != read)
            {
                wrong.Add($"{texts[i]}: {(ours ? "only we read it" : "only the package reads it")}");
            }
            // The package counts no calendar for years of more than four digits.
            else if (ours && !texts[i].StartsWith('Y') && date!.Years != (theirs[i]!["from"]?.GetValue<int>(), theirs[i]!["to"]?.GetValue<int>()))
            {
                wrong.Add($"{texts[i]}: {date.Years} against {theirs[i]}");
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Take(20)));
    }

    /// <summary>Some thousands of texts near the form: right ones and ones with one sign changed.</summary>
    private static IEnumerable<string> Made()
    {
        const string Signs = "0123456789X-/.~?%";
        var chance = new Random(1905);
        for (var i = 0; i < 4_000; i++)
        {
            var text = Date(chance) + chance.Next(4) switch { 0 => "/" + Date(chance), 1 => "/..", _ => "" };
            if (chance.Next(3) == 0)
            {
                var at = chance.Next(text.Length);
                text = text[..at] + Signs[chance.Next(Signs.Length)] + text[(at + 1)..];
            }

            // Differences that are known and of one kind: the calendar's leap days, and what the package takes for a century.
            if (!text.Contains("-02-29", StringComparison.Ordinal) && !text.Split('/').Any(e => e.TrimEnd('~', '?', '%').TrimStart('-').Length < 4 && e is not ("" or "..")))
            {
                yield return text;
            }
        }
    }

    private static string Date(Random chance)
    {
        var year = chance.Next(1000, 2100).ToString(CultureInfo.InvariantCulture);
        var month = chance.Next(1, 13).ToString("00", CultureInfo.InvariantCulture);
        var bare = chance.Next(8) switch
        {
            0 => $"{year}-{month}",
            1 => $"{year}-{month}-{chance.Next(1, 29):00}",
            2 => year[..3] + "X",
            3 => year[..2] + "XX",
            4 => $"{year}-{chance.Next(21, 25)}",
            5 => $"{year}-{month}-XX",
            _ => year,
        };
        return chance.Next(3) == 0 ? bare + "?~%"[chance.Next(3)] : bare;
    }

    private static async Task<JsonArray> Ask(string[] texts)
    {
        var folder = typeof(EdtfTests).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "OutsideFolder").Value!;
        using var node = Process.Start(new ProcessStartInfo("node", Path.Combine(folder, "edtf.mjs")) { WorkingDirectory = folder, RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true })!;
        var (answer, errors) = (node.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), node.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
        await node.StandardInput.WriteAsync(JsonSerializer.Serialize(texts));
        node.StandardInput.Close();
        await node.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(node.ExitCode == 0, await errors);
        return JsonNode.Parse(await answer)!.AsArray();
    }
}
