using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>What is evidence and what a guess, what else is on the piece, what to buy, what to beware of.</summary>
internal static class Telling
{
    public static JsonArray Evidence(Run run, JsonObject? fit, WorksheetRequest request, Recorded recorded)
    {
        JsonArray list = [];
        if (recorded.Tucks is { } tucks)
        {
            var sure = tucks["sure"].Text() is { Length: > 0 } s ? s : "how sure is not recorded";
            Add($"The technique: {Groups(tucks)}.", $"Recorded on the antique; {sure}.");
            if (tucks["sewn"].Text() is { Length: > 0 } sewn)
            {
                var evidence = tucks["evidence"] is JsonObject { Count: > 0 } ? EvidenceText(tucks["evidence"]!) : "no evidence is written down for it";
                Add($"Sewn: {sewn.Replace('-', ' ')}.", $"Recorded on the antique; {evidence}.");
            }
            else
            {
                Add("Hand or machine: not recorded.", "A guess would be needed.");
            }

            if (tucks["remains"].Text() is { Length: > 0 } remains && remains != "whole")
            {
                Add($"Of the tucks there is left: {remains.Replace('-', ' ')}{Traces(tucks)}.", "Recorded on the antique.");
            }

            Add($"The tucks lie {run.LiesInWords}.", tucks["lies"].Text() == run.Lies ? "As on the antique." : "Chosen for this worksheet; the antique's way is not recorded or is another.");
        }
        else
        {
            Add("No antique stands behind these tucks.", "All of it is your plan.");
        }

        Add(fit is null ? "Number, width and spaces: your plan." : $"Number and spaces: the closest of {fit["count"].Text()} arrangements that fit your width.", "Computed for this worksheet.");
        Add(run.Correction is null ? "The cloth is taken to have no thickness." : "The thickness of the cloth: from your strip.", run.Correction is null ? "A guess until a strip is sewn." : "Measured by you.");
        if (request.Thread is null || request.Needle is null)
        {
            Add("Needle and thread.", "Suggestions from books and practice, not from the antique.");
        }

        return list;

        void Add(string text, string from) => list.Add(new JsonObject { ["text"] = text, ["is"] = from });
    }

    /// <summary>The chosen techniques that are not planned: lace, stitches, notes and their pictures.</summary>
    public static JsonArray Also(Recorded recorded) => new([.. recorded.Techniques.Where(t => t != recorded.Tucks).Select(t => new JsonObject
    {
        ["technique"] = t["id"].Text(),
        ["text"] = $"{Capital(Recorded.Said("techniques", t["kind"]))}{Described(t)}.",
        ["note"] = t["note"].Text(),
        ["pictures"] = t["pictures"]?.DeepClone() ?? new JsonArray(),
    })]);

    public static JsonArray Shopping(Run run, WorksheetRequest request, JsonArray laces, Rounding rounding)
    {
        List<string> list = [];
        var along = Cutting.Along(run, request.Allow);
        var cloth = request.Cloth.Word ?? "cloth";
        if (request.Cloth is { FoldsAlong: "warp", Width: { } width } && along > Length.Zero && width.Length >= along)
        {
            var abreast = width.Length.Nanometres / along.Nanometres;
            var rows = (request.Alike + abreast - 1) / abreast;
            list.Add($"{Capital(cloth)}, {width.Text} wide: {(rows == 1 ? "once" : $"{rows} times")} the length of the folds with what is added to it"
                + (request.Alike > 1 ? $"; {Math.Min(abreast, request.Alike)} of {request.Alike} pieces lie side by side." : "."));
        }
        else
        {
            list.Add($"{Capital(cloth)}: {rounding.Text(along * request.Alike)} along the row of tucks{(request.Alike > 1 ? $" for {request.Alike} pieces" : "")}, as wide as the folds are long with what is added to it.");
        }

        list.Add("A strip of the same cloth to try, and a little over for shrinking.");
        list.AddRange(laces.Each().Select(l => $"{Capital(l["name"].Text())}: {l["lengthForAll"].Text()}."));
        list.Add($"Thread: {request.Thread ?? "fine cotton, see above"}. Needle: {request.Needle ?? "see above"}.");
        list.Add("Basting thread in a colour that shows, and thin card for the gauge.");
        return new JsonArray([.. list.Select(t => JsonValue.Create(t))]);
    }

    public static JsonArray Cautions(Run run, WorksheetRequest request, Recorded recorded, Rounding rounding)
    {
        JsonArray list = [];
        foreach (var caution in run.Plan["cautions"].Each())
        {
            list.Add(caution.DeepClone());
        }

        var along = Cutting.Along(run, request.Allow);
        if (request.Cloth.Width is { } width && width.Length < along && request.Cloth.FoldsAlong != "weft")
        {
            Add("wider-than-cloth", $"The piece is {rounding.Text(along)} along the row and the cloth {width.Text} wide. "
                + (request.Cloth.FoldsAlong is null ? "With folds along the warp it does not fit: " : "")
                + "turn the folds along the weft, or join a width where a tuck hides the seam.", "Folds along the warp use up the loom width.");
        }

        if (request.Cloth.Shrunk == false)
        {
            Add("not-shrunk", "The cloth is not shrunk yet: shrink it before you cut.", "Tucks drawn up by a first washing can't be let out evenly.");
        }

        var kind = Recorded.Word(recorded.Tucks?["tuckKind"]);
        if (kind is "tapered" or "scalloped" or "crossed")
        {
            Add("planned-parallel", $"Recorded as {kind} tucks; this worksheet plans parallel tucks of one width.", "The rest is for your own hand.");
        }

        var places = recorded.IsAChilds ? (string[])["work", "marking", "children"] : ["work", "marking"];
        foreach (var caution in places.SelectMany(Catalogue.Cautions.At).DistinctBy(c => c.Code))
        {
            list.Add(new JsonObject { ["code"] = caution.Code, ["text"] = caution.Text, ["reason"] = caution.Reason, ["source"] = caution.Source });
        }

        return list;

        void Add(string code, string text, string reason) => list.Add(new JsonObject { ["code"] = code, ["text"] = text, ["reason"] = reason, ["source"] = null });
    }

    /// <summary>"6 of 1/16 in, 3/16 in apart; …", as far as it is recorded.</summary>
    internal static string Groups(JsonObject tucks)
    {
        var groups = tucks["groups"].Each().Select(g =>
            string.Join(" ", new[] { g["tucks"].Text(), g["width"] is null ? "" : $"of {g["width"].Text()}", g["space"] is null ? "" : $"with {g["space"].Text()} between" }.Where(t => t.Length > 0))).ToList();
        var kind = Recorded.Said("tucks", tucks["tuckKind"]);
        var what = kind.Length == 0 ? "tucks" : kind.EndsWith("tucks", StringComparison.OrdinalIgnoreCase) || kind.EndsWith("tuck", StringComparison.OrdinalIgnoreCase) ? kind : $"{kind} tucks";
        return groups.Count == 0 ? what : $"{what}, {string.Join("; ", groups)}";
    }

    internal static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static string Described(JsonObject technique)
    {
        List<string> parts =
        [
            Recorded.Said("laces", technique["lace"]), Recorded.Said("trims", technique["trim"]), technique["form"].Text(),
            Recorded.Said("whitework", technique["work"]), technique["width"] is JsonObject w ? $"{w.Text()} wide" : "",
            technique["part"] is null ? "" : $"on the {Recorded.Said("parts", technique["part"]).ToLowerInvariant()}",
            technique["set"] is JsonArray { Count: > 0 } set ? $"set {string.Join(" and ", set.Texts())}" : "",
            technique["joined"].Text().Replace('-', ' '),
            .. technique["stitches"] is JsonArray stitches ? stitches.Select(s => Recorded.Said("stitches", s)) : [],
        ];
        var told = string.Join(", ", parts.Where(p => p.Length > 0));
        return told.Length == 0 ? "" : ": " + told;
    }

    private static string EvidenceText(JsonNode evidence) =>
        string.Join(", ", new[]
        {
            evidence["stitchesPerInch"] is { } i ? $"{i.Text()} stitches to the inch" : "",
            evidence["stitchesPerCm"] is { } c ? $"{c.Text()} stitches to the centimetre" : "",
            evidence["regularity"].Text(), evidence["note"].Text(),
        }.Where(t => t.Length > 0)) is { Length: > 0 } text ? text : "evidence is written down";

    private static string Traces(JsonObject tucks) =>
        tucks["traces"] is JsonArray { Count: > 0 } traces ? $" ({string.Join(", ", traces.Texts().Select(t => t.Replace('-', ' ')))})" : "";
}
