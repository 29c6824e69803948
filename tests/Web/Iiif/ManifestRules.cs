using System.Text.Json.Nodes;
using HeirloomArchive.Web.Tests.Api;

namespace HeirloomArchive.Web.Tests.Iiif;

/// <summary>Rules of the IIIF Presentation API 3.0 (https://iiif.io/api/presentation/3.0/) that a manifest of ours can break, with their sections.</summary>
internal static class ManifestRules
{
    public static void Check(JsonObject manifest)
    {
        // 4.6: "The @context property … SHOULD appear as the very first key-value pair", its value the API's URI.
        Assert.Equal("@context", manifest.First().Key);
        Assert.Equal("http://iiif.io/api/presentation/3/context.json", manifest["@context"]!.ToString());
        Assert.Equal("Manifest", manifest["type"]!.ToString());
        // 5.2: "A Manifest MUST have … id (an HTTP(S) URI), label, items with at least one item".
        IsAddress(manifest["id"]);
        IsLanguageMap(manifest["label"]);
        if (manifest["summary"] is { } summary)
        {
            IsLanguageMap(summary);
        }

        foreach (var pair in manifest["metadata"]?.AsArray() ?? [])
        {
            // 3.1: metadata: "an array of JSON objects, each … label and value, language maps".
            IsLanguageMap(pair!["label"]);
            IsLanguageMap(pair["value"]);
        }

        foreach (var home in manifest["homepage"]!.AsArray())
        {
            // 3.3: homepage MUST have id, type, label; SHOULD have format; language an array.
            IsAddress(home!["id"]);
            Assert.False(string.IsNullOrEmpty(home["type"]!.ToString()));
            IsLanguageMap(home["label"]);
            Assert.IsType<JsonArray>(home["language"]);
        }

        // 3.1: rights MUST be a URI of a known licence: none is better than a wrong one.
        Assert.Null(manifest["rights"]);
        Assert.NotEmpty(manifest["items"]!.AsArray());
        var ids = new List<string>();
        foreach (var canvas in manifest["items"]!.AsArray())
        {
            Canvas(canvas!.AsObject(), ids);
        }

        // 3.2: "The id … MUST be unique".
        Assert.Equal(ids.Count, ids.Distinct().Count());
    }

    private static void Canvas(JsonObject canvas, List<string> ids)
    {
        Assert.Equal("Canvas", canvas["type"]!.ToString());
        IsAddress(canvas["id"]);
        // 5.3: the id of a canvas "MUST NOT contain a fragment identifier"; height and width "MUST be a positive integer".
        Assert.DoesNotContain('#', canvas["id"]!.ToString());
        Assert.True((int)canvas["width"]! > 0 && (int)canvas["height"]! > 0);
        IsLanguageMap(canvas["label"]);
        ids.Add(canvas["id"]!.ToString());
        foreach (var page in canvas["items"]!.AsArray())
        {
            // 5.4, 5.5: pages of annotations with the motivation painting, each targeting the canvas.
            Page(page!.AsObject(), ids);
            foreach (var annotation in page["items"]!.AsArray())
            {
                Assert.Equal("painting", annotation!["motivation"]!.ToString());
                Assert.Equal(canvas["id"]!.ToString(), annotation["target"]!.ToString());
                Image(annotation["body"]!.AsObject());
            }
        }

        foreach (var page in canvas["annotations"]?.AsArray() ?? [])
        {
            // 3.4: "annotations … MUST NOT have … the motivation painting".
            Page(page!.AsObject(), ids);
            foreach (var annotation in page["items"]!.AsArray())
            {
                Assert.NotEqual("painting", annotation!["motivation"]!.ToString());
                Assert.Equal(canvas["id"]!.ToString(), annotation["target"]!["source"]!.ToString());
                AnnotationRules.CheckBare(annotation.AsObject());
            }
        }

        foreach (var image in canvas["thumbnail"]!.AsArray())
        {
            Image(image!.AsObject());
        }
    }

    private static void Page(JsonObject page, List<string> ids)
    {
        Assert.Equal("AnnotationPage", page["type"]!.ToString());
        IsAddress(page["id"]);
        ids.Add(page["id"]!.ToString());
        ids.AddRange(page["items"]!.AsArray().Select(a => a!["id"]!.ToString()));
    }

    private static void Image(JsonObject image)
    {
        // 5.6: content resources MUST have id and type; images SHOULD have format, height, width; 3.2: service an array, each with id, type, profile.
        IsAddress(image["id"]);
        Assert.Equal(("Image", "image/jpeg"), (image["type"]!.ToString(), image["format"]!.ToString()));
        Assert.True((int)image["width"]! > 0 && (int)image["height"]! > 0);
        var service = Assert.Single(image["service"]!.AsArray())!;
        Assert.Equal(("ImageService3", "level2"), (service["type"]!.ToString(), service["profile"]!.ToString()));
        Assert.StartsWith(service["id"] + "/", image["id"]!.ToString(), StringComparison.Ordinal);
    }

    // 4.2: "a JSON object whose keys are language codes or none, and whose values are arrays of strings".
    private static void IsLanguageMap(JsonNode? node)
    {
        var map = node!.AsObject();
        Assert.NotEmpty(map);
        Assert.All(map, m => Assert.All(m.Value!.AsArray(), v => Assert.False(string.IsNullOrEmpty(v!.GetValue<string>()))));
    }

    private static void IsAddress(JsonNode? node) =>
        Assert.True(Uri.TryCreate(node!.ToString(), UriKind.Absolute, out var uri) && uri.Scheme is ("http" or "https"), $"{node} is no address");
}
