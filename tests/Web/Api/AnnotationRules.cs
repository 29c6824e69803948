using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>
/// The rules of the published model that an annotation of ours can break: W3C, Web Annotation Data Model, Recommendation of
/// 23 February 2017 (https://www.w3.org/TR/2017/REC-annotation-model-20170223/), and its vocabulary. Each check names its clause.
/// </summary>
internal static partial class AnnotationRules
{
    private const string Context = "http://www.w3.org/ns/anno.jsonld";

    private static readonly string[] Motivations =
        ["assessing", "bookmarking", "classifying", "commenting", "describing", "editing", "highlighting", "identifying", "linking", "moderating", "questioning", "replying", "tagging"];

    /// <summary>One annotation by itself.</summary>
    public static void Check(JsonObject annotation)
    {
        // 3.1: "The Annotation MUST have 1 or more @context values and http://www.w3.org/ns/anno.jsonld MUST be one of them."
        HasContext(annotation);
        CheckBare(annotation);
    }

    /// <summary>An annotation within a page that has the context.</summary>
    public static void CheckBare(JsonObject annotation)
    {
        // 3.1: "An Annotation MUST have exactly 1 IRI that identifies it."
        IsIri(annotation["id"]);
        // 3.1: "An Annotation MUST have 1 or more types, and the Annotation class MUST be one of them."
        Assert.Contains(Several(annotation["type"]), t => t!.ToString() == "Annotation");
        // 3.1: "There MUST be 1 or more target relationships associated with an Annotation."; body: "SHOULD be 1 or more … but MAY be 0".
        Assert.NotEmpty(Several(annotation["target"]));
        Assert.All(Several(annotation["target"]), t => Resource(t!, isTarget: true));
        Assert.All(Several(annotation["body"]), b => Resource(b!, isTarget: false));
        // 3.3.5: "motivation: … SHOULD be 1 or more", of the vocabulary's instances (Vocabulary, 3.3).
        Assert.All(Several(annotation["motivation"]), m => Assert.Contains(m!.ToString(), Motivations));
        Assert.NotEmpty(Several(annotation["motivation"]));
        // 3.3.2: created and modified: at most one each, xsd:dateTime with the UTC timezone as "Z".
        foreach (var when in new[] { "created", "modified" })
        {
            Assert.Matches(UtcMoment(), annotation[when]!.ToString());
        }
    }

    /// <summary>A page of annotations.</summary>
    public static void CheckPage(JsonObject page)
    {
        HasContext(page);
        // 5.2: "Each page MUST have exactly 1 IRI", "MUST have … AnnotationPage", "MUST have … items … an array", "SHOULD have … partOf".
        IsIri(page["id"]);
        Assert.Equal("AnnotationPage", page["type"]!.ToString());
        IsIri(page["partOf"]!["id"]);
        // 5.1: "total … a non-negative integer"; 5.2: startIndex "a non-negative integer".
        Assert.Equal(page["items"]!.AsArray().Count, (int)page["partOf"]!["total"]!);
        Assert.True((int)page["startIndex"]! >= 0);
        foreach (var item in page["items"]!.AsArray())
        {
            CheckBare(item!.AsObject());
        }
    }

    private static void Resource(JsonNode node, bool isTarget)
    {
        var resource = node.AsObject();
        var type = resource["type"]!.ToString();
        if (type == "TextualBody")
        {
            // 3.2.4: "TextualBody … MUST have exactly 1 value"; a target is never one. format, language: at most 1 each.
            Assert.False(isTarget);
            Assert.False(string.IsNullOrEmpty(resource["value"]!.GetValue<string>()));
            Assert.Equal("text/plain", resource["format"]?.ToString());
        }
        else
        {
            // 4: "Specific Resource: There MUST be exactly 1 source relationship", an IRI.
            Assert.Equal("SpecificResource", type);
            IsIri(resource["source"]);
            Assert.Equal(isTarget, resource["selector"] is not null);
        }

        // 3.3.5: "purpose … of a TextualBody or SpecificResource", of the vocabulary.
        Assert.True(resource["purpose"] is null || Motivations.Contains(resource["purpose"]!.ToString()));
        if (resource["selector"] is JsonObject selector)
        {
            Selector(selector);
        }
    }

    private static void Selector(JsonObject selector)
    {
        var value = selector["value"]!.GetValue<string>();
        if (selector["type"]!.ToString() == "FragmentSelector")
        {
            // 4.2.1: "MUST have exactly 1 value", "SHOULD have … conformsTo"; Media Fragments 4.2.2: whole numbers.
            Assert.Equal("http://www.w3.org/TR/media-frags/", selector["conformsTo"]!.ToString());
            Assert.Matches(Xywh(), value);
        }
        else
        {
            // 4.2.7: "SvgSelector … value: the character sequence of the SVG content", well-formed, without style or script.
            Assert.Equal("SvgSelector", selector["type"]!.ToString());
            var drawn = System.Xml.Linq.XElement.Parse(value);
            Assert.Equal("{http://www.w3.org/2000/svg}svg", drawn.Name.ToString());
            Assert.Single(drawn.Descendants());
        }
    }

    private static void HasContext(JsonObject document) =>
        Assert.Contains(Several(document["@context"]), c => c is JsonValue && c.ToString() == Context);

    private static void IsIri(JsonNode? node) => Assert.True(Uri.TryCreate(node!.GetValue<string>(), UriKind.Absolute, out _), $"{node} is no IRI");

    private static List<JsonNode?> Several(JsonNode? node) => node switch { null => [], JsonArray list => [.. list], _ => [node] };

    [GeneratedRegex(@"^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?Z$")]
    private static partial Regex UtcMoment();

    [GeneratedRegex(@"^xywh=\d+,\d+,\d+,\d+$")]
    private static partial Regex Xywh();
}
