using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>What is evidence and what a guess, what else is on the piece, what to buy, what to beware of.</summary>
internal static class Telling
{
    public static JsonArray Evidence(Whole run, IReadOnlyList<JsonObject?> fits, WorksheetRequest request, Recorded recorded)
    {
        JsonArray list = [];
        var copied = recorded.Techniques.Where(t => Recorded.Word(t["kind"]) == "tucks" && (run.Sectioned || t == recorded.Tucks)).ToList();
        foreach (var tucks in copied)
        {
            var sure = tucks["sure"].Text() is { Length: > 0 } s ? T(s) : T("how sure is not recorded");
            Add(T($"The technique: {Groups(tucks)}."), T($"Recorded on the antique; {sure}."));
            if (tucks["sewn"].Text() is { Length: > 0 } sewn)
            {
                var evidence = tucks["evidence"] is JsonObject { Count: > 0 } ? EvidenceText(tucks["evidence"]!) : T("no evidence is written down for it");
                Add(T($"Sewn: {Recorded.Plain(sewn)}."), T($"Recorded on the antique; {evidence}."));
            }
            else
            {
                Add(T("Hand or machine: not recorded."), T("A guess would be needed."));
            }

            if (tucks["remains"].Text() is { Length: > 0 } remains && remains != "whole")
            {
                Add(T($"Of the tucks there is left: {Recorded.Plain(remains)}{Traces(tucks)}."), T("Recorded on the antique."));
            }

            foreach (var its in run.AskedRuns.Where(p => recorded.OfSection(request, p.Asked) == tucks).Select(p => p.Run!))
            {
                Add(T($"The tucks lie {its.LiesInWords}."), tucks["lies"].Text() == its.Lies ? T("As on the antique.") : T("Chosen for this worksheet; the antique's way is not recorded or is another."));
            }
        }

        if (copied.Count == 0)
        {
            Add(T("No antique stands behind these tucks."), T("All of it is your plan."));
        }

        foreach (var (fit, i) in fits.Select((f, i) => (f, i)).Where(f => request.Sections.Count == 0 || request.Sections[f.i].Insertion is null))
        {
            var count = fit?["count"].Text();
            Add(
                (run.Sectioned, fit is null) switch
                {
                    (false, true) => T("Number, width and spaces: your plan."),
                    (false, false) => T($"Number and spaces: the closest of {count} arrangements that fit your width."),
                    (true, true) => T($"Section {i + 1} of those asked: number, width and spaces: your plan."),
                    (true, false) => T($"Section {i + 1} of those asked: number and spaces: the closest of {count} arrangements that fit your width."),
                },
                T("Computed for this worksheet."));
        }

        foreach (var part in run.Insertions.Where(p => p.Half != "start"))
        {
            var recordedWidth = recorded.OfSection(request, part.Asked)?["width"] as JsonObject;
            Add(part.Insertion!.LaidOn ? T($"Insertion {part.Insertion.Width.Text} wide, laid on.") : T($"Insertion {part.Insertion.Width.Text} wide, let in."), recordedWidth is not null && Run.Read(recordedWidth) == part.Insertion.Width.Length
                ? T("The width is that of the antique; whether it is laid on or let in is your choice.") : T("Your plan."));
        }

        if (run.Tucks.Count > 0)
        {
            var sewn = run.Runs.All(r => r.Strip is not null);
            Add(sewn ? T("The thickness of the cloth: from your strip.") : T("The cloth is taken to have no thickness."), sewn ? T("Measured by you.") : T("A guess until a strip is sewn."));
        }

        if (request.Thread is null || request.Needle is null)
        {
            Add(T("Needle and thread."), T("Suggestions from books and practice, not from the antique."));
        }

        return list;

        void Add(string text, string from) => list.Add(new JsonObject { ["text"] = text, ["is"] = from });
    }

    /// <summary>The chosen techniques that are not planned: lace, stitches, notes and their pictures.</summary>
    public static JsonArray Also(WorksheetRequest request, Recorded recorded) => new([.. recorded.Techniques.Where(t => !recorded.IsPlanned(request, t)).Select(t => new JsonObject
    {
        ["technique"] = t["id"].Text(),
        ["text"] = $"{Capital(Recorded.Said("techniques", t["kind"]))}{Described(t)}.",
        ["note"] = t["note"].Text(),
        ["pictures"] = t["pictures"]?.DeepClone() ?? new JsonArray(),
    })]);

    public static JsonArray Shopping(Whole run, WorksheetRequest request, Recorded recorded, JsonArray laces, Rounding rounding)
    {
        List<string> list = [];
        var along = Cutting.Along(run, request.Allow);
        var cloth = request.Cloth.Word ?? T("cloth");
        if (request.Cloth is { FoldsAlong: "warp", Width: { } width } && along > Length.Zero && width.Length >= along)
        {
            var abreast = width.Length.Nanometres / along.Nanometres;
            var rows = (request.Alike + abreast - 1) / abreast;
            var what = N(rows, $"{Capital(cloth)}, {width.Text} wide: once the length of the folds with what is added to it", $"{Capital(cloth)}, {width.Text} wide: {rows} times the length of the folds with what is added to it");
            list.Add(request.Alike > 1 ? T($"{what}; {Math.Min(abreast, request.Alike)} of {request.Alike} pieces lie side by side.") : $"{what}.");
        }
        else
        {
            list.Add(request.Alike > 1
                ? T($"{Capital(cloth)}: {rounding.Text(along * request.Alike)} along the row of tucks for {request.Alike} pieces, as wide as the folds are long with what is added to it.")
                : T($"{Capital(cloth)}: {rounding.Text(along)} along the row of tucks, as wide as the folds are long with what is added to it."));
        }

        list.Add(T("A strip of the same cloth to try, and a little over for shrinking."));
        foreach (var alike in run.Insertions.GroupBy(p => (p.Insertion!.Width.Length, p.Insertion.Width.Text, Name: Lace.Called(recorded.OfSection(request, p.Asked), T("insertion")))))
        {
            var times = alike.Count() * request.Alike;
            list.Add(N(times,
                $"{Capital(alike.Key.Name)}, {alike.Key.Text} wide: once the length of the folds with what is added to it, and a little over for each end.",
                $"{Capital(alike.Key.Name)}, {alike.Key.Text} wide: {times} times the length of the folds with what is added to it, and a little over for each end."));
        }

        list.AddRange(laces.Each().Select(l => $"{Capital(l["name"].Text())}: {l["lengthForAll"].Text()}."));
        list.Add(T($"Thread: {request.Thread ?? T("fine cotton, see above")}. Needle: {request.Needle ?? T("see above")}."));
        if (run.AnyTwinNeedle)
        {
            var gaps = run.Runs.Where(r => r.TwinNeedle).Select(r => rounding.Text(r.Tucks[0].Width)).Distinct().Aggregate((some, one) => T($"{some} and {one}"));
            list.Add(T($"A twin needle with a gap of {gaps}, as the strip was sewn with."));
        }

        list.Add(T("Basting thread in a colour that shows, and thin card for the gauge."));
        return new JsonArray([.. list.Select(t => JsonValue.Create(t))]);
    }

    public static JsonArray Cautions(Whole run, WorksheetRequest request, Recorded recorded, IReadOnlyList<System.Text.Rune> leftOut, Rounding rounding)
    {
        JsonArray list = [];
        foreach (var (code, text) in run.AskedRuns.SelectMany(p => p.Run!.Plan["cautions"].Each().Select(c => (c["code"].Text(), In(run, p, c["text"].Text())))).Distinct())
        {
            list.Add(new JsonObject { ["code"] = code, ["text"] = text });
        }

        var along = Cutting.Along(run, request.Allow);
        if (request.Cloth.Width is { } width && width.Length < along && request.Cloth.FoldsAlong != "weft")
        {
            Add(
                "wider-than-cloth",
                request.Cloth.FoldsAlong is null
                    ? T($"The piece is {rounding.Text(along)} along the row and the cloth {width.Text} wide. With folds along the warp it does not fit: turn the folds along the weft, or join a width where a tuck hides the seam.")
                    : T($"The piece is {rounding.Text(along)} along the row and the cloth {width.Text} wide. Turn the folds along the weft, or join a width where a tuck hides the seam."),
                T("Folds along the warp use up the loom width."));
        }

        if (request.Cloth.Shrunk == false)
        {
            Add("not-shrunk", T("The cloth is not shrunk yet: shrink it before you cut."), T("Tucks drawn up by a first washing can't be let out evenly."));
        }

        if (leftOut.Count > 0)
        {
            Add("letters-left-out", T($"The record holds {Printing.Listed(leftOut)}; the print has no letters for them and leaves them out."), T("The record itself is whole."));
        }

        if (recorded.Tucks is { } tucks && Recorded.Word(tucks["tuckKind"]) is "tapered" or "scalloped" or "crossed")
        {
            Add("planned-parallel", T($"Recorded as {Kind(tucks).ToLowerInvariant()}; this worksheet plans parallel tucks of one width."), T("The rest is for your own hand."));
        }

        var places = recorded.IsAChilds ? (string[])["work", "marking", "children"] : ["work", "marking"];
        foreach (var caution in places.SelectMany(Catalogue.Cautions.At).DistinctBy(c => c.Code))
        {
            list.Add(new JsonObject { ["code"] = caution.Code, ["text"] = T(caution.Text), ["reason"] = T(caution.Reason), ["source"] = caution.Source });
        }

        return list;

        void Add(string code, string text, string reason) => list.Add(new JsonObject { ["code"] = code, ["text"] = text, ["reason"] = reason, ["source"] = null });
    }

    /// <summary>Where a sentence belongs, when there are several things.</summary>
    private static string In(Whole run, Part part, string text) => run.Sectioned ? T($"Section {part.Asked + 1} of those asked: {text}") : text;

    /// <summary>"pin tucks, 6 of 1/16 in with 3/16 in between; …", as far as it is recorded.</summary>
    internal static string Groups(JsonObject tucks)
    {
        var groups = tucks["groups"].Each().Select(g =>
            string.Join(" ", new[] { g["tucks"].Text(), g["width"] is null ? "" : T($"of {g["width"].Text()}"), g["space"] is null ? "" : T($"with {g["space"].Text()} between") }.Where(t => t.Length > 0))).ToList();
        return groups.Count == 0 ? Kind(tucks) : $"{Kind(tucks)}, {string.Join("; ", groups)}";
    }

    /// <summary>"pin tucks", or "tucks" where the kind is not recorded.</summary>
    internal static string Kind(JsonObject tucks)
    {
        var (said, label) = (Recorded.Said("tucks", tucks["tuckKind"]), Recorded.Label("tucks", tucks["tuckKind"]));
        return said.Length == 0 ? T("tucks")
            : label.EndsWith("tucks", StringComparison.OrdinalIgnoreCase) || label.EndsWith("tuck", StringComparison.OrdinalIgnoreCase) ? said : T($"{said} tucks");
    }

    internal static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static string Described(JsonObject technique)
    {
        List<string> parts =
        [
            Recorded.Said("laces", technique["lace"]), Recorded.Said("trims", technique["trim"]), T(technique["form"].Text()),
            Recorded.Said("whitework", technique["work"]), technique["width"] is JsonObject w ? T($"{w.Text()} wide") : "",
            technique["part"] is null ? "" : T($"on the {Recorded.Said("parts", technique["part"]).ToLowerInvariant()}"),
            technique["set"] is JsonArray { Count: > 0 } set ? T($"set {set.Texts().Select(T).Aggregate((some, one) => T($"{some} and {one}"))}") : "",
            Recorded.Plain(technique["joined"].Text()),
            .. technique["stitches"] is JsonArray stitches ? stitches.Select(s => Recorded.Said("stitches", s)) : [],
        ];
        var told = string.Join(", ", parts.Where(p => p.Length > 0));
        return told.Length == 0 ? "" : ": " + told;
    }

    private static string EvidenceText(JsonNode evidence) =>
        string.Join(", ", new[]
        {
            evidence["stitchesPerInch"] is { } i ? T($"{i.Text()} stitches to the inch") : "",
            evidence["stitchesPerCm"] is { } c ? T($"{c.Text()} stitches to the centimetre") : "",
            T(evidence["regularity"].Text()), evidence["note"].Text().TrimEnd('.'),
        }.Where(t => t.Length > 0)) is { Length: > 0 } text ? text : T("evidence is written down");

    private static string Traces(JsonObject tucks) =>
        tucks["traces"] is JsonArray { Count: > 0 } traces ? $" ({string.Join(", ", traces.Texts().Select(Recorded.Plain))})" : "";
}
