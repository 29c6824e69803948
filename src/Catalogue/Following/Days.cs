using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>Days of recorded dates. A half-known date counts by its first day where dates are compared, and is past only after its last.</summary>
public static class Days
{
    /// <summary>The first day that a recorded date can be; null where there is none, or its start is open.</summary>
    public static DateOnly? First(JsonNode? edtf) => Read(edtf)?.Start is { } start ? Day(start.From) : null;

    /// <summary>The last day that it can be; null where there is none, or its end is open.</summary>
    public static DateOnly? Last(JsonNode? edtf) => Read(edtf)?.End is { } end ? Day(end.To) : null;

    private static Edtf? Read(JsonNode? edtf) =>
        edtf is JsonValue text && Edtf.TryParse(text.ToString(), out var date, out _) ? date : null;

    // EDTF knows years that no calendar of a program has; they count as its ends.
    private static DateOnly Day((int Year, int Month, int Day) day)
    {
        if (day.Year is < 1 or > 9999)
        {
            return day.Year < 1 ? DateOnly.MinValue : DateOnly.MaxValue;
        }

        var month = Math.Clamp(day.Month, 1, 12);
        return new(day.Year, month, Math.Clamp(day.Day, 1, DateTime.DaysInMonth(day.Year, month)));
    }
}
