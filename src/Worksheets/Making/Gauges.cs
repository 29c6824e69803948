using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>
/// The gauges of a run, one for each width and space. A card notched with the depth and the space is in The Workwoman's Guide
/// (1838); the marks are counted from the card's end.
/// </summary>
internal static class Gauges
{
    public static JsonArray Of(Run run, Rounding rounding)
    {
        JsonArray gauges = [];
        foreach (var alike in run.Groups().Where(g => g.Space is not null).GroupBy(g => (g.Width, Space: g.Space!.Value)))
        {
            gauges.Add(Equal(alike.Key.Width, alike.Key.Space, run.Correction, [.. alike.Select(g => g.Group)], rounding));
        }

        var single = run.Groups().Where(g => g.Space is null).GroupBy(g => g.Width).OrderBy(g => g.Key).ToList();
        if (single.Count > 0)
        {
            gauges.Add(new JsonObject
            {
                ["title"] = "For tucks that stand alone",
                ["notches"] = new JsonArray([.. single.Select((g, i) => Notch(Letter(i), g.Key,
                    $"{rounding.Text(g.Key)}: stitch this far from the fold (group {string.Join(", ", g.Select(x => x.Group))})", rounding))]),
            });
        }

        return gauges;
    }

    public static JsonArray Texts(Run run) =>
    [
        "Paste the gauge on thin card before you cut the notches, and trim it at the thick line: that end is laid on the line you measure from.",
        !run.Groups().Any(g => g.Space is not null) ? "Sew one tuck, press it and check its width; check against the table every fifth tuck."
            : run.Correction is null
            ? "Sew two tucks, press them and check with C; if it does not come right, sew a test strip and make the worksheet again with it. Check against the table every fifth tuck."
            : "Sew two tucks, press them and check with C; of B and D keep the notch that comes right. Check against the table every fifth tuck.",
        "Never iron on this sheet or lay damp cloth on it: the print comes off on white cloth. Never lay it on the antique.",
    ];

    private static JsonObject Equal(Length width, Length space, Length? correction, IReadOnlyList<int> groups, Rounding rounding)
    {
        JsonArray notches =
        [
            Notch("A", width, $"{rounding.Text(width)}: stitch this far from the fold", rounding),
            Notch("B", (width * 2) + space, $"{rounding.Text((width * 2) + space)}: the next crease, from the stitching just sewn and pressed", rounding),
            Notch("C", width + space, $"{rounding.Text(width + space)}: stitching to stitching when sewn, to check", rounding),
        ];
        if (correction is { } c)
        {
            var crease = (width * 2) + space + c;
            notches.Add(Notch("D", crease, $"{rounding.Text(crease)}: the next crease while the tucks are not pressed yet, or are still to shrink (your strip)", rounding));
        }

        return new JsonObject
        {
            ["title"] = $"Tucks {rounding.Text(width)} wide, " + (space == Length.Zero ? "meeting"
                : space < Length.Zero ? $"overlapping by {rounding.Text(-space)}" : $"{rounding.Text(space)} apart (plain cloth seen)"),
            ["width"] = rounding.Exact(width),
            ["space"] = rounding.Exact(space),
            ["groups"] = new JsonArray([.. groups.Select(g => JsonValue.Create(g))]),
            ["notches"] = notches,
        };
    }

    private static JsonObject Notch(string letter, Length at, string text, Rounding rounding) =>
        new() { ["letter"] = letter, ["at"] = rounding.Exact(at), ["text"] = text };

    private static string Letter(int index) => index < 26 ? ((char)('A' + index)).ToString() : $"A{index - 25}";
}
