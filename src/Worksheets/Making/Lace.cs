using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>How much lace an edge takes: its length times the fullness, and twice the lace's width for each outside corner.</summary>
internal static class Lace
{
    private static string Corners => T("Twice the width for each corner: I. McGlauflin, Handicraft for Girls (c. 1910); O. C. Hapgood, School Needlework (1890s)");
    private static string Gathered => T("Once and a half for gathered lace: I. McGlauflin, Handicraft for Girls (c. 1910)");

    /// <summary>One and a half for lace recorded as gathered.</summary>
    private const decimal GatheredFullness = 1.5m;

    /// <exception cref="FaultException">A corner is to be turned and no width is known.</exception>
    public static JsonArray Of(WorksheetRequest request, Recorded recorded, Rounding rounding)
    {
        List<Fault> faults = [];
        JsonArray laces = [];
        for (var i = 0; i < request.Trims.Count; i++)
        {
            var trim = request.Trims[i];
            if (trim.Corners > 0 && Width(trim, recorded) is null)
            {
                faults.Add(new Fault($"trims[{i}].width", T("The lace's width is needed to turn corners, and none is recorded; give it.")));
                continue;
            }

            laces.Add(One(trim, request.Alike, recorded, rounding));
        }

        return faults.Count == 0 ? laces : throw new FaultException(faults);
    }

    /// <summary>The lace in words: "torchon edging", or "the lace".</summary>
    public static string Name(Trim trim, Recorded recorded) => Called(Technique(trim, recorded), T("the lace"));

    /// <summary>What a technique is called, or the words for one that is not recorded.</summary>
    public static string Called(JsonObject? technique, string otherwise)
    {
        var word = Recorded.Said("laces", technique?["lace"]) is { Length: > 0 } lace ? lace : Recorded.Said("trims", technique?["trim"]);
        var form = T(technique?["form"].Text());
        return word.Length == 0 ? otherwise : $"{word} {form}".Trim();
    }

    /// <summary>edge × fullness + 2 × width × corners, rounded once.</summary>
    public static Length Needed(Length edge, Length width, decimal fullness, int corners) =>
        Length.FromNanometres((long)decimal.Round(edge.Nanometres * fullness, MidpointRounding.AwayFromZero)) + (width * (2L * corners));

    private static JsonObject One(Trim trim, int alike, Recorded recorded, Rounding rounding)
    {
        var gathered = Technique(trim, recorded)?["set"].Texts().Contains("gathered") ?? false;
        var fullness = trim.Fullness ?? (gathered ? GatheredFullness : 1);
        var width = Width(trim, recorded);
        var needed = Needed(trim.Edge.Length, width ?? Length.Zero, fullness, trim.Corners);
        var factor = fullness.ToString("0.####", CultureInfo.InvariantCulture);
        var name = Name(trim, recorded);
        var sum = $"{trim.Edge.Text} × {factor}";
        if (trim.Corners > 0)
        {
            var twice = $"2 × {rounding.Text(width!.Value)}";
            sum = N(trim.Corners, $"{sum} + {twice} for one corner", $"{sum} + {twice} for each of {trim.Corners} corners");
        }

        List<string> sources = [];
        if (trim.Corners > 0)
        {
            sources.Add(Corners);
        }

        if (trim.Fullness is null && gathered)
        {
            sources.Add(Gathered);
        }

        return new JsonObject
        {
            ["technique"] = trim.Technique,
            ["name"] = name,
            ["edge"] = LengthJson.Write(trim.Edge.Length, trim.Edge.Text),
            ["width"] = width is { } w ? rounding.Exact(w) : null,
            ["fullness"] = fullness,
            ["corners"] = trim.Corners,
            ["length"] = rounding.Exact(needed),
            ["lengthForAll"] = rounding.Exact(needed * alike),
            ["text"] = alike > 1
                ? T($"{Telling.Capital(name)}: {rounding.Text(needed)} a piece, {rounding.Text(needed * alike)} for all {alike} ({sum}).")
                : T($"{Telling.Capital(name)}: {rounding.Text(needed)} ({sum})."),
            ["working"] = string.Join(". ", sources),
        };
    }

    private static JsonObject? Technique(Trim trim, Recorded recorded) => trim.Technique is { } id ? recorded.Technique(id) : null;

    private static Length? Width(Trim trim, Recorded recorded) =>
        trim.Width?.Length ?? (Technique(trim, recorded)?["width"] is JsonObject width ? Run.Read(width) : null);
}
