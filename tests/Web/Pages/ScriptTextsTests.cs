using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using HeirloomArchive.Sewing.Language;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Pages;

namespace HeirloomArchive.Web.Tests.Pages;

/// <summary>What the scripts say: all of it is listed, and the page brings it in the reader's language.</summary>
public sealed partial class ScriptTextsTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    private static IEnumerable<string> Scripts => new[] { "js", "viewer" }
        .SelectMany(folder => Directory.EnumerateFiles(Path.Combine(SourceFolder.Top, "src", "Web", "wwwroot", folder), "*.js"))
        .Where(file => !file.EndsWith(".min.js", StringComparison.Ordinal) && Path.GetFileName(file) != "texts.js");

    [Fact]
    public void What_the_scripts_say_is_what_the_list_has()
    {
        var said = Scripts.SelectMany(file => Said().Matches(File.ReadAllText(file))).Select(m => m.Groups[1].Value).ToHashSet();
        Assert.True(said.Count > 40, $"{said.Count} texts");
        Assert.Equal(said.Order(StringComparer.Ordinal), ScriptTexts.All.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void No_script_says_a_sentence_that_is_not_ready_for_translation() => Assert.All(Scripts, file =>
    {
        var rest = Said().Replace(Comment().Replace(File.ReadAllText(file), ""), "");
        Assert.Empty(Sentence().Matches(rest).Select(m => $"{Path.GetFileName(file)}: {m.Value}"));
    });

    [Fact]
    public async Task The_page_brings_the_texts_of_the_readers_language_and_none_for_English()
    {
        Assert.DoesNotContain("name=\"texts\"", await Page("en-GB"), StringComparison.Ordinal);
        var carried = Carried().Match(await Page(Languages.MadeUp)).Groups[1].Value;
        var texts = JsonSerializer.Deserialize<Dictionary<string, string>>(WebUtility.HtmlDecode(carried))!;
        Assert.Equal(ScriptTexts.All, texts.Keys);
        Assert.All(texts, text => Assert.All(text.Value.Split('|'), form => Assert.Matches("^‹.+›$", form)));
        Assert.Equal(2, texts["{0} corner.|{0} corners."].Split('|').Length);
        Assert.Contains("{0}", texts["Leave it out: {0}"], StringComparison.Ordinal);
    }

    private async Task<string> Page(string language)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("/guide", UriKind.Relative));
        request.Headers.AcceptLanguage.ParseAdd(language);
        using var answer = await host.Client.SendAsync(request, Ct);
        return await answer.Content.ReadAsStringAsync(Ct);
    }

    [GeneratedRegex(@"(?<![\w.$])(?:t\(|n\([\w.]+, )'((?:[^'\\]|\\.)*)'")]
    private static partial Regex Said();

    [GeneratedRegex(@"(?<=^|\s)//.*$|/\*.*?\*/", RegexOptions.Multiline)]
    private static partial Regex Comment();

    [GeneratedRegex(@"['`][A-Z“][a-z]+[^'`\n]* [a-z][^'`\n]*['`]")]
    private static partial Regex Sentence();

    [GeneratedRegex("<meta name=\"texts\" content=\"([^\"]*)\"")]
    private static partial Regex Carried();
}
