using System.Globalization;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Threads of the cloth as they were counted, and in the other unit beside: "88 × 84 threads to the inch (34.6 × 33.1 to the cm)".</summary>
public static class ThreadCount
{
    private const decimal CentimetresOfInch = 2.54m;

    /// <param name="field"><c>threadsPerInch</c> or <c>threadsPerCm</c>.</param>
    /// <param name="count">Its <c>warp</c> and <c>weft</c>, either may be missing.</param>
    public static string Say(string field, JsonObject count)
    {
        ArgumentNullException.ThrowIfNull(count);
        var inch = field == "threadsPerInch";
        var (warp, weft) = (Number(count["warp"]), Number(count["weft"]));
        string Both(Func<decimal, string> text) => (warp, weft) switch
        {
            ({ } a, { } b) => $"{text(a)} × {text(b)}",
            ({ } a, _) => T($"{text(a)} (warp)"),
            (_, { } b) => T($"{text(b)} (weft)"),
            _ => "",
        };
        var counted = Both(n => n.ToString("0.##", CultureInfo.InvariantCulture));
        var beside = Both(n => (inch ? n / CentimetresOfInch : n * CentimetresOfInch).ToString("0.#", CultureInfo.InvariantCulture));
        return counted.Length == 0 ? ""
            : inch ? T($"{counted} threads to the inch ({beside} to the cm)")
            : T($"{counted} threads to the cm ({beside} to the inch)");
    }

    private static decimal? Number(JsonNode? number) => number is null ? null : decimal.Parse(number.ToString(), NumberStyles.Float, CultureInfo.InvariantCulture);
}
