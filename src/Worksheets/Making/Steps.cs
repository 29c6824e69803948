using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>The order of work, numbered, one step a tuck, so that each can be ticked off at the table.</summary>
internal sealed class Steps
{
    private readonly JsonArray steps = [];
    private readonly Whole run;
    private readonly WorksheetRequest request;
    private readonly Recorded recorded;
    private readonly Datum datum;
    private readonly Rounding rounding;

    private Steps(Whole run, WorksheetRequest request, Recorded recorded, Datum datum, Rounding rounding) =>
        (this.run, this.request, this.recorded, this.datum, this.rounding) = (run, request, recorded, datum, rounding);

    public static JsonArray Of(Whole run, WorksheetRequest request, Recorded recorded, Datum datum, Rounding rounding)
    {
        var steps = new Steps(run, request, recorded, datum, rounding);
        steps.Prepare();
        steps.Sew();
        steps.Finish();
        return steps.steps;
    }

    private void Prepare()
    {
        if (request.Cloth.Shrunk != true)
        {
            Add("Shrink the cloth as the piece will be washed, and press it while damp.");
        }

        Add(run.Runs.Any(r => r.Strip is null)
            ? "Sew the test strip; if it takes up more or less than was planned, make the worksheet again with its measures."
            : "Lay out your test strip, thread and needle: sew as you sewed the strip.");
        var along = rounding.Text(Cutting.Along(run, request.Allow));
        Add(Cutting.TuckFirst(request.Allow, recorded)
            ? $"Cut an oblong on the straight grain, {along} along the row of tucks; not the shape yet."
            : $"Cut the piece on the straight grain, {along} along the row of tucks.");
        Add(datum.Line == "centre"
            ? "Fold the piece in half, crease the centre and baste it in a thread that shows. All is measured from this line."
            : $"Mark {datum.Text} with a basting thread that shows, {rounding.Text(request.Allow.Start + request.Allow.Shaping)} from the cut edge at the start. All is measured from this line.");
        if (run.Tucks.Count > 0)
        {
            Add(run.AllTwinNeedle
                ? "Mark the line to follow of every tuck from the table or the rule, each measured from that line; a and b are where the needles will run."
                : "Mark the lines from the table: a, fold and b of every tuck, each measured from that line.");
        }

        if (run.Insertions.Any())
        {
            Add("Mark the lines of the insertions (L) as well, but cut nothing yet.");
        }
    }

    private void Sew()
    {
        if (run.Runs.Any(r => r.TwinNeedle))
        {
            Add("Put the twin needle in, thread both needles and the cord if you use one, and turn the wheel once by hand to see that the needles clear the plate.");
        }

        foreach (var part in run.Parts.Where(p => p.Run is not null))
        {
            Add(run.Sectioned ? $"{Place(part)}: {Opening(part)}" : Telling.Capital(Opening(part)));
            var how = Kind(recorded.OfSection(request, part.Asked));
            foreach (var tucks in part.Run!.Working(part.Tucks))
            {
                Sew(part.Run, tucks, how);
            }
        }

        foreach (var part in run.Insertions)
        {
            Set(part);
        }
    }

    private string Opening(Part part) => part.Run!.TwinNeedle
        ? "sew the twin-needle tucks one after the other from start to end; they lie neither way."
        : $"sew the tucks in this order, and press each as it is done: the fold lies {Direction(part)}.";

    /// <summary>"Section 2, start half".</summary>
    private static string Place(Part part) => $"Section {part.Number}{(part.Half is { } half ? $", {half} half" : "")}";

    private void Sew(Run its, IReadOnlyList<Tuck> part, string how)
    {
        for (var i = 0; i < part.Count; i++)
        {
            var tuck = part[i];
            var half = tuck.Half is { } h ? $", {h} half" : "";
            Add(its.TwinNeedle
                ? $"Tuck {tuck.Number}{half}: keep the middle between the needles on line {tuck.Number} ({rounding.Shown(datum.Flat(run, tuck.Fold)).Text()} from {datum.Text}); they run on {tuck.Number}a and {tuck.Number}b."
                : $"Tuck {tuck.Number}{half}: fold on line {tuck.Number} ({rounding.Shown(datum.Flat(run, tuck.Fold)).Text()} from {datum.Text}), bring {tuck.Number}a to {tuck.Number}b, "
                + $"{(request.Sewn == "hand" ? "run" : "stitch")} {rounding.Text(tuck.Width)} from the fold.{how}", tuck);
            if ((i + 1) % 5 == 0)
            {
                var apart = Length.FromNanometres(Math.Abs(tuck.SewnStitch.Nanometres - part[0].SewnStitch.Nanometres));
                Add($"Check: from the stitching of tuck {part[0].Number} to that of tuck {tuck.Number} it is {rounding.Shown(apart).Text()}; look at the table before you go on.");
            }
        }
    }

    /// <summary>An insertion laid on is stitched at both edges before the cloth is cut behind it; one let in takes the place of a cut.</summary>
    private void Set(Part part)
    {
        var insertion = part.Insertion!;
        var name = Lace.Called(recorded.OfSection(request, part.Asked), "the insertion");
        var (line, width) = ($"L{part.Strip}", insertion.Width.Text);
        Add(insertion.LaidOn
            ? $"{Place(part)}: lay {name}, {width} wide, face up between {line}a and {line}b and baste it. Stitch both its edges; then slit the cloth behind it along the middle, turn each side back and stitch it down, and trim. Lift the insertion well away from the scissors."
            : $"{Place(part)}: cut the cloth on line {line}, roll and whip (or narrowly hem) both edges, and let {name}, {width} wide, in between them.", null, part);
    }

    private void Finish()
    {
        Add($"Press {run.Name} as it will be washed and worn. It should measure {rounding.Both(run.Finished)} from start to end.");
        if (Cutting.TuckFirst(request.Allow, recorded))
        {
            Add("Now lay the shape on the tucked piece, matching its line with the basted one, and cut it.");
        }

        for (var i = 0; i < request.Trims.Count; i++)
        {
            Add($"Trim: put on {Lace.Name(request.Trims[i], recorded)} along its edge of {request.Trims[i].Edge.Text}, as “Lace” says.");
        }

        Add("Take out the basting. Count needles and pins: as many as at the start.");
    }

    private void Add(string text, Tuck? tuck = null, Part? insertion = null)
    {
        var step = new JsonObject { ["number"] = steps.Count + 1, ["text"] = text };
        if (tuck is not null)
        {
            step["tuck"] = tuck.Number;
            step["marks"] = new JsonArray($"{tuck.Number}a", $"{tuck.Number}", $"{tuck.Number}b");
        }

        if (insertion is not null)
        {
            step["insertion"] = insertion.Strip;
        }

        steps.Add(step);
    }

    private string Direction(Part part) => (part.Half, part.Run!.Lies) switch
    {
        ("start", "towards-start") or ("end", "towards-end") => "away from the centre",
        ("start", _) or ("end", _) => "towards the centre",
        (_, "towards-start") => datum.Line is "start" or "centre" ? "towards the start" : $"towards {datum.Text}",
        (_, "from-centre") => "away from the centre",
        (_, "towards-centre") => "towards the centre",
        _ => datum.Line is "start" or "centre" ? "towards the end" : $"away from {datum.Text}",
    };

    /// <summary>What a kind of tuck asks beyond folding and stitching.</summary>
    private static string Kind(JsonObject? technique) => Recorded.Word(technique?["tuckKind"]) switch
    {
        "corded" => " Lay the cord in the fold before you stitch.",
        "whipped" => " Whip over the fold, one small stitch beside the other.",
        "lace-edged" => " Then whip the lace to the fold.",
        "shell" => " Then whip over the fold at even intervals and draw it into shells.",
        "release" => technique!["sewnLength"] is { } sewn ? $" Stitch only {sewn.Text()} of its length and fasten off." : " Stitch only part of its length and fasten off.",
        "receiving" => " Set the ruffle or lace under it as you stitch.",
        "growth" => " Use a stitch that can be drawn out again.",
        _ => "",
    };
}
