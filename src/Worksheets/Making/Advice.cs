using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>Marking, needle and thread, the strip to sew first: each with where it comes from.</summary>
internal static class Advice
{
    private const string Practice = "common practice";

    private static readonly (string Way, string Text, string Suits)[] Ways =
    [
        ("ruler", "Ruler and table", "every run; for unequal tucks and several things side by side, with the folding rule printed at true size. Soft pencil dots at both ends of each line, away from where they would show"),
        ("gauge", "Notched gauge", "runs of equal tucks, sewn and pressed one after the other; a card notched with depth and space (The Workwoman's Guide, 1838)"),
        ("drawn-thread", "Drawn thread", "straight runs on linen and firm plain-woven cotton: one thread drawn shows the fold. It weakens sheer lawn: try a scrap first"),
        ("basting", "Basting", "soft and slippery cloth, and lines that must last while others are sewn; fine thread, in the line itself"),
        ("creasing", "Creasing", "pin tucks by hand on lawn and batiste: crease along the thread with a fingernail or a cool iron. It washes out"),
    ];

    public static JsonArray Marking(Whole run, string? chosen)
    {
        var way = chosen ?? (run.Parts is [{ Run: { IsEven: true, Tucks.Count: > 1 } }] ? "gauge" : "ruler");
        return new JsonArray([.. Ways.OrderBy(w => w.Way != way).Select(w => new JsonObject
        {
            ["way"] = w.Way,
            ["text"] = w.Text + (w.Way == way ? chosen is null ? ": suggested for this run" : ": your choice" : ""),
            ["suits"] = "Suits " + w.Suits + ".",
            ["chosen"] = w.Way == way,
        })]);
    }

    public static JsonArray Settings(Whole run, WorksheetRequest request, Recorded recorded)
    {
        JsonArray settings = [];
        var sewn = run.AllTwinNeedle ? "machine" : request.Sewn ?? AsRecorded(recorded.Tucks?["sewn"].Text());
        if (request.Thread is { } thread)
        {
            Add($"Thread: {thread}.", "your choice");
        }

        if (request.Needle is { } needle)
        {
            Add($"Needle: {needle}.", "your choice");
        }

        if (sewn != "machine")
        {
            if (request.Thread is null || request.Needle is null)
            {
                Add("By hand: cotton 80 to 100 with a needle 9 to 11.", "M. S. Woolman, A Sewing Course for Teachers");
            }

            Add("By hand: small, even running stitches with a back-stitch now and then.", "The Workwoman's Guide (1838)");
        }

        if (sewn != "hand")
        {
            if (request.Thread is null)
            {
                Add("By machine: cotton 70 to 100, never coarser than 50.", "K. H. Watson, Textiles and Clothing (1907)");
            }

            if (run.AnyTwinNeedle)
            {
                Add("Twin needle: the needle, cord, foot and tension that the strip was sewn with; slowly, and never over a pin.", Practice);
            }

            if (request.Needle is null && !run.AllTwinNeedle)
            {
                Add("By machine: a fine sharp needle, 60 to 70 (American 8 to 10).", Practice);
            }

            Add("By machine: straight stitch, 2 mm long (about 12 to the inch), light tension; stitch on the face of the tuck.", Practice);
        }

        if (recorded.Tucks?["evidence"] is JsonObject evidence)
        {
            foreach (var (name, unit) in ((string, string)[])[("stitchesPerInch", "to the inch"), ("stitchesPerCm", "to the centimetre")])
            {
                if (evidence[name] is { } count)
                {
                    Add($"On the antique {count.Text()} stitches {unit} are seen on the face.", "the record");
                }
            }
        }

        return settings;

        void Add(string text, string source) => settings.Add(new JsonObject { ["text"] = text, ["source"] = "From: " + source + "." });
    }

    /// <summary>The strip to sew first, or that she has sewn; null where there are no tucks.</summary>
    public static JsonObject? Strip(Whole run, Rounding rounding)
    {
        if (run.Tucks.Count == 0)
        {
            return null;
        }

        var widest = run.Tucks.GroupBy(t => t.Width).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First().Key;
        var count = Math.Min(10, Math.Max(4, run.Tucks.Count));
        var planned = widest * (2L * count);
        JsonArray texts = run.Runs.All(r => r.Strip is not null)
            ?
            [
                .. run.AskedRuns.Select(p => Reckoned(run, p, rounding)).Distinct().Select(t => JsonValue.Create(t)),
                "It holds for this cloth, grain, thread and needle only; with another, sew a new strip and make the worksheet again.",
            ]
            :
            [
                $"Before you cut: on a scrap of the same cloth sew {count} tucks {rounding.Text(widest)} wide, on the same grain, with the same thread and needle.",
                $"Measure the scrap flat before, and finished after pressing or washing as the piece will be. By the plan it loses {rounding.Text(planned)}; cloth has thickness, so it may lose more or less.",
                "Write down what you measure in the box, enter it, and take the corrected worksheet: every position then allows for it.",
            ];
        return new JsonObject
        {
            ["tucks"] = count, ["width"] = rounding.Exact(widest), ["planned"] = rounding.Exact(planned),
            ["sewn"] = run.Runs.All(r => r.Strip is not null), ["text"] = texts,
        };
    }

    private static string Reckoned(Whole run, Part part, Rounding rounding)
    {
        var where = run.Sectioned && run.AskedRuns.Select(p => p.Run!.Strip).Distinct().Count() > 1 ? $"In section {part.Number} your" : "Your";
        return part.Run!.TwinNeedle
            ? $"{where} strip is reckoned in: each twin-needle tuck takes up {rounding.Text(part.Run.TakenByOne)}."
            : $"{where} strip is reckoned in: each tuck takes up {rounding.Text(part.Run.Correction!.Value)} beside twice its width (a minus means less).";
    }

    /// <summary><c>hand</c>, <c>machine</c>, or null where the record says both or does not know.</summary>
    internal static string? AsRecorded(string? sewn) => sewn switch
    {
        "hand" => "hand",
        "machine" or "machine-lockstitch" or "machine-chainstitch" or "machine-double-chainstitch" => "machine",
        _ => null,
    };
}
