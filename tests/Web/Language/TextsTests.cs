using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing.Language;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Language;

/// <summary>The list a translator begins with has every text that the sources ask a translation for.</summary>
public sealed partial class TextsTests
{
    private static readonly string Src = Path.Combine(SourceFolder.Top, "src");
    private static readonly string List = Path.Combine(Src, "Sewing", "Language", "texts.xlf");

    [Fact]
    public void The_list_of_texts_is_whole()
    {
        var written = Written(All());
        if (Environment.GetEnvironmentVariable("HEIRLOOM_TEXTS") == "1")
        {
            File.WriteAllText(List, written);
        }

        var listed = Sources(File.ReadAllText(List));
        var all = Sources(written);
        Assert.True(listed.SetEquals(all), $"texts.xlf is behind: HEIRLOOM_TEXTS=1 writes it anew. Not in it: {string.Join(" / ", all.Except(listed).Take(5))}. No longer asked for: {string.Join(" / ", listed.Except(all).Take(5))}.");
    }

    [Fact]
    public void What_is_read_out_of_the_sources_is_what_they_ask_for()
    {
        const string page = """<p title="@T("One")">@T($"{Model.A} of {b["x"]} \"are\" kept")</p>@H($"See <a href='/guide/{name}'>it</a>.") @(Model.T("not this")) @N(n, $"{n} piece", $"{n} pieces") @T(x ? "either" : "or") @T($"a {{{b}}} brace")""";
        Assert.Equal(["One", "{0} of {1} \"are\" kept", "See <a href='/guide/{0}'>it</a>.", "{0} piece|{0} pieces", "either", "or", "a {{{0}}} brace"], TextsOfSources.OfPage(page));
    }

    /// <summary>Places have to be those that are filled: a brace too many would fail only where a translation is read.</summary>
    [Fact]
    public void Every_text_can_be_filled()
    {
        Assert.All(Sources(File.ReadAllText(List)), text => Assert.Equal(1, new Translation("xx", [KeyValuePair.Create(text, text)]).Count));
    }

    private static SortedSet<string> All()
    {
        var texts = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var room in Directory.GetDirectories(Src))
        {
            texts.UnionWith(TextsOfSources.OfRoom(Path.GetFileName(room), Files(room, "*.cs")));
            texts.UnionWith(Files(room, "*.cshtml").SelectMany(f => TextsOfSources.OfPage(File.ReadAllText(f))));
        }

        texts.UnionWith(Thesaurus.OfTrade.FacetNames.Select(Thesaurus.OfTrade.Title));
        texts.UnionWith(Thesaurus.OfTrade.All.SelectMany(w => (string[])[w.Label, w.Definition, w.Note ?? ""]));
        texts.UnionWith(TextsOfTables.All());
        texts.UnionWith(Cautions.All.SelectMany(c => (string[])[c.Text, c.Reason]));
        texts.UnionWith(AllSums.InOrder.SelectMany(s => (string[])[s.Title, s.Lead, .. s.Asks.SelectMany(Said)]));
        texts.RemoveWhere(t => Measure().IsMatch(t));
        return texts;
    }

    private static IEnumerable<string> Said(Ask ask) => [ask.Label, ask.Hint, .. ask.Choices.Select(c => c.Words), .. ask.Fields.SelectMany(Said)];

    private static IEnumerable<string> Files(string room, string kind) => Directory.EnumerateFiles(room, kind, SearchOption.AllDirectories)
        .Where(f => !f.Split(Path.DirectorySeparatorChar).Any(p => p is "obj" or "bin" or "node_modules"));

    // Nothing to translate: no word, or a unit at most.
    [GeneratedRegex(@"^\P{L}*(in|mm|cm|yd|%)?$")]
    private static partial Regex Measure();

    // One unit a line: what changes is seen in the history of the file.
    private static string Written(IEnumerable<string> texts)
    {
        var file = new StringBuilder("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<xliff xmlns=\"urn:oasis:names:tc:xliff:document:2.0\" version=\"2.0\" srcLang=\"en\">\n<file id=\"texts\">\n");
        foreach (var text in texts)
        {
            var id = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..12];
            file.Append(CultureInfo.InvariantCulture, $"<unit id=\"t{id}\"><segment>{new XElement("source", text).ToString(SaveOptions.DisableFormatting)}</segment></unit>\n");
        }

        return file.Append("</file>\n</xliff>\n").ToString();
    }

    private static HashSet<string> Sources(string list) => [.. XDocument.Parse(list, LoadOptions.PreserveWhitespace).Descendants(Translation.Xliff + "source").Select(s => s.Value)];
}
