using Microsoft.AspNetCore.Html;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;
using Microsoft.AspNetCore.Routing.Template;

namespace HeirloomArchive.Web.Access;

/// <summary>
/// Offers on every page only what the one who looks at it may do: by the same table that refuses it. A link to what is not for
/// her is its words alone, a button or a form is left out.
/// </summary>
[HtmlTargetElement("a")]
[HtmlTargetElement("form")]
public sealed class Offered : TagHelper
{
    // The route with the most words of its own is meant first.
    private static readonly (TemplateMatcher Matches, string Route)[] Routes =
    [
        .. Matrix.Rows.Select(r => r.Route).Distinct().Where(r => !r.Contains("{**", StringComparison.Ordinal)).Select(r => (Template: TemplateParser.Parse(r), Route: r))
            .OrderByDescending(r => r.Template.Segments.Count(s => s.IsSimple && s.Parts[0].IsLiteral)).Select(r => (new TemplateMatcher(r.Template, []), r.Route)),
    ];

    [HtmlAttributeNotBound]
    [ViewContext]
    public ViewContext View { get; set; } = null!;

    /// <summary>After the framework's own, which fill in the addresses.</summary>
    public override int Order => int.MaxValue;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var http = View.HttpContext;
        if (http.Caller().Role == Role.Owner || IsFor(http, output))
        {
            return;
        }

        if (output.TagName == "form" || Text(output, "class").Contains("button", StringComparison.Ordinal))
        {
            output.SuppressOutput();
        }
        else
        {
            // What has a look of its own keeps it.
            output.TagName = Text(output, "class").Length > 0 ? "span" : null;
            output.Attributes.RemoveAll("href");
        }
    }

    private static bool IsFor(HttpContext http, TagHelperOutput output)
    {
        var posts = output.TagName == "form" && Text(output, "method").Equals("post", StringComparison.OrdinalIgnoreCase);
        var to = Text(output, output.TagName == "form" ? "action" : "href");
        if (to.Length == 0 && output.TagName == "form")
        {
            to = http.Request.Path + http.Request.QueryString;
        }

        if (to.Length == 0 || to[0] != '/')
        {
            return true;
        }

        var uri = new Uri(new Uri("http://archive"), to);
        var handler = Microsoft.AspNetCore.WebUtilities.QueryHelpers.ParseQuery(uri.Query).GetValueOrDefault("handler").ToString();
        var route = Routes.FirstOrDefault(r => r.Matches.TryMatch(uri.AbsolutePath, [])).Route;
        var row = route is null ? null : !posts ? Matrix.Find("GET", route) : Matrix.Find($"POST:{handler}", route) ?? Matrix.Find("POST", route);
        return row is null || http.Caller().May(row);
    }

    private static string Text(TagHelperOutput output, string name) => output.Attributes[name]?.Value switch
    {
        null => "",
        IHtmlContent html => System.Net.WebUtility.HtmlDecode(Written(html)),
        var value => System.Net.WebUtility.HtmlDecode(value.ToString() ?? ""),
    };

    private static string Written(IHtmlContent html)
    {
        using var writer = new StringWriter();
        html.WriteTo(writer, System.Text.Encodings.Web.HtmlEncoder.Default);
        return writer.ToString();
    }
}
