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
            Add(T("Shrink the cloth as the piece will be washed, and press it while damp."));
        }

        if (run.Tucks.Count > 0)
        {
            Add(run.Runs.Any(r => r.Strip is null)
                ? T("Sew the test strip; if it takes up more or less than was planned, make the worksheet again with its measures.")
                : T("Lay out your test strip, thread and needle: sew as you sewed the strip."));
        }

        var along = rounding.Text(Cutting.Along(run, request.Allow));
        Add(Cutting.TuckFirst(request.Allow, recorded)
            ? T($"Cut an oblong on the straight grain, {along} along the row of tucks; not the shape yet.")
            : T($"Cut the piece on the straight grain, {along} along the row of tucks."));
        Add(datum.Line == "centre"
            ? T("Fold the piece in half, crease the centre and baste it in a thread that shows. All is measured from this line.")
            : T($"Mark {datum.Text} with a basting thread that shows, {rounding.Text(request.Allow.Start + request.Allow.Shaping)} from the cut edge at the start. All is measured from this line."));
        if (run.Tucks.Count > 0)
        {
            Add(run.AllTwinNeedle
                ? T("Mark the line to follow of every tuck from the table or the rule, each measured from that line; a and b are where the needles will run.")
                : T("Mark the lines from the table: a, fold and b of every tuck, each measured from that line."));
        }

        if (run.Insertions.Any())
        {
            Add(T("Mark the lines of the insertions (L) as well, but cut nothing yet."));
        }
    }

    private void Sew()
    {
        if (run.Runs.Any(r => r.TwinNeedle))
        {
            Add(T("Put the twin needle in, thread both needles and the cord if you use one, and turn the wheel once by hand to see that the needles clear the plate."));
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
        ? T("sew the twin-needle tucks one after the other from start to end; they lie neither way.")
        : T($"sew the tucks in this order, and press each as it is done: the fold lies {Direction(part)}.");

    /// <summary>"Section 2, start half".</summary>
    private static string Place(Part part) => part.Half switch
    {
        "start" => T($"Section {part.Number}, start half"),
        "end" => T($"Section {part.Number}, end half"),
        _ => T($"Section {part.Number}"),
    };

    private void Sew(Run its, IReadOnlyList<Tuck> part, string how)
    {
        for (var i = 0; i < part.Count; i++)
        {
            var tuck = part[i];
            var which = tuck.Half switch
            {
                "start" => T($"Tuck {tuck.Number}, start half"),
                "end" => T($"Tuck {tuck.Number}, end half"),
                _ => T($"Tuck {tuck.Number}"),
            };
            var at = rounding.Shown(datum.Flat(run, tuck.Fold)).Text();
            var (a, line, b, width) = ($"{tuck.Number}a", $"{tuck.Number}", $"{tuck.Number}b", rounding.Text(tuck.Width));
            var sewn = its.TwinNeedle ? T($"{which}: keep the middle between the needles on line {line} ({at} from {datum.Text}); they run on {a} and {b}.")
                : request.Sewn == "hand" ? T($"{which}: fold on line {line} ({at} from {datum.Text}), bring {a} to {b}, run {width} from the fold.")
                : T($"{which}: fold on line {line} ({at} from {datum.Text}), bring {a} to {b}, stitch {width} from the fold.");
            Add(its.TwinNeedle || how.Length == 0 ? sewn : $"{sewn} {how}", tuck);
            if ((i + 1) % 5 == 0)
            {
                var apart = Length.FromNanometres(Math.Abs(tuck.SewnStitch.Nanometres - part[0].SewnStitch.Nanometres));
                Add(T($"Check: from the stitching of tuck {part[0].Number} to that of tuck {tuck.Number} it is {rounding.Shown(apart).Text()}; look at the table before you go on."));
            }
        }
    }

    /// <summary>An insertion laid on is stitched at both edges before the cloth is cut behind it; one let in takes the place of a cut.</summary>
    private void Set(Part part)
    {
        var insertion = part.Insertion!;
        var name = Lace.Called(recorded.OfSection(request, part.Asked), T("the insertion"));
        var (line, width) = ($"L{part.Strip}", insertion.Width.Text);
        Add(insertion.LaidOn
            ? T($"{Place(part)}: lay {name}, {width} wide, face up between {line}a and {line}b and baste it. Stitch both its edges; then slit the cloth behind it along the middle, turn each side back and stitch it down, and trim. Lift the insertion well away from the scissors.")
            : T($"{Place(part)}: cut the cloth on line {line}, roll and whip (or narrowly hem) both edges, and let {name}, {width} wide, in between them."), null, part);
    }

    private void Finish()
    {
        Add(T($"Press {run.Name} as it will be washed and worn. It should measure {rounding.Both(run.Finished)} from start to end."));
        if (Cutting.TuckFirst(request.Allow, recorded))
        {
            Add(T("Now lay the shape on the tucked piece, matching its line with the basted one, and cut it."));
        }

        for (var i = 0; i < request.Trims.Count; i++)
        {
            Add(T($"Trim: put on {Lace.Name(request.Trims[i], recorded)} along its edge of {request.Trims[i].Edge.Text}, as “Lace” says."));
        }

        Add(T("Take out the basting. Count needles and pins: as many as at the start."));
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
        ("start", "towards-start") or ("end", "towards-end") or (null, "from-centre") => T("away from the centre"),
        ("start", _) or ("end", _) or (_, "towards-centre") => T("towards the centre"),
        (_, "towards-start") => datum.Line is "start" or "centre" ? T("towards the start") : T($"towards {datum.Text}"),
        _ => datum.Line is "start" or "centre" ? T("towards the end") : T($"away from {datum.Text}"),
    };

    /// <summary>What a kind of tuck asks beyond folding and stitching.</summary>
    private static string Kind(JsonObject? technique) => Recorded.Word(technique?["tuckKind"]) switch
    {
        "corded" => T("Lay the cord in the fold before you stitch."),
        "whipped" => T("Whip over the fold, one small stitch beside the other."),
        "lace-edged" => T("Then whip the lace to the fold."),
        "shell" => T("Then whip over the fold at even intervals and draw it into shells."),
        "release" => technique!["sewnLength"] is { } sewn ? T($"Stitch only {sewn.Text()} of its length and fasten off.") : T("Stitch only part of its length and fasten off."),
        "receiving" => T("Set the ruffle or lace under it as you stitch."),
        "growth" => T("Use a stitch that can be drawn out again."),
        _ => "",
    };
}
