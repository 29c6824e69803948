using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>What a class is told of the work and what it is asked to find out; each question with its answer and how it is come by.</summary>
internal static class Teaching
{
    /// <summary>The plan in sentences: all that is needed to compute the rest.</summary>
    public static JsonArray Given(Whole whole, WorksheetRequest request, Rounding rounding)
    {
        List<string> texts = [];
        if (whole.Mirrored)
        {
            texts.Add("The piece is the same on both sides of its centre; what follows is one half, from the middle outwards.");
        }

        foreach (var part in whole.Parts.Where(p => p.Half != "start"))
        {
            texts.Add(part.Insertion is { } insertion
                ? $"Insertion {insertion.Width.Text} wide, {(insertion.LaidOn ? "laid on the cloth" : "let in between two edges")}."
                : Run(part, rounding));
        }

        var (start, end) = (request.Allow.Start + request.Allow.Shaping, request.Allow.End + request.Allow.Shaping);
        if (start > Length.Zero || end > Length.Zero)
        {
            texts.Add($"Allow {rounding.Text(start)} more cloth at the start and {rounding.Text(end)} at the end.");
        }

        return new JsonArray([.. texts.Select(t => JsonValue.Create(t))]);
    }

    public static JsonArray Questions(Whole whole, WorksheetRequest request, JsonArray evidence, Rounding rounding)
    {
        JsonArray list = [];
        foreach (var (width, taken, twin) in whole.Runs.SelectMany(r => r.Tucks.Select(t => (t.Width, Taken: Taken(r, t), r.TwinNeedle))).Distinct())
        {
            Ask(twin ? $"By the strip, how much cloth does one twin-needle tuck with a gap of {rounding.Text(width)} take up?" : $"How much cloth does one tuck of {rounding.Text(width)} take up?",
                rounding.Both(taken),
                twin ? "The strip's flat width less its finished width, shared among its tucks."
                    : taken == width * 2 ? $"Twice its width, for two layers lie behind the one that is seen: 2 × {rounding.Text(width)}."
                    : $"Twice its width, 2 × {rounding.Text(width)}, and {rounding.Text(taken - (width * 2))} by the strip.");
        }

        if (whole.Tucks.Count > 0)
        {
            Ask($"How much do all {whole.Tucks.Count} tucks take up together?", rounding.Both(whole.TakeUp), "Add up what each takes.");
        }

        Ask($"How wide is {whole.Name} when it is sewn?", rounding.Both(whole.Finished), "All that is seen: plain cloth, tucks and insertions side by side.");
        Ask("How long must the cloth be cut, along the row?", rounding.Both(Cutting.Along(whole, request.Allow)),
            "What it measures when sewn, and what the tucks take up, and the allowances"
            + (whole.Insertions.Any(p => !p.Insertion!.LaidOn) ? "; what is let in needs no cloth." : "."));
        if (whole.AskedRuns.FirstOrDefault(p => p.Run!.Apart.Count > 0)?.Run is { } first)
        {
            var apart = first.Apart.GroupBy(a => a).OrderByDescending(g => g.Count()).First().Key;
            Ask(first.TwinNeedle ? "How far is it from one line to follow to the next, on the flat cloth?" : "How far is it from one fold to the next, on the flat cloth, where the tucks stand alike?",
                rounding.Both(apart), first.TwinNeedle ? "As given." : "The width of the first tuck, the plain cloth between, and what the next one takes before its fold: for equal tucks three widths and the space.");
        }

        if (whole.Runs.Any(r => !r.TwinNeedle))
        {
            Ask("In which order do you sew the tucks, and why?", "Away from the side they cover.", "Then the next fold is measured from stitching that lies open and pressed.");
        }

        Ask("Which of this is seen on the antique, and which is a guess or a choice?", string.Join(" ", evidence.Each().Select(e => $"{e["text"].Text()} {e["is"].Text()}")), "");
        return list;

        void Ask(string question, string answer, string working) =>
            list.Add(new JsonObject { ["question"] = question, ["answer"] = answer, ["working"] = working });
    }

    private static Length Taken(Run run, Tuck tuck) => run.TwinNeedle ? run.TakenByOne : (tuck.Width * 2) + (run.Correction ?? Length.Zero);

    private static string Run(Part part, Rounding rounding)
    {
        var run = part.Run!;
        var lies = part.Half is null ? run.LiesInWords : run.Lies == "towards-end" ? "away from the middle" : "towards the middle";
        var groups = run.Groups().Select(g => (g, Count: run.Tucks.Count(t => t.Group == g.Group && t.Half != "start")))
            .Select(g => $"{g.Count} {(g.Count == 1 ? "tuck" : "tucks")} {rounding.Text(g.g.Width)} wide"
                + (g.g.Space is not { } space ? "" : run.TwinNeedle ? $", {rounding.Text(space + g.g.Width)} from line to line"
                    : space == Length.Zero ? ", meeting" : $" with {rounding.Text(space)} of plain cloth between"));
        var (first, last) = (run.Tucks[0], run.Tucks[^1]);
        var before = first.SewnStitch < first.SewnFold ? first.SewnStitch : first.SewnFold;
        var after = run.Finished - (last.SewnStitch > last.SewnFold ? last.SewnStitch : last.SewnFold);
        var ends = run.TwinNeedle ? "" : run.FromMiddle ? $"; {rounding.Text(after)} plain at each end" : $"; {rounding.Text(before)} plain before and {rounding.Text(after)} after";
        return (run.FromMiddle ? "From the middle outwards, on each side: " : "") + string.Join("; then ", groups) + ends
            + (run.TwinNeedle ? "; sewn with a twin needle." : $". They lie {lies}.");
    }
}
