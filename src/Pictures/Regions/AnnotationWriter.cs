using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>Writes regions as Web Annotations.</summary>
public static class AnnotationWriter
{
    /// <summary>One annotation by itself.</summary>
    /// <param name="region">The region.</param>
    /// <param name="site">Where the archive is, as <c>http://127.0.0.1:5080</c>.</param>
    public static JsonObject Write(Region region, string site)
    {
        ArgumentNullException.ThrowIfNull(region);
        var annotation = new JsonObject { ["@context"] = Contexts() };
        foreach (var (name, value) in Bare(region, site))
        {
            annotation[name] = value?.DeepClone();
        }

        annotation["version"] = region.Version;
        if (region.Now.Measured is { } measured)
        {
            annotation["length"] = LengthJson.Write(measured.Length, measured.Text);
        }

        return annotation;
    }

    /// <summary>All regions of a picture or of a garment as one page of annotations.</summary>
    /// <param name="regions">In their order.</param>
    /// <param name="address">Of the page.</param>
    /// <param name="site">Where the archive is.</param>
    public static JsonObject Page(IReadOnlyList<Region> regions, string address, string site) => new()
    {
        ["@context"] = Contexts(),
        ["id"] = address,
        ["type"] = "AnnotationPage",
        ["partOf"] = new JsonObject { ["id"] = $"{address}#all", ["type"] = "AnnotationCollection", ["total"] = regions.Count },
        ["startIndex"] = 0,
        ["items"] = new JsonArray([.. regions.Select(r =>
        {
            var annotation = Write(r, site);
            annotation.Remove("@context");
            return annotation;
        })]),
    };

    /// <summary>The members of the standard alone, without a context: for a page within something else.</summary>
    public static JsonObject Bare(Region region, string site)
    {
        ArgumentNullException.ThrowIfNull(region);
        var annotation = new JsonObject
        {
            ["id"] = $"{site}/api/pictures/{region.Picture}/regions/{region.Id}",
            ["type"] = "Annotation",
            ["motivation"] = region.Now.Motivation,
            ["created"] = Vocabulary.Moment(region.Made),
            ["modified"] = Vocabulary.Moment(region.Now.When),
        };
        var bodies = region.Now.Shows.Select(s => Body(s, region, site)).ToList();
        if (bodies.Count > 0)
        {
            annotation["body"] = bodies.Count == 1 ? bodies[0] : new JsonArray([.. bodies]);
        }

        annotation["target"] = new JsonObject
        {
            ["type"] = "SpecificResource",
            ["source"] = Canvas(region.Garment, region.Picture, site),
            ["selector"] = Selector(region.Now.Shape),
        };
        return annotation;
    }

    /// <summary>The address of a picture's canvas.</summary>
    public static string Canvas(Guid garment, Guid picture, string site) => $"{site}/iiif/garments/{garment}/canvas/{picture}";

    /// <summary>Where a shape lies.</summary>
    public static JsonObject Selector(Shape shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        return shape.Kind == ShapeKind.Rectangle
            ? new() { ["type"] = "FragmentSelector", ["conformsTo"] = FragmentSelector.ConformsTo, ["value"] = FragmentSelector.Write(shape) }
            : new() { ["type"] = "SvgSelector", ["value"] = SvgSelector.Write(shape) };
    }

    private static JsonObject Body(ShownThing shown, Region region, string site)
    {
        if (shown.Kind == ShownKind.Text)
        {
            var text = new JsonObject { ["type"] = "TextualBody", ["value"] = shown.Value, ["format"] = "text/plain", ["purpose"] = shown.Purpose ?? "describing" };
            if (shown.Language is { } language)
            {
                text["language"] = new JsonArray(language);
            }

            return text;
        }

        var list = RegionFrame.ListOf(shown.Kind);
        return new()
        {
            ["type"] = "SpecificResource",
            ["source"] = list is null ? $"{site}/api/words/{shown.Value}" : $"{site}/api/garments/{region.Garment}/{list}/{shown.Value}",
            ["purpose"] = shown.Purpose ?? (list is null ? "classifying" : "identifying"),
        };
    }

    private static JsonArray Contexts() => [Vocabulary.Context, Vocabulary.OwnTerms()];
}
