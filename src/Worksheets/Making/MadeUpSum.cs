using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>
/// What a measured piece says of its cloth. The piece is a test strip of all its tucks: what it lost beyond twice the widths,
/// shared among the tucks, is the correction of that cloth.
/// </summary>
/// <param name="Planned">The width planned.</param>
/// <param name="Measured">The width measured.</param>
/// <param name="Count">How many tucks.</param>
/// <param name="Strip">The piece as a strip, or null.</param>
/// <param name="Why">Why there is no strip, or null.</param>
internal sealed record MadeUpSum(Length Planned, Length Measured, int Count, TestStrip? Strip, string? Why)
{
    public Length Difference => Measured - Planned;

    /// <summary>The difference shared among the tucks, rounded towards 0 to the nanometre; null without tucks.</summary>
    public Length? PerTuck => Count > 0 ? Length.FromNanometres(Difference.Nanometres / Count) : null;

    /// <summary>What each tuck takes up beyond twice its width; null for twin-needle tucks and without a strip.</summary>
    public Length? Correction { get; private init; }

    public static MadeUpSum Of(JsonObject result, Length measured)
    {
        var whole = result["plan"] ?? result;
        var planned = Run.Read(whole["finished"]);
        var lines = (result["lines"] ?? result["plan"]?["lines"]).Each().ToList();
        if (lines.Count == 0)
        {
            return new(planned, measured, 0, null, T("There are no tucks in it, so it says nothing of what a tuck takes up."));
        }

        var twin = lines.Count(l => l["twinNeedle"].Yes());
        if (twin > 0 && twin < lines.Count)
        {
            return new(planned, measured, lines.Count, null, T("Tucks with a fold and twin-needle tucks are mixed in it: sew a strip of each."));
        }

        // Of several widths the commonest stands for the strip; its flat cloth is then as much as gives the same correction.
        var widths = lines.Select(l => Run.Read(l["width"])).ToList();
        var width = widths.GroupBy(w => w).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First().Key;
        var others = twin > 0 ? Length.Zero : widths.Aggregate(Length.Zero, (sum, w) => sum + ((width - w) * 2));
        var strip = new TestStrip(lines.Count, width, Available(result) + others, measured);
        var taken = strip.TakenUp;
        var stands = twin > 0 ? taken > Length.Zero && taken < width : taken > Length.Zero;
        return new(planned, measured, lines.Count, stands ? strip : null, stands ? null : T("What it measures does not fit its tucks: measure again, pressed flat and not stretched."))
        {
            Correction = stands && twin == 0 ? strip.Correction : null,
        };
    }

    /// <summary>The flat cloth, and with it what is let in: what the piece would measure without a tuck in it.</summary>
    public static Length Available(JsonObject result)
    {
        var letIn = result["sections"].Each().Where(s => s["insertion"] is JsonObject i && !i["laidOn"].Yes())
            .Aggregate(Length.Zero, (sum, s) => sum + Run.Read(s["insertion"]!["width"]));
        return Run.Read((result["plan"] ?? result)["cloth"]) + letIn;
    }

    public static int Tucks(JsonObject result) => (result["lines"] ?? result["plan"]?["lines"]).Each().Count();

    /// <summary>The outcome in a sentence or two.</summary>
    public string Text(LengthUnit unit)
    {
        var (planned, apart) = (Planned.ToText(unit), Length.FromNanometres(Math.Abs(Difference.Nanometres)).ToText(unit));
        var each = Count > 1 ? Length.FromNanometres(Math.Abs(Difference.Nanometres) / Count).ToText(unit) : null;
        var came = Difference == Length.Zero ? T($"It came out as planned, {planned}.")
            : (Difference > Length.Zero, each is null) switch
            {
                (true, true) => T($"It came out {apart} wider than the {planned} planned."),
                (true, false) => T($"It came out {apart} wider than the {planned} planned, {each} for each of {Count} tucks."),
                (false, true) => T($"It came out {apart} narrower than the {planned} planned."),
                (false, false) => T($"It came out {apart} narrower than the {planned} planned, {each} for each of {Count} tucks."),
            };
        return $"{came} {(Strip is null ? Why : T("As a strip of this cloth it can correct the next worksheet."))}";
    }
}
