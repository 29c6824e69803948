using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Support;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Every page in the made-up language, in which what is ready for translation stands between ‹ and › and is a third longer.</summary>
public sealed partial class LanguageTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    // Everything a person sees, or is told by a screen reader; not what lies in fields, what is marked as nobody's language, or said to be English.
    private const string Seen = """
        () => {
          const out = [document.title];
          const kept = e => e.closest('script, noscript, style, textarea, pre, code, [translate=no], main [lang=en]');
          const words = e => { const all = [], walk = document.createTreeWalker(e, NodeFilter.SHOW_TEXT); while (walk.nextNode()) all.push(walk.currentNode.nodeValue); return all.join(' '); };
          // A sentence with tags in it lies in several nodes: it is read as the whole block.
          const block = e => { while (['A', 'ABBR', 'B', 'EM', 'I', 'SPAN', 'STRONG', 'text', 'tspan'].includes(e.nodeName)) e = e.parentElement; return [...e.querySelectorAll('li, p, div, td, label, script, textarea, [lang=en]')].length ? null : words(e); };
          const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
          for (let n = walk.nextNode(); n; n = walk.nextNode()) {
            if (n.nodeType === 3) { if (n.nodeValue.trim() && !kept(n.parentElement)) out.push(block(n.parentElement) ?? n.nodeValue); continue; }
            if (kept(n)) continue;
            for (const a of ['aria-label', 'aria-description', 'alt', 'title', 'placeholder', 'label']) if (n.hasAttribute(a)) out.push(n.getAttribute(a));
          }
          return [...new Set(out.map(t => t.replace(/\s+/g, ' ').trim()).filter(t => t))];
        }
        """;

    // What stands on the pages besides sentences: names, units and forms of files; then the words one may look for, which are English, and titles of what was read.
    private static readonly string[] Theirs =
    [
        "Heirloom Archive", "JPEG", "PNG", "WebP", "PDF", "EDTF", "IIIF", "SKOS", "OpenAPI", "US Letter", "yd", "in", "mm", "cm", "Ne", "Nm", "tex", "dpi", .. DateTimeFormatInfo.InvariantInfo.MonthNames, .. DateTimeFormatInfo.InvariantInfo.AbbreviatedMonthNames,
    ];

    [Fact]
    public async Task Every_sentence_of_every_page_is_ready_for_translation_and_has_room()
    {
        var page = await chromium.Open(host.Address, width: 360, language: "qps-ploc");
        var known = new HashSet<string>();
        var left = new SortedDictionary<string, string>(StringComparer.Ordinal);
        var pages = await EveryPage.Of(host);
        var theirs = Theirs.Concat(Words.All.SelectMany(w => w.Synonyms)).Concat(Cautions.All.Select(c => c.Source ?? "")).Concat(await Chapters()).Concat(await Recorded(pages)).Where(t => Letters().IsMatch(t)).Distinct().OrderByDescending(t => t.Length)
            .Select(t => new Regex($@"(?<!\p{{L}}){Regex.Escape(t)}(?!\p{{L}})", RegexOptions.IgnoreCase)).ToList();
        foreach (var address in pages)
        {
            await page.SetViewportSizeAsync(360, 780);
            await page.GotoAsync(address);
            await page.Fits(360, 1440);
            foreach (var text in (await page.EvaluateAsync<string[]>(Seen)).Where(known.Add))
            {
                var open = Ready(text);
                if (Letters().IsMatch(open) && Letters().IsMatch(theirs.Aggregate(open, (t, own) => own.Replace(t, " ")))) left.TryAdd(text, address);
            }
        }

        Assert.True(left.Count == 0, string.Join("\n", left.Select(l => $"{l.Value}: {l.Key}")));
    }

    [Fact]
    public async Task What_a_program_gets_is_the_same_in_every_language()
    {
        foreach (var (path, body, status) in new (string, object, HttpStatusCode)[]
        {
            ("/api/garments", new { name = "", dated = "about 1900", overall = "good" }, HttpStatusCode.UnprocessableEntity),
            ("/api/plans/needle-for-thread", new { cloth = "light", system = "ne", written = "80/2", fibre = "cotton", needle = 70 }, HttpStatusCode.OK),
        })
        {
            var english = await Said("en");
            Assert.Contains(english.Split('"'), text => text.Count(c => c == ' ') > 3);
            Assert.Equal(english, await Said("qps-ploc"));

            async Task<string> Said(string language)
            {
                using var ask = new HttpRequestMessage(HttpMethod.Post, path) { Content = JsonContent.Create(body) };
                ask.Headers.Add("Accept-Language", language);
                using var answer = await host.Client.SendAsync(ask, TestContext.Current.CancellationToken);
                Assert.Equal(status, answer.StatusCode);
                var said = JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!.AsObject();
                said.Remove("traceId");
                return said.ToJsonString();
            }
        }
    }

    // The guide is translated chapter by chapter; one that is not yet is shown, and named, in English.
    private async Task<IEnumerable<string>> Chapters() => Chapter().Matches(await host.Client.GetStringAsync("/guide", TestContext.Current.CancellationToken)).Select(m => m.Groups["title"].Value);

    // Every text of the pieces, lessons and worksheets shown: names, notes, and what worksheets say, which keep the language they were made in.
    private async Task<IEnumerable<string>> Recorded(IReadOnlyList<string> pages)
    {
        var texts = new HashSet<string>();
        foreach (var one in pages.Select(p => Record().Match(p)).Where(m => m.Success).Select(m => $"/api/{m.Groups["kind"].Value.Replace("pieces", "garments", StringComparison.Ordinal)}/{m.Groups["id"].Value}").Distinct())
        {
            Collect(JsonNode.Parse(await host.Client.GetStringAsync(one, TestContext.Current.CancellationToken)));
        }

        return texts;

        void Collect(JsonNode? node)
        {
            if (node is JsonObject o) foreach (var (_, value) in o) Collect(value);
            else if (node is JsonArray a) foreach (var item in a) Collect(item);
            else if (node is JsonValue v && v.TryGetValue<string>(out var text)) texts.Add(Regex.Replace(text, @"\s+", " ").Trim());
        }
    }

    // Without what is ready, the innermost first.
    private static string Ready(string text)
    {
        for (var before = ""; before != text;)
        {
            before = text;
            text = Marked().Replace(text, " ");
        }

        return text;
    }

    [GeneratedRegex("^/(?<kind>pieces|lessons|worksheets)/(?<id>[0-9a-f-]{36})")]
    private static partial Regex Record();

    [GeneratedRegex("<a href=\"/guide/[^\"]*\"[^>]*>(?<title>[^<]+)<")]
    private static partial Regex Chapter();

    // What had to be cut short has no end.
    [GeneratedRegex("‹[^‹›]*[›…]")]
    private static partial Regex Marked();

    [GeneratedRegex(@"\p{L}{2}")]
    private static partial Regex Letters();
}
