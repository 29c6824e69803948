using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Guide;

namespace HeirloomArchive.Web.Tests;

/// <summary>The guide: every chapter is there, every link and picture leads somewhere, every example for programs runs.</summary>
public sealed partial class GuideTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static readonly string Docs = Path.Combine(SourceFolder.Top, "docs", "guide");

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public void Every_file_of_the_guide_is_a_chapter()
    {
        var files = Directory.EnumerateFiles(Docs, "*.md").Select(f => Path.GetFileNameWithoutExtension(f)!).Order();
        Assert.Equal(files, Book.Chapters.Select(c => c.Slug).Order());
        Assert.All(Book.Chapters, c => Assert.True(c.Title.Length > 3 && c.About.Length > 40, c.Slug));
    }

    [Fact]
    public async Task Every_link_and_picture_of_the_guide_leads_somewhere_in_the_program_and_in_the_files()
    {
        foreach (var chapter in Book.Chapters)
        {
            var page = await host.Client.GetStringAsync(new Uri($"/guide/{chapter.Slug}", UriKind.Relative), Ct);
            Assert.Contains($"<h1>{chapter.Title}</h1>", page, StringComparison.Ordinal);
            foreach (var address in Shown().Matches(chapter.Html).Select(m => m.Groups[1].Value).Distinct())
            {
                using var answer = await host.Client.GetAsync(new Uri(address, UriKind.Relative), Ct);
                Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{chapter.Slug}: {address} answers {answer.StatusCode}");
            }

            foreach (var file in InFile().Matches(await File.ReadAllTextAsync(Path.Combine(Docs, chapter.Slug + ".md"), Ct)).Select(m => m.Groups[1].Value))
            {
                Assert.True(file.StartsWith('/') || File.Exists(Path.Combine(Docs, file)), $"{chapter.Slug}: {file}");
            }
        }
    }

    [Fact]
    public async Task The_chapter_on_keeping_ends_with_every_caution_and_its_source()
    {
        var page = WebUtility.HtmlDecode(await host.Client.GetStringAsync(new Uri("/guide/keeping-antique-cloth", UriKind.Relative), Ct));
        Assert.All(Cautions.All, c => Assert.Contains(c.Text, page, StringComparison.Ordinal));
        Assert.All(Cautions.All.Where(c => c.Source is not null), c => Assert.Contains(c.Source!, page, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Every_example_for_programs_runs()
    {
        var examples = Example().Matches((await File.ReadAllTextAsync(Path.Combine(Docs, "for-programs.md"), Ct)).ReplaceLineEndings("\n"));
        Assert.True(examples.Count >= 7, $"{examples.Count} examples");
        foreach (Match example in examples)
        {
            var parts = example.Groups[1].Value.Trim().Split("\n\n", 2);
            var line = parts[0].Split('\n')[0].Split(' ', 2);
            using var request = new HttpRequestMessage(new HttpMethod(line[0]), new Uri(line[1], UriKind.Relative));
            if (parts.Length == 2)
            {
                request.Content = new StringContent(parts[1], Encoding.UTF8, "application/json");
            }

            using var answer = await host.Client.SendAsync(request, Ct);
            var isWrong = parts[^1].Contains("sometime", StringComparison.Ordinal);
            Assert.True(isWrong ? answer.StatusCode == HttpStatusCode.UnprocessableContent : answer.IsSuccessStatusCode, $"{parts[0]}: {answer.StatusCode} {await answer.Content.ReadAsStringAsync(Ct)}");
        }
    }

    [Fact]
    public void Another_language_has_a_folder_of_its_own_and_what_it_lacks_is_English()
    {
        using var folder = new TemporaryFolder();
        foreach (var file in Directory.EnumerateFiles(Docs, "*.md"))
        {
            File.Copy(file, Path.Combine(folder.Path, Path.GetFileName(file)));
        }

        var chapters = Book.Read("de", Text);
        Assert.All(chapters, c => Assert.Equal("en", c.Language));

        Directory.CreateDirectory(Path.Combine(folder.Path, "de"));
        File.WriteAllText(Path.Combine(folder.Path, "de", "first-hour.md"),
            "# Die erste Stunde\n\nAm Tisch.\n\n[Messen](measuring-a-tuck.md), [Lehren](../teaching.md) ![Bild](../../screenshots/piece.png) ![Falte](../../../src/Web/wwwroot/drawings/mark.svg)\n");
        chapters = Book.Read("de", Text);
        var first = chapters[0];
        Assert.Equal(("first-hour", "Die erste Stunde", "Am Tisch.", "de"), (first.Slug, first.Title, first.About, first.Language));
        Assert.Equal(["/guide/measuring-a-tuck", "/guide/teaching", "/guide/screenshots/piece.png", "/drawings/mark.svg"], Shown().Matches(first.Html).Select(m => m.Groups[1].Value));
        Assert.All(chapters.Skip(1), c => Assert.Equal("en", c.Language));
        Assert.Equal(Book.Chapters.Skip(1).Select(c => c.Html), chapters.Skip(1).Select(c => c.Html));

        string? Text(string name) => Path.Combine(folder.Path, name) is var file && File.Exists(file) ? File.ReadAllText(file) : null;
    }

    [Fact]
    public async Task A_chapter_that_is_not_in_the_readers_language_says_that_it_is_English()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("/guide/first-hour", UriKind.Relative));
        request.Headers.AcceptLanguage.ParseAdd(HeirloomArchive.Sewing.Language.Languages.MadeUp);
        using var answer = await host.Client.SendAsync(request, Ct);
        var page = await answer.Content.ReadAsStringAsync(Ct);
        Assert.Contains($"<h1 lang=\"en\">{Book.Chapters[0].Title}</h1>", page, StringComparison.Ordinal);
        Assert.Contains("<div lang=\"en\">", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_no_chapter_is_not_found()
    {
        foreach (var address in new[] { "/guide/nothing", "/guide/screenshots/nothing.png", "/guide/..%2Fsecret" })
        {
            using var answer = await host.Client.GetAsync(new Uri(address, UriKind.Relative), Ct);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }
    }

    [GeneratedRegex("(?:href|src)=\"(/[^\"#]+)")]
    private static partial Regex Shown();

    [GeneratedRegex(@"\]\(([^)#]+)")]
    private static partial Regex InFile();

    [GeneratedRegex("```http\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Example();
}
