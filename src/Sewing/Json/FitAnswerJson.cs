using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing;

/// <summary>The answer of <c>POST /api/plans/fit</c>; lengths as <see cref="LengthJson"/> writes them, in the answer's unit.</summary>
public static class FitAnswerJson
{
    /// <summary>Writes an answer: <c>fits</c>, <c>count</c>, <c>arrangements</c>, <c>nearest</c>, <c>reason</c> (or null).</summary>
    public static JsonObject Write(FitAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return new()
        {
            ["fits"] = answer.Fits,
            ["count"] = answer.Count,
            ["arrangements"] = new JsonArray([.. answer.Arrangements.Select(a => Arrangement(a, []))]),
            ["nearest"] = new JsonArray([.. answer.Nearest.Select(n => Arrangement(n.Arrangement, new() { ["change"] = Word(n.Change) }))]),
            ["reason"] = answer.Reason,
        };

        JsonObject Arrangement(FitArrangement arrangement, JsonObject written)
        {
            written["tucks"] = arrangement.Tucks;
            written["width"] = L(arrangement.Width);
            written["space"] = arrangement.Space is { } space ? L(space) : null;
            written["lead"] = L(arrangement.Lead);
            written["trail"] = L(arrangement.Trail);
            written["finished"] = L(arrangement.Finished);
            written["cloth"] = L(arrangement.Cloth);
            return written;
        }

        JsonObject L(Length length) => LengthJson.Write(length, answer.Unit);
    }

    private static string Word(FitChange change) => change switch
    {
        FitChange.Finished => "finished",
        FitChange.Tucks => "tucks",
        FitChange.Space => "space",
        FitChange.Width => "width",
        FitChange.Ends => "ends",
        _ => "cloth",
    };
}
