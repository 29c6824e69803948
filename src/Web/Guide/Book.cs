using System.Collections.Concurrent;
using System.Net;
using System.Reflection;
using System.Text;
using HeirloomArchive.Web.Pages.Reading;
using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace HeirloomArchive.Web.Guide;

/// <summary>A chapter of the guide: its place in the address, its title, its first paragraph, and the rest as HTML.</summary>
public sealed record Chapter(string Slug, string Title, string About, string Html)
{
    /// <summary>The language it is written in.</summary>
    public string Language { get; init; } = Book.English;

    /// <summary>Its language where that is not the page's, as the page has to say then; else null.</summary>
    public string? Foreign => Language == Markup.Language ? null : Language;
}

/// <summary>
/// The guide. It is written once, in <c>docs/guide</c>, and read there or in the program: links between chapters, to drawings and to screenshots
/// are those of the files, and are put in place here. Another language has a folder of its own there, <c>de</c>, with chapters of the same
/// names; one that it lacks is shown in English.
/// </summary>
public static class Book
{
    // In the order in which one comes to need them. A file that stands in no row is found by a test.
    private static readonly string[] Order =
        ["first-hour", "measuring-a-tuck", "hand-or-machine", "condition-words", "from-technique-to-piece", "teaching", "keeping-antique-cloth", "running-it", "for-programs"];

    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .DisableHtml().UsePipeTables().UseAutoIdentifiers(Markdig.Extensions.AutoIdentifiers.AutoIdentifierOptions.GitHub).Build();

    /// <summary>The language of the files that stand in no folder.</summary>
    internal const string English = "en";

    // Where it is built on Windows the folders have the other stroke.
    private static readonly Dictionary<string, string> Files =
        Assembly.GetExecutingAssembly().GetManifestResourceNames().ToDictionary(name => name.Replace('\\', '/'));

    private static readonly ConcurrentDictionary<string, IReadOnlyList<Chapter>> Known = new();

    /// <summary>All of them, in order, each in the reader's language where it has it.</summary>
    public static IReadOnlyList<Chapter> Chapters => Known.GetOrAdd(Markup.Language, language => Read(language, Text));

    /// <summary>Reads the chapters of a language.</summary>
    /// <param name="language">As the folder is called.</param>
    /// <param name="text">What stands in a file, <c>first-hour.md</c> or <c>de/first-hour.md</c>; null where there is none.</param>
    internal static IReadOnlyList<Chapter> Read(string language, Func<string, string?> text) =>
    [
        .. Order.Select(slug => language != English && text($"{language}/{slug}.md") is { } translated ? Of(slug, translated, T("Table")) with { Language = language }
            : Of(slug, text(slug + ".md") ?? throw new FileNotFoundException($"The guide lacks its chapter {slug}."), "Table")),
    ];

    /// <summary>A screenshot that the chapters show, as PNG; null if there is none of that name.</summary>
    public static Stream? Screenshot(string name) => typeof(Book).Assembly.GetManifestResourceStream($"guide/{name}.png");

    private static Chapter Of(string slug, string text, string table)
    {
        var document = Markdown.Parse(text, Pipeline);
        var title = (HeadingBlock)document[0];
        var about = (ParagraphBlock)document[1];
        foreach (var link in document.Descendants<LinkInline>())
        {
            link.Url = Address(link.Url!);
        }

        var (heading, first) = (Plain(title), Plain(about));
        document.RemoveAt(1);
        document.RemoveAt(0);
        // In a small window a table scrolls within its own frame.
        var html = document.ToHtml(Pipeline).Replace("<table>", $"""<div class="wide" tabindex="0" role="group" aria-label="{WebUtility.HtmlEncode(table)}"><table>""", StringComparison.Ordinal)
            .Replace("</table>", "</table></div>", StringComparison.Ordinal);
        return new(slug, heading, first, html);
    }

    /// <summary>Where a link of the files leads in the program.</summary>
    internal static string Address(string url)
    {
        // A translated chapter lies a folder deeper.
        var path = url;
        while (path.StartsWith("../", StringComparison.Ordinal))
        {
            path = path[3..];
        }

        return path switch
        {
            _ when path.StartsWith("src/Web/wwwroot/", StringComparison.Ordinal) => path["src/Web/wwwroot".Length..],
            _ when path.StartsWith("screenshots/", StringComparison.Ordinal) => "/guide/" + path,
            _ when path.EndsWith(".md", StringComparison.Ordinal) && Order.Contains(path[..^3]) => "/guide/" + path[..^3],
            _ => url,
        };
    }

    private static string Plain(LeafBlock block)
    {
        var text = new StringBuilder();
        foreach (var inline in block.Inline!.Descendants())
        {
            text.Append(inline switch { LiteralInline literal => literal.Content.ToString(), LineBreakInline => " ", CodeInline code => code.Content, _ => "" });
        }

        return text.ToString();
    }

    private static string? Text(string name)
    {
        if (!Files.TryGetValue($"guide/{name}", out var file))
        {
            return null;
        }

        using var reader = new StreamReader(Assembly.GetExecutingAssembly().GetManifestResourceStream(file)!);
        return reader.ReadToEnd();
    }
}
