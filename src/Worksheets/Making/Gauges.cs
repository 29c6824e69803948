using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>
/// The gauges: one for each width and space of tucks with a fold, and one for the hem. A card notched with the depth and the
/// space is in The Workwoman's Guide (1838); the marks are counted from the card's end.
/// </summary>
internal static class Gauges
{
    public static JsonArray Of(Whole whole, WorksheetRequest request, Recorded recorded, Rounding rounding)
    {
        var groups = whole.AskedRuns.Where(p => !p.Run!.TwinNeedle)
            .SelectMany(p => p.Run!.Groups().Select(g => (Part: p, g.Group, g.Width, g.Space, p.Run.Correction))).ToList();
        JsonArray gauges = [];
        foreach (var alike in groups.Where(g => g.Space is not null).GroupBy(g => (g.Width, Space: g.Space!.Value, g.Correction)))
        {
            gauges.Add(Equal(alike.Key.Width, alike.Key.Space, alike.Key.Correction, [.. alike.Select(g => g.Group).Distinct()], rounding));
        }

        var single = groups.Where(g => g.Space is null).GroupBy(g => g.Width).OrderBy(g => g.Key).ToList();
        if (single.Count > 0)
        {
            gauges.Add(new JsonObject
            {
                ["title"] = T("For tucks that stand alone"),
                ["notches"] = new JsonArray([.. single.Select((g, i) => Notch(Letter(i), g.Key,
                    T($"{rounding.Text(g.Key)}: stitch this far from the fold ({Where(whole, [.. g.Select(x => (x.Part, x.Group))])})"), rounding))]),
            });
        }

        if (Hem(request, recorded, rounding) is { } hem)
        {
            gauges.Add(hem);
        }

        return gauges;
    }

    public static JsonArray Texts(Whole whole)
    {
        var never = T("Never iron on this sheet or lay damp cloth on it: the print comes off on white cloth. Never lay it on the antique.");
        if (whole.AllTwinNeedle || whole.Tucks.Count == 0)
        {
            return [never];
        }

        var rows = whole.AskedRuns.Where(p => !p.Run!.TwinNeedle).Any(p => p.Run!.Groups().Any(g => g.Space is not null));
        return
        [
            T("Paste the gauge on thin card before you cut the notches, and trim it at the thick line: that end is laid on the line you measure from."),
            !rows ? T("Sew one tuck, press it and check its width; check against the table every fifth tuck.")
                : whole.Runs.All(r => r.Correction is null)
                ? T("Sew two tucks, press them and check with C; if it does not come right, sew a test strip and make the worksheet again with it. Check against the table every fifth tuck.")
                : T("Sew two tucks, press them and check with C; of B and D keep the notch that comes right. Check against the table every fifth tuck."),
            never,
        ];
    }

    private static string Where(Whole whole, IReadOnlyList<(Part Part, int Group)> places) => whole.Sectioned
        ? T($"section {string.Join(", ", places.Select(p => p.Part.Number).Distinct())}")
        : T($"group {string.Join(", ", places.Select(p => p.Group))}");

    private static JsonObject Equal(Length width, Length space, Length? correction, IReadOnlyList<int> groups, Rounding rounding)
    {
        JsonArray notches =
        [
            Notch("A", width, T($"{rounding.Text(width)}: stitch this far from the fold"), rounding),
            Notch("B", (width * 2) + space, T($"{rounding.Text((width * 2) + space)}: the next crease, from the stitching just sewn and pressed"), rounding),
            Notch("C", width + space, T($"{rounding.Text(width + space)}: stitching to stitching when sewn, to check"), rounding),
        ];
        if (correction is { } c)
        {
            var crease = (width * 2) + space + c;
            notches.Add(Notch("D", crease, T($"{rounding.Text(crease)}: the next crease while the tucks are not pressed yet, or are still to shrink (your strip)"), rounding));
        }

        return new JsonObject
        {
            ["title"] = space == Length.Zero ? T($"Tucks {rounding.Text(width)} wide, meeting")
                : space < Length.Zero ? T($"Tucks {rounding.Text(width)} wide, overlapping by {rounding.Text(-space)}")
                : T($"Tucks {rounding.Text(width)} wide, {rounding.Text(space)} apart (plain cloth seen)"),
            ["width"] = rounding.Exact(width),
            ["space"] = rounding.Exact(space),
            ["groups"] = new JsonArray([.. groups.Select(g => JsonValue.Create(g))]),
            ["notches"] = notches,
        };
    }

    /// <summary>Depths to turn up: of a recorded hem among the chosen techniques, and what she allows at the bottom and the top.</summary>
    private static JsonObject? Hem(WorksheetRequest request, Recorded recorded, Rounding rounding)
    {
        List<(Length Depth, Func<string, string> Say)> depths =
        [
            .. recorded.Techniques.Where(t => Recorded.Word(t["kind"]) is "hem" or "false-hem" && t["depth"] is JsonObject)
                .Select(t => (Run.Read(t["depth"]), (Func<string, string>)(l => T($"{l}: the hem as recorded: lay the end on the finished edge, the hem's fold or stitching comes here")))),
            (request.Allow.Bottom, l => T($"{l}: your allowance at the bottom: fold this far from the cut edge")),
            (request.Allow.Top, l => T($"{l}: your allowance at the top: fold this far from the cut edge")),
        ];
        var given = depths.Where(d => d.Depth > Length.Zero).ToList();
        return given.Count == 0 ? null : new JsonObject
        {
            ["title"] = T("For hems and edges"),
            ["notches"] = new JsonArray([.. given.Select((d, i) => Notch(Letter(i), d.Depth, d.Say(rounding.Text(d.Depth)), rounding))]),
        };
    }

    private static JsonObject Notch(string letter, Length at, string text, Rounding rounding) =>
        new() { ["letter"] = letter, ["at"] = rounding.Exact(at), ["text"] = text };

    private static string Letter(int index) => index < 26 ? ((char)('A' + index)).ToString() : $"A{index - 25}";
}
