using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>The piece to cut.</summary>
internal static class Cutting
{
    /// <summary>Parts that are cut to a shape, so that they are tucked as an oblong first.</summary>
    private static readonly HashSet<string> Shaped =
        ["yoke", "yoke-back", "bodice-front", "bodice-back", "front-panel", "sleeve", "collar", "shoulder", "neck", "armhole", "crown", "brim"];

    /// <summary>True where the shape is cut only after tucking.</summary>
    public static bool TuckFirst(Allowances allow, Recorded recorded) =>
        allow.Shaping > Length.Zero || recorded.Techniques.Where(t => Recorded.Word(t["kind"]) == "tucks").Any(t => Shaped.Contains(Recorded.Word(t["part"])));

    /// <summary>The cut length along the row of tucks.</summary>
    public static Length Along(Whole run, Allowances allow) => run.Cloth + allow.Start + allow.End + (allow.Shaping * 2);

    public static JsonObject Of(Whole run, WorksheetRequest request, Recorded recorded, Rounding rounding)
    {
        var allow = request.Allow;
        var along = Along(run, allow);
        var across = allow.Top + allow.Bottom + (allow.Shaping * 2);
        var first = TuckFirst(allow, recorded);
        return new JsonObject
        {
            ["along"] = rounding.Exact(along),
            ["acrossAdded"] = rounding.Exact(across),
            ["startEdge"] = rounding.Exact(allow.Start + allow.Shaping),
            ["endEdge"] = rounding.Exact(allow.End + allow.Shaping),
            ["tuckFirst"] = first,
            ["text"] = new JsonArray([.. Texts().Select(t => JsonValue.Create(t))]),
        };

        IEnumerable<string> Texts()
        {
            yield return along == run.Cloth
                ? T($"Along the row, at right angles to the folds: {rounding.Both(along)}.")
                : T($"Along the row, at right angles to the folds: {rounding.Both(along)}. That is {Parts((run.Cloth, l => T($"{l} for {run.Name}")), (allow.Start, l => T($"{l} at the start")), (allow.End, l => T($"{l} at the end")), (allow.Shaping * 2, ForShaping))}.");
            yield return across == Length.Zero
                ? T("Along the folds: as long as the tucks are to be; nothing is added at top and bottom.")
                : T($"Along the folds: as long as the tucks are to be, and {rounding.Text(across)} more ({Parts((allow.Top, l => T($"{l} at the top")), (allow.Bottom, l => T($"{l} at the bottom")), (allow.Shaping * 2, ForShaping))}).");
            yield return T($"The tucks take up {rounding.Both(run.TakeUp)}; sewn, {run.Name} measures {rounding.Both(run.Finished)}.");
            var letIn = run.Insertions.Where(p => !p.Insertion!.LaidOn).Aggregate(Length.Zero, (sum, p) => sum + p.Insertion!.Width.Length);
            if (letIn > Length.Zero)
            {
                yield return T($"Insertion let in adds {rounding.Text(letIn)} to the finished width and needs no cloth; what you turn in at its cut edges comes out of the plain cloth beside it.");
            }

            if (request.Alike > 1)
            {
                yield return T($"Cut {request.Alike} pieces alike.");
            }

            if (first)
            {
                yield return T("Tuck before cutting: cut an oblong on the straight grain, shrunk first; tuck it, press it, and only then cut the shape.");
            }
            else
            {
                yield return T("On the straight grain: draw a thread at each edge and cut along it. If the piece is to have a shape, tuck first and cut the shape afterwards.");
            }

            if (request.Cloth.FoldsAlong is { } folds)
            {
                yield return folds == "warp"
                    ? T("The folds run along the warp (the selvage), so the row uses up the width of the cloth.")
                    : T("The folds run along the weft, from selvage to selvage, so the row uses up the length of the cloth.");
            }
        }

        string Parts(params (Length Length, Func<string, string> Say)[] parts) =>
            string.Join(", ", parts.Where(p => p.Length > Length.Zero).Select(p => p.Say(rounding.Text(p.Length))));

        static string ForShaping(string length) => T($"{length} for shaping");
    }
}
