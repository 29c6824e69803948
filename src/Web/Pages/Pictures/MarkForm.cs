using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>The form that marks a place, as it was typed: nothing of it is lost when it is refused.</summary>
public sealed class MarkForm
{
    /// <summary>The region that it changes; null for a new one.</summary>
    public Guid? Region { get; set; }

    /// <summary>The version that a save replaces.</summary>
    public long Version { get; set; }

    /// <summary>A place that is no rectangle, as SVG from drawing; empty when the numbers say it.</summary>
    public string? Drawn { get; set; }

    public string? X { get; set; }

    public string? Y { get; set; }

    public string? Width { get; set; }

    public string? Height { get; set; }

    /// <summary>Entries, as <c>technique:id</c>.</summary>
    public List<string> Shows { get; set; } = [];

    /// <summary>Words by their labels, with commas between them.</summary>
    public string? Word { get; set; }

    public string? Text { get; set; }

    /// <summary>Of a line: what it measures on the piece.</summary>
    public string? Length { get; set; }

    /// <summary>What is wrong with it.</summary>
    public IReadOnlyList<Fault> Faults { get; set; } = [];

    /// <summary>Whether the place is a line, the one shape that is measured.</summary>
    public bool IsLine => Numberless && Drawn!.Contains("<line", StringComparison.Ordinal);

    // Four numbers make it a rectangle, whatever was drawn before.
    private bool Numberless => !string.IsNullOrWhiteSpace(Drawn) && new[] { X, Y, Width, Height }.Any(string.IsNullOrWhiteSpace);

    /// <summary>The form over a region that is there.</summary>
    public static MarkForm Of(Region region)
    {
        ArgumentNullException.ThrowIfNull(region);
        var (shape, box) = (region.Now.Shape, region.Now.Shape.Bounds());
        var form = new MarkForm
        {
            Region = region.Id, Version = region.Version,
            Shows = [.. region.Now.Shows.Where(s => RegionFrame.ListOf(s.Kind) is not null).Select(s => s.Key)],
            Word = string.Join(", ", region.Now.Shows.Where(s => s.Kind == ShownKind.Word).Select(s => WordLabels.Of(s.Value))),
            Text = string.Join("\n\n", region.Now.Shows.Where(s => s.Kind == ShownKind.Text).Select(s => s.Value)),
            Length = region.Now.Measured?.Text,
        };
        if (shape.Kind == ShapeKind.Rectangle)
        {
            (form.X, form.Y, form.Width, form.Height) = (Number(box.X), Number(box.Y), Number(box.Width), Number(box.Height));
        }
        else
        {
            form.Drawn = SvgSelector.Write(shape);
        }

        return form;
    }

    /// <summary>The annotation that the form says.</summary>
    /// <exception cref="FaultException">A word that is none.</exception>
    public JsonObject Annotation(RegionFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        var numbers = new[] { X, Y, Width, Height }.Select(n => n?.Trim() ?? "").ToArray();
        var svg = Numberless;
        if (Array.Exists(numbers, n => n.Length == 0) && !svg)
        {
            throw new FaultException("x", T("Say where: draw it on the picture, or fill in all four numbers of a rectangle."));
        }

        var value = svg ? Drawn!.Trim() : $"xywh={string.Join(',', numbers)}";
        var body = new JsonArray([.. Shows.Select(s => s.Split(':')).Where(s => s.Length == 2).Select(s => Entry(s[0], s[1], frame))]);
        foreach (var word in (Word ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            body.Add((JsonNode)new JsonObject
            {
                ["type"] = "SpecificResource",
                ["source"] = WordLabels.Find(word) ?? throw new FaultException("word", T($"“{word}” is not among the words. Choose one of those offered, or write it as a note.")),
            });
        }

        if (!string.IsNullOrWhiteSpace(Text))
        {
            body.Add((JsonNode)new JsonObject { ["type"] = "TextualBody", ["value"] = Text.Trim(), ["format"] = "text/plain" });
        }

        var annotation = new JsonObject
        {
            ["type"] = "Annotation",
            ["target"] = new JsonObject { ["type"] = "SpecificResource", ["selector"] = new JsonObject { ["type"] = svg ? "SvgSelector" : "FragmentSelector", ["value"] = value } },
        };
        if (body.Count > 0)
        {
            annotation["body"] = body;
        }

        if (IsLine && !string.IsNullOrWhiteSpace(Length))
        {
            annotation["length"] = Length.Trim();
        }

        return annotation;
    }

    private static JsonObject Entry(string kind, string id, RegionFrame frame) => new()
    {
        ["type"] = "SpecificResource",
        ["source"] = $"/api/garments/{frame.Garment.Id}/{(kind == "technique" ? "techniques" : kind == "repair" ? "repairs" : "condition")}/{id}",
    };

    private static string Number(decimal number) => number.ToString("0", CultureInfo.InvariantCulture);
}
