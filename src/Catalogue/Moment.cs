using System.Globalization;

namespace HeirloomArchive.Catalogue;

/// <summary>A moment as the API writes it.</summary>
internal static class Moment
{
    /// <summary>RFC 3339 in UTC, to the millisecond: <c>2026-10-18T09:30:00.000Z</c>.</summary>
    public static string Text(DateTimeOffset when) => when.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
}
