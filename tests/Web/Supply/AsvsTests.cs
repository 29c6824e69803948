using System.Text.RegularExpressions;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Supply;

/// <summary>The table of docs/asvs.md: no requirement is left out, and every test that it names is there.</summary>
public sealed partial class AsvsTests
{
    /// <summary>How many requirements of levels 1 and 2 each section has, in OWASP ASVS 5.0.0 (its file of all requirements); they are numbered without a gap.</summary>
    private const string Sections = """
        1.1:2 1.2:9 1.3:11 1.4:3 1.5:2 2.1:3 2.2:3 2.3:4 2.4:1 3.2:2 3.3:4 3.4:6 3.5:5 3.7:2 4.1:3 4.2:1 4.3:2 4.4:4 5.1:1 5.2:3 5.3:2 5.4:3
        6.1:3 6.2:12 6.3:4 6.4:4 6.5:5 6.6:3 6.8:4 7.1:3 7.2:4 7.3:2 7.4:5 7.5:2 7.6:2 8.1:2 8.2:3 8.3:1 8.4:1 9.1:3 9.2:4
        10.1:2 10.2:2 10.3:4 10.4:11 10.5:5 10.6:2 10.7:3 11.1:2 11.2:3 11.3:3 11.4:4 11.5:1 11.6:1 12.1:3 12.2:2 12.3:4 13.1:1 13.2:5 13.3:2 13.4:5
        14.1:2 14.2:4 14.3:3 15.1:3 15.2:3 15.3:7 16.1:1 16.2:5 16.3:4 16.4:3 16.5:3 17.1:1 17.2:4 17.3:2
        """;

    private static readonly string Table = File.ReadAllText(Path.Combine(SourceFolder.Top, "docs", "asvs.md"));

    [Fact]
    public void Every_requirement_of_levels_1_and_2_stands_in_it_once()
    {
        var all = Sections.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries).Select(s => s.Trim().Split(':'))
            .SelectMany(s => Enumerable.Range(1, int.Parse(s[1], System.Globalization.CultureInfo.InvariantCulture)).Select(n => $"{s[0]}.{n}")).ToList();
        Assert.Equal(253, all.Count);
        var told = Row().Matches(Table).SelectMany(m => m.Groups[1].Value.Split(',', StringSplitOptions.TrimEntries)).ToList();
        Assert.Empty(all.Except(told));
        Assert.Empty(told.Except(all));
        Assert.Equal(told.Count, told.Distinct().Count());
    }

    [Fact]
    public void Every_test_that_it_names_is_there()
    {
        var sources = Components.Files("*Tests.cs").ToLookup(f => Path.GetFileNameWithoutExtension(f), File.ReadAllText);
        var named = Named().Matches(Table).Select(m => (Class: m.Groups[1].Value, Method: m.Groups[2].Value)).Distinct().ToList();
        Assert.True(named.Count > 60, $"only {named.Count} are named");
        var missing = named.Where(n => sources[n.Class].All(s => !s.Contains($" {n.Method}(", StringComparison.Ordinal))).ToList();
        Assert.Empty(missing);
    }

    [GeneratedRegex(@"^\| ([\d., ]+) \| [12]", RegexOptions.Multiline)]
    private static partial Regex Row();

    [GeneratedRegex(@"`(\w+Tests)\.(\w+)`")]
    private static partial Regex Named();
}
