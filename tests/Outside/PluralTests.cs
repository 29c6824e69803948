using System.Diagnostics;
using System.Text.Json;
using HeirloomArchive.Sewing.Language;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Forms that hang on a number against Unicode CLDR's plural rules, as Node.js carries them (<c>Intl.PluralRules</c>, of ICU).</summary>
public class PluralTests
{
    private static readonly string[] Known = ["en", "de", "nl", "sv", "da", "nb", "it", "es", "fi", "hu", "fr", "pt", "pt-PT", "cs", "sk", "pl", "ru", "uk", "ja", "ko", "zh", "vi", "th", "id"];

    [Fact]
    public async Task A_number_takes_the_form_that_CLDR_says()
    {
        var theirs = await Ask();
        foreach (var language in Known)
        {
            var names = theirs[language];
            // CLDR's order, of those that whole numbers of the language take.
            string[] order = [.. ((string[])["one", "few", "many", "other"]).Where(names.Contains)];
            Assert.Equal(names, Enumerable.Range(0, names.Length).Select(n => order[Plurals.FormOf(n, language)]));
        }
    }

    private static async Task<Dictionary<string, string[]>> Ask()
    {
        var script = $"const said = {{}}; for (const l of {JsonSerializer.Serialize(Known)}) {{ if (!Intl.PluralRules.supportedLocalesOf(l).length) throw l; const r = new Intl.PluralRules(l); said[l] = [...Array(1200).keys()].map(n => r.select(n)) }} process.stdout.write(JSON.stringify(said))";
        using var node = Process.Start(new ProcessStartInfo("node", ["-e", script]) { RedirectStandardOutput = true })!;
        var said = await node.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await node.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, node.ExitCode);
        return JsonSerializer.Deserialize<Dictionary<string, string[]>>(said)!;
    }
}
