using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>The order of work, numbered, one step a tuck, so that each can be ticked off at the table.</summary>
internal sealed class Steps
{
    private readonly JsonArray steps = [];
    private readonly Run run;
    private readonly WorksheetRequest request;
    private readonly Recorded recorded;
    private readonly Datum datum;
    private readonly Rounding rounding;

    private Steps(Run run, WorksheetRequest request, Recorded recorded, Datum datum, Rounding rounding) =>
        (this.run, this.request, this.recorded, this.datum, this.rounding) = (run, request, recorded, datum, rounding);

    public static JsonArray Of(Run run, WorksheetRequest request, Recorded recorded, Datum datum, Rounding rounding)
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

        Add(run.Correction is null
            ? "Sew the test strip; if it takes up more or less than was planned, make the worksheet again with its measures."
            : "Lay out your test strip, thread and needle: sew as you sewed the strip.");
        var along = rounding.Text(Cutting.Along(run, request.Allow));
        Add(Cutting.TuckFirst(request.Allow, recorded)
            ? $"Cut an oblong on the straight grain, {along} along the row of tucks; not the shape yet."
            : $"Cut the piece on the straight grain, {along} along the row of tucks.");
        Add(datum.Line == "centre"
            ? "Fold the piece in half, crease the centre and baste it in a thread that shows. All is measured from this line."
            : $"Mark {datum.Text} with a basting thread that shows, {rounding.Text(request.Allow.Start + request.Allow.Shaping)} from the cut edge at the start. All is measured from this line.");
        Add("Mark the lines from the table: a, fold and b of every tuck, each measured from that line.");
    }

    private void Sew()
    {
        Add($"Sew the tucks in this order, and press each as it is done: the fold lies {Direction()}.");
        var how = Kind();
        foreach (var part in run.Working())
        {
            for (var i = 0; i < part.Count; i++)
            {
                var tuck = part[i];
                var half = tuck.Half is { } h ? $", {h} half" : "";
                Add($"Tuck {tuck.Number}{half}: fold on line {tuck.Number} ({rounding.Shown(datum.Flat(run, tuck.Fold)).Text()} from {datum.Text}), bring {tuck.Number}a to {tuck.Number}b, "
                    + $"{(request.Sewn == "hand" ? "run" : "stitch")} {rounding.Text(tuck.Width)} from the fold.{how}", tuck);
                if ((i + 1) % 5 == 0)
                {
                    var apart = Length.FromNanometres(Math.Abs(tuck.SewnStitch.Nanometres - part[0].SewnStitch.Nanometres));
                    Add($"Check: from the stitching of tuck {part[0].Number} to that of tuck {tuck.Number} it is {rounding.Shown(apart).Text()}; look at the table before you go on.");
                }
            }
        }
    }

    private void Finish()
    {
        Add($"Press the run as it will be washed and worn. It should measure {rounding.Text(run.Finished)} from start to end.");
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

    private void Add(string text, Tuck? tuck = null)
    {
        var step = new JsonObject { ["number"] = steps.Count + 1, ["text"] = text };
        if (tuck is not null)
        {
            step["tuck"] = tuck.Number;
            step["marks"] = new JsonArray($"{tuck.Number}a", $"{tuck.Number}", $"{tuck.Number}b");
        }

        steps.Add(step);
    }

    private string Direction() => run.Lies switch
    {
        "towards-start" => datum.Line == "start" ? "towards the start" : $"towards {datum.Text}",
        "from-centre" => "away from the centre",
        "towards-centre" => "towards the centre",
        _ => datum.Line == "start" ? "towards the end" : $"away from {datum.Text}",
    };

    /// <summary>What a kind of tuck asks beyond folding and stitching.</summary>
    private string Kind() => Recorded.Word(recorded.Tucks?["tuckKind"]) switch
    {
        "corded" => " Lay the cord in the fold before you stitch.",
        "whipped" => " Whip over the fold, one small stitch beside the other.",
        "lace-edged" => " Then whip the lace to the fold.",
        "shell" => " Then whip over the fold at even intervals and draw it into shells.",
        "release" => recorded.Tucks!["sewnLength"] is { } sewn ? $" Stitch only {sewn.Text()} of its length and fasten off." : " Stitch only part of its length and fasten off.",
        "receiving" => " Set the ruffle or lace under it as you stitch.",
        "growth" => " Use a stitch that can be drawn out again.",
        _ => "",
    };
}
