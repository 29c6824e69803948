using System.Text.Json.Nodes;

namespace HeirloomArchive.Worksheets.Drawing;

/// <summary>A tuck of a stored result, in millimetres from the start of the whole.</summary>
internal sealed record DrawnTuck(int Tuck, bool TwinNeedle, double First, double Fold, double Second, double SewnStitch, double SewnSecond, double SewnFold)
{
    /// <summary>From start to end; none for a whole of insertions only.</summary>
    public static IReadOnlyList<DrawnTuck> All(JsonObject result) =>
        [.. (result["lines"] ?? result["plan"]?["lines"]).Each().Select(Read)];

    private static DrawnTuck Read(JsonObject line) => new(
        line["tuck"].Whole(), line["twinNeedle"].Yes(), line["firstStitch"].Mm(), line["fold"].Mm(), line["secondStitch"].Mm(),
        line["finishedStitch"].Mm(), (line["finishedSecondStitch"] ?? line["finishedStitch"]).Mm(), line["finishedFold"].Mm());
}

/// <summary>An insertion of a stored result, in millimetres from the start of the whole; let in, it has one line on the flat cloth.</summary>
internal sealed record DrawnInsertion(string Name, bool LaidOn, double From, double To, double SewnFrom, double SewnTo)
{
    /// <summary>From start to end.</summary>
    public static IReadOnlyList<DrawnInsertion> All(JsonObject result) =>
        [.. result["sections"].Each().Where(s => s["insertion"] is JsonObject).Select((s, i) => new DrawnInsertion(
            $"L{i + 1}", s["insertion"]!["laidOn"].Yes(), s["flatFrom"].Mm(), s["flatTo"].Mm(), s["finishedFrom"].Mm(), s["finishedTo"].Mm()))];
}
