using System.Text.Encodings.Web;
using HeirloomArchive.Sewing.Language;
using Microsoft.AspNetCore.Html;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Sentences with tags in them, in the reader's language: a link in mid-sentence stays where that language wants it.</summary>
/// <remarks>A link that some who see the page may not follow stays a tag of the page: only there <see cref="Access.Offered"/> takes it away.</remarks>
public static class Markup
{
    /// <summary>What the page's <c>lang</c> says: the language its sentences are in.</summary>
    public static string Language => Languages.Reader;

    /// <summary>A sentence with tags and no values.</summary>
    public static IHtmlContent H(string english) => new HtmlString(T(english));

    /// <summary>A sentence with tags: the words are written as they are, the values encoded.</summary>
    public static IHtmlContent H(Sentence english) => new HtmlString(T(english.Each(HtmlEncoder.Default.Encode)));

    /// <summary>A sentence with tags whose form hangs on a number.</summary>
    public static IHtmlContent HN(long number, Sentence one, Sentence other) => new HtmlString(N(number, one.Each(HtmlEncoder.Default.Encode), other.Each(HtmlEncoder.Default.Encode)));
}
