using System.ComponentModel;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Crossed tucks: one run down the cloth and one across it. Each takes up cloth in its own direction only.</summary>
/// <remarks>Butterick, The New Dressmaker (1921), ch. 20 p. 98: tucks and cross tucks should make true squares.</remarks>
internal static class CrossedTucks
{
    private static Ask Direction(string name, [Localizable(true)] string label, [Localizable(true)] string hint) => Ask.Part(name, label, hint,
        [RunAsks.Tucks("5"), RunAsks.Width("1/8 in"), .. AskedTucks.Apart("1 in"), RunAsks.LiesAsk(hanging: false), RunAsks.Lead, RunAsks.Trail, RunAsks.Centre,
        Ask.Above("finished", "Finished size wanted", "6 in", "Instead of plain cloth after: the plain cloth after is what is left.").Optional(),
        RunAsks.FinishedAtMost, RunAsks.ClothAtMost, RunAsks.Strip]) with { Needed = true };

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "crossed",
        Shelf = Shelf.Tucks,
        Title = "Crossed tucks",
        Lead = "Tucks both ways: the cloth in each direction, the order of work, and whether what is seen between them is square.",
        Asks =
        [
            Direction("down", "Tucks that run down", "Counted from left to right; they take up the width."),
            Direction("across", "Tucks that run across", "Counted from the top; they take up the length."),
        ],
        Example = """
            {"down":{"tucks":5,"width":"1/16 in","space":"1 in","lead":"1 in","trail":"1 in"},"across":{"tucks":5,"width":"1/16 in","space":"1 in","lead":"1 in","trail":"1 in"}}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (down, across) = (Plan(asked.Part("down")!), Plan(asked.Part("across")!));
        var rows = (down.Lines.Count - 1) * (across.Lines.Count - 1);
        var wide = down.Spacings.Select(s => s.Space).Distinct().ToList();
        var high = across.Spacings.Select(s => s.Space).Distinct().ToList();
        bool? square = rows == 0 ? null : wide.Count == 1 && high.Count == 1 && wide[0] == high[0] && wide[0] > Length.Zero;
        var answer = new Answer(asked.Unit)
            .Figure("clothWidth", "Cloth, wide", down.Cloth).Figure("clothLength", "Cloth, long", across.Cloth)
            .Figure("finishedWidth", "Finished, wide", down.Finished).Figure("finishedLength", "Finished, long", across.Finished)
            .Figure("takeUpWidth", "Taken up of the width", down.TakeUp).Figure("takeUpLength", "Taken up of the length", across.TakeUp)
            .Figure("squares", "Squares enclosed", rows, "between the tucks, without those at the edges")
            .Figure("square", "True squares", square, square == false ? "the plain cloth seen differs in the two directions" : "")
            .Lines("down", "Tucks that run down, from the left", down).Lines("across", "Tucks that run across, from the top", across)
            .Table("order", "Order of work", [new("step", "Step"), new("work", "What to do")], Order(down, across).Select((text, i) => (IReadOnlyList<object?>)[i + 1, text]));
        foreach (var caution in down.Cautions.Concat(across.Cautions).DistinctBy(c => c.Text))
        {
            answer.Caution(caution.Code, caution.Text);
        }

        // A drawing of so many lines would be too large to read or to send: the tables have them all.
        var flat = down.Lines.Count + across.Lines.Count <= 300;
        return answer
            .Note("Tucks and cross tucks about one inch apart, measured from the sewing of one tuck to the edge of the next, should make true squares.", "Butterick, The New Dressmaker (1921), ch. 20 p. 98")
            .Note("Each direction takes up cloth for itself: plain geometry.")
            .Drawn(
                flat
                    ? T($"The finished piece, tucks down: {down.Lines.Count}, tucks across: {across.Lines.Count}; then the flat cloth in each direction.")
                    : T($"The finished piece, tucks down: {down.Lines.Count}, tucks across: {across.Lines.Count}."),
                [Picture(asked, down, across), .. flat ? [.. RunSketch.Of(down), .. RunSketch.Of(across)] : (Panel[])[]]);
    }

    private static TuckPlan Plan(Asked part)
    {
        var run = new TuckGroup(part.Whole("tucks"), part.Length("width"), RunAsks.ApartOf(part));
        var plan = RunAsks.Plan(part, Lies.TowardsEnd, [run], [], RunAsks.Alike);
        if (part.LengthOrNull("finished") is { } finished)
        {
            part.Check(!part.Has("trail"), "finished", T($"{part.Show(finished)} stands beside a plain after of {part.Show(part.Length("trail"))}: give one of them."));
            part.Check(finished >= plan.Finished, "finished", T($"{part.Show(finished)} is too little: these tucks and what is before them finish at {part.Show(plan.Finished)}."));
            part.Throw();
            var left = finished - plan.Finished;
            plan = RunAsks.Make(part, new()
            {
                Groups = [run], Lead = part.LengthOrNull("lead"), Centre = part.LengthOrNull("centre"), Lies = RunAsks.LiesOf(part, Lies.TowardsEnd),
                Trail = plan.Lines[0].Half is null ? left : Length.FromNanometres(left.Nanometres / 2), TestStrip = RunAsks.StripOf(part), Unit = part.Unit,
            }, RunAsks.Alike);
        }

        RunLimits.Check(part, plan, (plan.Lines[0].Half is null ? 1 : 2) * (run.Tucks - 1));
        return plan;
    }

    private static IEnumerable<string> Order(TuckPlan down, TuckPlan across)
    {
        yield return T($"Cut an oblong on the straight grain, at least {down.Cloth.ToText(down.Unit)} wide and {across.Cloth.ToText(down.Unit)} long, shrunk first.");
        yield return N(
            down.Lines.Count,
            $"Mark and sew the {down.Lines.Count} tuck that runs down, press it: the piece is then {down.Finished.ToText(down.Unit)} wide.",
            $"Mark and sew all {down.Lines.Count} tucks that run down, press them one way: the piece is then {down.Finished.ToText(down.Unit)} wide.");
        yield return N(
            across.Lines.Count,
            $"Mark the {across.Lines.Count} tuck that runs across on the tucked cloth, drawing the lines over the tucks as they lie; sew over them with the folds lying the way they are pressed.",
            $"Mark the {across.Lines.Count} tucks that run across on the tucked cloth, drawing the lines over the tucks as they lie; sew over them with the folds lying the way they are pressed.");
        yield return T($"Press: the piece is {across.Finished.ToText(down.Unit)} long. Cut the shape only now.");
    }

    private static Panel Picture(Asked asked, TuckPlan down, TuckPlan across)
    {
        var (wide, high) = (down.Finished.Mm(), across.Finished.Mm());
        var place = new Scaled([(0, 0), (wide, high)], 24, 12, Sketch.PageWidth - 70, 90);
        var sketch = new Sketch(112);
        var ((x0, y0), (x1, y1)) = (place.At(0, 0), place.At(wide, high));
        sketch.Box(x0, y0, x1 - x0, y1 - y0, Ink.Cloth);
        foreach (var line in down.Lines)
        {
            var (a, b) = (place.At(line.FinishedStitch.Mm(), 0).X, place.At(line.FinishedFold.Mm(), 0).X);
            (a, b) = (Math.Clamp(a, x0, x1), Math.Clamp(b, x0, x1));
            sketch.Box(Math.Min(a, b), y0, Math.Abs(b - a), y1 - y0, Ink.Tuck).Line(a, y0, a, y1, Ink.Stitching);
        }

        foreach (var line in across.Lines)
        {
            var (a, b) = (place.At(0, line.FinishedStitch.Mm()).Y, place.At(0, line.FinishedFold.Mm()).Y);
            (a, b) = (Math.Clamp(a, y0, y1), Math.Clamp(b, y0, y1));
            sketch.Box(x0, Math.Min(a, b), x1 - x0, Math.Abs(b - a), Ink.Tuck).Line(x0, a, x1, a, Ink.Stitching);
        }

        return sketch.Across(x0, x1, y0 - 4, asked.Show(down.Finished)).Down(x1 + 5, y0, y1, asked.Show(across.Finished)).Panel();
    }
}
