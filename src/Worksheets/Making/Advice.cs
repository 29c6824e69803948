using System.ComponentModel;
using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>Marking, needle and thread, the strip to sew first: each with where it comes from.</summary>
internal static class Advice
{
    private static string Practice => T("common practice");

    /// <summary>A way of marking: its name for programs, what it is called, and what it suits.</summary>
    private sealed record Way(string Name, [Localizable(true)] string Text, [Localizable(true)] string Suits);

    private static readonly Way[] Ways =
    [
        new Way("ruler", "Ruler and table", "every run; for unequal tucks and several things side by side, with the folding rule printed at true size. Soft pencil dots at both ends of each line, away from where they would show"),
        new Way("gauge", "Notched gauge", "runs of equal tucks, sewn and pressed one after the other; a card notched with depth and space (The Workwoman's Guide, 1838)"),
        new Way("drawn-thread", "Drawn thread", "straight runs on linen and firm plain-woven cotton: one thread drawn shows the fold. It weakens sheer lawn: try a scrap first"),
        new Way("basting", "Basting", "soft and slippery cloth, and lines that must last while others are sewn; fine thread, in the line itself"),
        new Way("creasing", "Creasing", "pin tucks by hand on lawn and batiste: crease along the thread with a fingernail or a cool iron. It washes out"),
    ];

    public static JsonArray Marking(Whole run, string? chosen)
    {
        var way = chosen ?? (run.Parts is [{ Run: { IsEven: true, Tucks.Count: > 1 } }] ? "gauge" : "ruler");
        return new JsonArray([.. Ways.OrderBy(w => w.Name != way).Select(w => new JsonObject
        {
            ["way"] = w.Name,
            ["text"] = w.Name != way ? T(w.Text) : chosen is null ? T($"{T(w.Text)}: suggested for this run") : T($"{T(w.Text)}: your choice"),
            ["suits"] = T($"Suits {T(w.Suits)}."),
            ["chosen"] = w.Name == way,
        })]);
    }

    public static JsonArray Settings(Whole run, WorksheetRequest request, Recorded recorded)
    {
        JsonArray settings = [];
        var sewn = run.AllTwinNeedle ? "machine" : request.Sewn;
        if (request.Thread is { } thread)
        {
            Add(T($"Thread: {thread}."), T("your choice"));
        }

        if (request.Needle is { } needle)
        {
            Add(T($"Needle: {needle}."), T("your choice"));
        }

        if (sewn != "machine")
        {
            if (request.Thread is null || request.Needle is null)
            {
                Add(T("By hand: cotton 80 to 100 with a needle 9 to 11."), "M. S. Woolman, A Sewing Course for Teachers");
            }

            Add(T("By hand: small, even running stitches with a back-stitch now and then."), "The Workwoman's Guide (1838)");
        }

        if (sewn != "hand")
        {
            if (request.Thread is null)
            {
                Add(T("By machine: cotton 70 to 100, never coarser than 50."), "K. H. Watson, Textiles and Clothing (1907)");
            }

            if (request.Needle is null && !run.AllTwinNeedle)
            {
                Add(T("By machine: a fine sharp needle, 60 to 70 (American 8 to 10)."), Practice);
            }

            Add(T("By machine: straight stitch, 2 mm long (about 12 to the inch), light tension; stitch on the face of the tuck."), Practice);
        }

        if (run.AnyTwinNeedle)
        {
            Add(T("Twin needle: the needle, cord, foot and tension that the strip was sewn with; slowly, and never over a pin."), Practice);
        }

        if (recorded.Tucks?["evidence"] is JsonObject evidence)
        {
            if (evidence["stitchesPerInch"] is { } inch)
            {
                Add(T($"On the antique {inch.Text()} stitches to the inch are seen on the face."), T("the record"));
            }

            if (evidence["stitchesPerCm"] is { } centimetre)
            {
                Add(T($"On the antique {centimetre.Text()} stitches to the centimetre are seen on the face."), T("the record"));
            }
        }

        return settings;

        void Add(string text, string source) => settings.Add(new JsonObject { ["text"] = text, ["source"] = T($"From: {source}.") });
    }

    /// <summary>The strip to sew first, or that she has sewn; null where there are no tucks.</summary>
    public static JsonObject? Strip(Whole run, Rounding rounding)
    {
        if (run.Tucks.Count == 0)
        {
            return null;
        }

        // Where some are sewn by a strip already, the strip to sew is of the others.
        var without = run.Runs.Where(r => r.Strip is null).SelectMany(r => r.Tucks).ToList();
        var tucks = without.Count > 0 ? without : run.Tucks;
        var width = tucks.GroupBy(t => t.Width).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First().Key;
        var count = Math.Clamp(tucks.Count, 4, 10);
        var planned = width * (2L * count);
        JsonArray texts = without.Count == 0
            ?
            [
                .. run.AskedRuns.Select(p => Reckoned(run, p, rounding)).Distinct().Select(t => JsonValue.Create(t)),
                T("It holds for this cloth, grain, thread and needle only; with another, sew a new strip and make the worksheet again."),
            ]
            :
            [
                T($"Before you cut: on a scrap of the same cloth sew {count} tucks {rounding.Text(width)} wide, on the same grain, with the same thread and needle."),
                T($"Measure the scrap flat before, and finished after pressing or washing as the piece will be. By the plan it loses {rounding.Text(planned)}; cloth has thickness, so it may lose more or less."),
                T("Write down what you measure in the box, enter it, and take the corrected worksheet: every position then allows for it."),
            ];
        return new JsonObject
        {
            ["tucks"] = count, ["width"] = rounding.Exact(width), ["planned"] = rounding.Exact(planned),
            ["sewn"] = without.Count == 0, ["text"] = texts,
        };
    }

    private static string Reckoned(Whole run, Part part, Rounding rounding)
    {
        var several = run.Sectioned && run.AskedRuns.Select(p => p.Run!.Strip).Distinct().Count() > 1;
        if (part.Run!.TwinNeedle)
        {
            var takes = rounding.Text(part.Run.TakenByOne);
            return several ? T($"In section {part.Number} your strip is reckoned in: each twin-needle tuck takes up {takes}.")
                : T($"Your strip is reckoned in: each twin-needle tuck takes up {takes}.");
        }

        var beside = rounding.Text(part.Run.Correction!.Value);
        return several ? T($"In section {part.Number} your strip is reckoned in: each tuck takes up {beside} beside twice its width (a minus means less).")
            : T($"Your strip is reckoned in: each tuck takes up {beside} beside twice its width (a minus means less).");
    }

    /// <summary><c>hand</c>, <c>machine</c>, or null where the record says both or does not know.</summary>
    internal static string? AsRecorded(string? sewn) => sewn switch
    {
        "hand" => "hand",
        "machine" or "machine-lockstitch" or "machine-chainstitch" or "machine-double-chainstitch" => "machine",
        _ => null,
    };
}
