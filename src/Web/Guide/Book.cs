using System.Reflection;
using System.Text;
using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace HeirloomArchive.Web.Guide;

/// <summary>A chapter of the guide: its place in the address, its title, its first paragraph, and the rest as HTML.</summary>
public sealed record Chapter(string Slug, string Title, string About, string Html);

/// <summary>
/// The guide. It is written once, in <c>docs/guide</c>, and read there or in the program: links between chapters, to drawings and to screenshots
/// are those of the files, and are put in place here.
/// </summary>
public static class Book
{
    // In the order in which one comes to need them. A file that stands in no row is found by a test.
    private static readonly string[] Order =
        ["first-hour", "measuring-a-tuck", "hand-or-machine", "condition-words", "from-technique-to-piece", "teaching", "keeping-antique-cloth", "running-it", "for-programs"];

    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .DisableHtml().UsePipeTables().UseAutoIdentifiers(Markdig.Extensions.AutoIdentifiers.AutoIdentifierOptions.GitHub).Build();

    private static readonly Lazy<IReadOnlyList<Chapter>> Read = new(() => [.. Order.Select(slug => Of(slug, Text(slug + ".md")))]);

    /// <summary>All of them, in order.</summary>
    public static IReadOnlyList<Chapter> Chapters => Read.Value;

    /// <summary>A screenshot that the chapters show, as PNG; null if there is none of that name.</summary>
    public static Stream? Screenshot(string name) => typeof(Book).Assembly.GetManifestResourceStream($"guide/{name}.png");

    private static Chapter Of(string slug, string text)
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
        var html = document.ToHtml(Pipeline).Replace("<table>", """<div class="wide" tabindex="0" role="group" aria-label="Table"><table>""", StringComparison.Ordinal)
            .Replace("</table>", "</table></div>", StringComparison.Ordinal);
        return new(slug, heading, first, html);
    }

    /// <summary>Where a link of the files leads in the program.</summary>
    internal static string Address(string url) => url switch
    {
        _ when url.StartsWith("../../src/Web/wwwroot/", StringComparison.Ordinal) => "/" + url["../../src/Web/wwwroot/".Length..],
        _ when url.StartsWith("../screenshots/", StringComparison.Ordinal) => "/guide/" + url[3..],
        _ when url.EndsWith(".md", StringComparison.Ordinal) && !url.Contains('/') => "/guide/" + url[..^3],
        _ => url,
    };

    private static string Plain(LeafBlock block)
    {
        var text = new StringBuilder();
        foreach (var inline in block.Inline!.Descendants())
        {
            text.Append(inline switch { LiteralInline literal => literal.Content.ToString(), LineBreakInline => " ", CodeInline code => code.Content, _ => "" });
        }

        return text.ToString();
    }

    private static string Text(string name)
    {
        using var reader = new StreamReader(Assembly.GetExecutingAssembly().GetManifestResourceStream($"guide/{name}")
            ?? throw new FileNotFoundException($"The guide lacks its chapter {name}."));
        return reader.ReadToEnd();
    }
}
