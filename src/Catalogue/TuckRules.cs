using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>What holds between the fields of a recorded run of tucks. Half-known is normal: a rule speaks only where all it needs is there.</summary>
internal static class TuckRules
{
    /// <summary>The most tucks in a run, both halves of a run with a centre counted.</summary>
    public const int MostTucks = 2_000;

    /// <summary>Which way the tucks of a run lie, from where it was measured and how the folds are turned; null where that does not tell.</summary>
    public static string? Lies(JsonObject technique)
    {
        var turned = (Text(technique["turned"]), Text(technique["side"])) switch
        {
            ("wearers-left", "left") or ("wearers-right", "right") => "to-sides",
            ("wearers-left", "right") or ("wearers-right", "left") => "to-centre",
            (var said, _) => said,
        };
        if (technique["centre"] is not null)
        {
            return turned switch { "to-sides" => "from-centre", "to-centre" => "towards-centre", _ => null };
        }

        return (Text(technique["measuredFrom"]), turned) switch
        {
            ("shoulder" or "neck" or "waist", "down") => "towards-end",
            ("shoulder" or "neck" or "waist", "up") => "towards-start",
            ("hem" or "sleeve-edge", "up") => "towards-end",
            ("hem" or "sleeve-edge", "down") => "towards-start",
            ("centre-front" or "centre-back" or "front-edge" or "neck", "to-sides") => "towards-end",
            ("centre-front" or "centre-back" or "front-edge" or "neck", "to-centre") => "towards-start",
            ("shoulder", "to-centre") => "towards-end",
            ("shoulder", "to-sides") => "towards-start",
            ("edge" or "front-edge" or "hem" or "sleeve-edge", "from-edge") => "towards-end",
            ("edge" or "front-edge" or "hem" or "sleeve-edge", "to-edge") => "towards-start",
            _ => null,
        };
    }

    /// <summary>Counts, the centre, and overlaps that go too far.</summary>
    public static void Check(JsonObject technique, string path, ICollection<Fault> faults)
    {
        if (Text(technique["kind"]) != "tucks")
        {
            return;
        }

        JsonObject[] groups = technique["groups"] is JsonArray list ? [.. list.OfType<JsonObject>()] : [];
        var between = technique["between"] as JsonArray ?? [];
        if (between.Count > Math.Max(0, groups.Length - 1))
        {
            faults.Senseless(RecordType.At(path, "between"), T($"{between.Count} spacings stand between {groups.Length} groups; send at most one fewer than there are groups."));
            return;
        }

        CheckCount(technique, groups, path, faults);
        CheckCentre(technique, groups, path, faults);
        CheckMeasured(technique, path, faults);
        if (Text(technique["tuckKind"]) != "twin-needle")
        {
            CheckOverlaps(technique, groups, between, path, faults);
        }
    }

    private static void CheckCount(JsonObject technique, JsonObject[] groups, string path, ICollection<Fault> faults)
    {
        var halves = technique["centre"] is null ? 1 : 2;
        var tucks = halves * groups.Sum(g => g["tucks"]?.GetValue<long>() ?? 0);
        if (tucks > MostTucks)
        {
            faults.Senseless(RecordType.At(path, "groups"), halves == 2
                ? T($"The run has {tucks} tucks in both halves; at most {MostTucks} can be recorded.")
                : T($"The run has {tucks} tucks; at most {MostTucks} can be recorded."));
        }
    }

    private static void CheckCentre(JsonObject technique, JsonObject[] groups, string path, ICollection<Fault> faults)
    {
        if (MeasureType.Of(technique["centre"]) is not { } centre)
        {
            return;
        }

        if (technique["lead"] is not null)
        {
            faults.Senseless(RecordType.At(path, "lead"), T("A run with a centre is one half from the middle outwards and has no lead; send the plain cloth in the middle as centre, that at the end as trail."));
        }

        if (Lies(technique) == "from-centre" && centre < Length.Zero)
        {
            faults.Senseless(RecordType.At(path, "centre"), T($"{technique["centre"]!["text"]} is below zero; tucks that lie away from the middle can't overlap there."));
        }
        else if (groups.Length > 0 && Width(groups[0]) is { } width && centre + width * 2 <= Length.Zero)
        {
            faults.Senseless(RecordType.At(path, "centre"), T($"{technique["centre"]!["text"]} overlaps too far: centre and twice the width of the innermost tuck must stay above zero."));
        }
    }

    private static void CheckMeasured(JsonObject technique, string path, ICollection<Fault> faults)
    {
        if (technique["over"] is JsonObject over && MeasureType.Of(over["widthLeast"]) is { } least && MeasureType.Of(over["widthMost"]) is { } most && least > most)
        {
            faults.Senseless(RecordType.At(path, "over.widthLeast"), T($"The least width, {over["widthLeast"]!["text"]}, is more than the most, {over["widthMost"]!["text"]}."));
        }
    }

    private static void CheckOverlaps(JsonObject technique, JsonObject[] groups, JsonArray between, string path, ICollection<Fault> faults)
    {
        for (var i = 0; i < groups.Length; i++)
        {
            if (Width(groups[i]) is { } width)
            {
                CheckSpacing(groups[i], width, width + width, $"{RecordType.At(path, "groups")}[{i}].", faults);
            }
        }

        for (var i = 0; i < between.Count; i++)
        {
            if (between[i] is JsonObject spacing && Width(groups[i]) is { } before && Width(groups[i + 1]) is { } after)
            {
                // A space may overlap the tuck that lies in it; where the lie is not known, either.
                var lain = Lies(technique) switch
                {
                    "towards-end" or "from-centre" => before,
                    "towards-start" or "towards-centre" => after,
                    _ => before > after ? before : after,
                };
                var where = $"{RecordType.At(path, "between")}[{i}]";
                if (spacing["mm"] is null)
                {
                    CheckSpacing(spacing, lain, before + after, where + ".", faults);
                }
                else if (MeasureType.Of(spacing) is { } bare && bare + lain <= Length.Zero)
                {
                    faults.Senseless(where, TooFar(spacing));
                }
            }
        }
    }

    private static void CheckSpacing(JsonObject spacing, Length lain, Length both, string path, ICollection<Fault> faults)
    {
        if (MeasureType.Of(spacing["space"]) is { } space && space + lain <= Length.Zero)
        {
            faults.Senseless(path + "space", TooFar(spacing["space"]!));
        }

        if (MeasureType.Of(spacing["foldToFold"]) is { } fold && fold <= both)
        {
            faults.Senseless(path + "foldToFold", T($"{spacing["foldToFold"]!["text"]} from fold to fold is too little: on the flat cloth it must be more than the widths of both tucks."));
        }
    }

    private static string TooFar(JsonNode space) =>
        T($"{space["text"]} overlaps too far: the width of the tuck and the space after it must stay above zero together.");

    private static Length? Width(JsonObject group) => MeasureType.Of(group["width"]);

    private static string? Text(JsonNode? node) => node is JsonValue v && v.TryGetValue<string>(out var text) ? text : null;
}
