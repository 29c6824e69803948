using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>What a worksheet's form asks, in the shape of <c>POST /api/worksheets</c>, and how it starts from a recorded run.</summary>
public static class WorksheetForm
{
    private static readonly MeasureType Above = new(Sign.AboveZero);
    private static readonly MeasureType Plain = new(Sign.ZeroOrMore);
    private static readonly NumberType Tucks = new(1, 1_000, whole: true);
    private static readonly TextType Line = new(200, lines: false);
    private static readonly string[] Finest = ["1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.25 mm"];

    /// <summary>A strip she has sewn.</summary>
    public static RecordType Strip { get; } = new([new("tucks", Tucks), new("width", Above), new("sewnWidth", Above), new("flat", Above), new("finished", Above)]);

    /// <summary>The tucks to fit onto a width.</summary>
    public static RecordType Onto { get; } = new(
    [
        new("finished", Above), new("cloth", Above), new("tucks", From(Tucks)), new("width", From(Above)), new("space", From(Plain)), new("ends", From(Plain)),
        new("finest", new ChoiceType(Finest)), new("unevenEnds", new FlagType()),
        new("lies", Lies), new("centre", Plain), new("testStrip", Strip),
    ]);

    /// <summary>A run given in full, as <c>POST /api/plans/tucks</c> takes it.</summary>
    public static RecordType Plan { get; } = new(
    [
        .. GarmentShape.Technique.FieldsOf("tucks").Where(f => f.Name is "groups" or "between" or "centre" or "lead" or "trail"),
        new("lies", Lies), new("twinNeedle", new FlagType()), new("testStrip", Strip),
    ]);

    /// <summary>The cloth, and what is added around the run.</summary>
    public static RecordType Cloth { get; } = new(
        [new("word", new WordType("cloth")), new("width", Above), new("foldsAlong", new ChoiceType("warp", "weft")), new("shrunk", new FlagType())]);

    public static RecordType Allow { get; } = new([new("start", Plain), new("end", Plain), new("top", Plain), new("bottom", Plain), new("shaping", Plain)]);

    /// <summary>An edge to be trimmed, after a recorded lace or not.</summary>
    public static RecordType Trim { get; } = new(
        [new("technique", new IdType("techniques")), new("edge", Above), new("width", Above), new("fullness", new NumberType(1, 10, whole: false)), new("corners", new NumberType(0, 1_000, whole: true))]);

    /// <summary>The whole request.</summary>
    public static RecordType Request { get; } = new(
    [
        new("garment", Line), new("technique", Line), new("title", Line), new("onto", Onto), new("plan", Plan),
        new("paper", new ChoiceType("A4", "letter")), new("landscape", new FlagType()), new("unit", new ChoiceType("in16", "in32", "mm")),
        new("cloth", Cloth), new("allow", Allow), new("sewn", new ChoiceType("hand", "machine")),
        new("marking", new ChoiceType("ruler", "gauge", "drawn-thread", "basting", "creasing")),
        new("trims", new ListType(Trim, 20)),
        new("thread", Line), new("needle", Line), new("alike", Tucks), new("notes", new TextType(4_000, lines: true)),
    ]);

    private static ChoiceType Lies => new("towards-end", "towards-start", "from-centre", "towards-centre");

    /// <summary>How the form starts: the recorded run's own measures, with room around them.</summary>
    public static JsonObject Start(JsonObject? technique)
    {
        var group = (technique?["groups"] as JsonArray)?.OfType<JsonObject>().FirstOrDefault();
        var width = MeasureType.Of(group?["width"]) ?? Length.FromSixtyFourthsOfInch(8);
        var typed = Say.Length(group?["width"]);
        var metric = typed.Contains("mm", StringComparison.Ordinal) || typed.Contains("cm", StringComparison.Ordinal);
        var unit = metric ? LengthUnit.Millimetres : LengthUnit.Inches;
        var finest = Finest.Where(f => f.EndsWith(metric ? "mm" : "in", StringComparison.Ordinal)).FirstOrDefault(f => width.Nanometres % Of(f).Nanometres == 0)
            ?? (metric ? "0.25 mm" : "1/64 in");
        var space = Space(group, width);
        var half = technique?["lies"]?.ToString() is "from-centre" or "towards-centre";
        var tucks = (group?["tucks"] is JsonValue n ? (int)n.GetValue<decimal>() : 8) * (half ? 2 : 1);
        var start = new JsonObject
        {
            ["tucks"] = Range($"{Math.Max(1, tucks / 2)}", $"{Math.Min(1_000, tucks * 2)}"),
            ["width"] = Range(width.ToText(unit), width.ToText(unit)),
            ["space"] = Range(Round(space, 1, 2, finest).ToText(unit), Round(space, 2, 1, finest).ToText(unit)),
            ["ends"] = Range(metric ? "10 mm" : "1/2 in", metric ? "75 mm" : "3 in"),
            ["finest"] = finest,
        };
        if (TuckDrawing.PlanOf(technique ?? []) is { } plan)
        {
            start["finished"] = plan.Finished.ToText(unit).Replace("≈ ", "", StringComparison.Ordinal);
        }

        if (technique?["lies"]?.ToString() is { Length: > 0 } lies)
        {
            start["lies"] = lies;
        }

        return start;
    }

    private static Length Space(JsonObject? group, Length width) =>
        MeasureType.Of(group?["space"])
        ?? MeasureType.Of(group?["stitchToStitch"]) - width
        ?? MeasureType.Of(group?["foldToFold"]) - (width * 3)
        ?? width;

    // To whole markings, and never nothing: the range must hold the recorded space itself.
    private static Length Round(Length space, int times, int part, string finest)
    {
        var step = Of(finest).Nanometres;
        return Length.FromNanometres(Math.Max(0, space.Nanometres * times / part / step * step));
    }

    private static Length Of(string text) => Length.TryParse(text, out var length, out _) ? length : Length.Zero;

    private static RecordType From(FieldType type) => new([new("from", type), new("to", type)]);

    private static JsonObject Range(string from, string to) => new() { ["from"] = from, ["to"] = to };
}
