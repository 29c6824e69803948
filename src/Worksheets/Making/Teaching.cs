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
            texts.Add(T("The piece is the same on both sides of its centre; what follows is one half, from the middle outwards."));
        }

        foreach (var part in whole.Parts.Where(p => p.Half != "start"))
        {
            texts.Add(part.Insertion is { } insertion
                ? insertion.LaidOn ? T($"Insertion {insertion.Width.Text} wide, laid on the cloth.") : T($"Insertion {insertion.Width.Text} wide, let in between two edges.")
                : Run(part, rounding));
        }

        var (start, end) = (request.Allow.Start + request.Allow.Shaping, request.Allow.End + request.Allow.Shaping);
        if (start > Length.Zero || end > Length.Zero)
        {
            texts.Add(T($"Allow {rounding.Text(start)} more cloth at the start and {rounding.Text(end)} at the end."));
        }

        return new JsonArray([.. texts.Select(t => JsonValue.Create(t))]);
    }

    public static JsonArray Questions(Whole whole, WorksheetRequest request, JsonArray evidence, Rounding rounding)
    {
        JsonArray list = [];
        foreach (var (width, taken, twin) in whole.Runs.SelectMany(r => r.Tucks.Select(t => (t.Width, Taken: Taken(r, t), r.TwinNeedle))).Distinct())
        {
            Ask(twin ? T($"By the strip, how much cloth does one twin-needle tuck with a gap of {rounding.Text(width)} take up?") : T($"How much cloth does one tuck of {rounding.Text(width)} take up?"),
                rounding.Both(taken),
                twin ? T("The strip's flat width less its finished width, shared among its tucks.")
                    : taken == width * 2 ? T($"Twice its width, for two layers lie behind the one that is seen: 2 × {rounding.Text(width)}.")
                    : T($"Twice its width, 2 × {rounding.Text(width)}, and {rounding.Text(taken - (width * 2))} by the strip."));
        }

        if (whole.Tucks.Count > 0)
        {
            Ask(N(
                whole.Tucks.Count,
                $"How much does the {whole.Tucks.Count} tuck take up?",
                $"How much do all {whole.Tucks.Count} tucks take up together?"), rounding.Both(whole.TakeUp), T("Add up what each takes."));
        }

        Ask(T($"How wide is {whole.Name} when it is sewn?"), rounding.Both(whole.Finished), T("All that is seen: plain cloth, tucks and insertions side by side."));
        Ask(T("How long must the cloth be cut, along the row?"), rounding.Both(Cutting.Along(whole, request.Allow)),
            whole.Insertions.Any(p => !p.Insertion!.LaidOn)
                ? T("What it measures when sewn, and what the tucks take up, and the allowances; what is let in needs no cloth.")
                : T("What it measures when sewn, and what the tucks take up, and the allowances."));
        if (whole.AskedRuns.FirstOrDefault(p => p.Run!.Apart.Count > 0)?.Run is { } first)
        {
            var apart = first.Apart.GroupBy(a => a).OrderByDescending(g => g.Count()).First().Key;
            Ask(first.TwinNeedle ? T("How far is it from one line to follow to the next, on the flat cloth?") : T("How far is it from one fold to the next, on the flat cloth, where the tucks stand alike?"),
                rounding.Both(apart), first.TwinNeedle ? T("As given.") : T("The width of the first tuck, the plain cloth between, and what the next one takes before its fold: for equal tucks three widths and the space."));
        }

        if (whole.Runs.Any(r => !r.TwinNeedle))
        {
            Ask(T("In which order do you sew the tucks, and why?"), T("Away from the side they cover."), T("Then the next fold is measured from stitching that lies open and pressed."));
        }

        Ask(T("Which of this is seen on the antique, and which is a guess or a choice?"), string.Join(" ", evidence.Each().Select(e => $"{e["text"].Text()} {e["is"].Text()}")), "");
        return list;

        void Ask(string question, string answer, string working) =>
            list.Add(new JsonObject { ["question"] = question, ["answer"] = answer, ["working"] = working });
    }

    private static Length Taken(Run run, Tuck tuck) => run.TwinNeedle ? run.TakenByOne : (tuck.Width * 2) + (run.Correction ?? Length.Zero);

    private static string Run(Part part, Rounding rounding)
    {
        var run = part.Run!;
        var lies = part.Half is null ? run.LiesInWords : run.Lies == "towards-end" ? T("away from the middle") : T("towards the middle");
        var (groups, gap) = ("", (Length?)null);
        foreach (var (_, width, count, space, toNext) in run.Groups())
        {
            var group = Group(run, width, space, count, rounding);
            groups = groups.Length == 0 ? group : gap == Length.Zero ? T($"{groups}; then {group}") : T($"{groups}; then {Between(run, width, gap!.Value, rounding)} and {group}");
            gap = toNext;
        }

        var (first, last) = (run.Tucks[0], run.Tucks[^1]);
        var before = first.SewnStitch < first.SewnFold ? first.SewnStitch : first.SewnFold;
        var after = run.Finished - (last.SewnStitch > last.SewnFold ? last.SewnStitch : last.SewnFold);
        return run.TwinNeedle ? T($"{groups}; sewn with a twin needle.")
            : run.FromMiddle ? T($"In the middle {Between(run, first.Width, run.Centre, rounding)}; from there outwards, on each side: {groups}; {rounding.Text(after)} plain at each end. They lie {lies}.")
            : T($"{groups}; {rounding.Text(before)} plain before and {rounding.Text(after)} after. They lie {lies}.");
    }

    /// <summary>"6 tucks 1/8 in wide with 1/4 in of plain cloth between".</summary>
    private static string Group(Run run, Length width, Length? space, int count, Rounding rounding)
    {
        var tucks = N(count, $"{count} tuck {rounding.Text(width)} wide", $"{count} tucks {rounding.Text(width)} wide");
        return space is not { } between ? tucks
            : run.TwinNeedle ? T($"{tucks}, {rounding.Text(between + width)} from line to line")
            : between == Length.Zero ? T($"{tucks}, meeting")
            : between < Length.Zero ? T($"{tucks}, overlapping by {rounding.Text(-between)}")
            : T($"{tucks} with {rounding.Text(between)} of plain cloth between");
    }

    /// <summary>What lies between two groups, or in the middle: "1 in of plain cloth".</summary>
    private static string Between(Run run, Length width, Length space, Rounding rounding) =>
        run.TwinNeedle ? T($"{rounding.Text(space + width)} from line to line")
        : space < Length.Zero ? T($"an overlap of {rounding.Text(-space)}")
        : T($"{rounding.Text(space)} of plain cloth");
}
