using System.Globalization;

namespace HeirloomArchive.Web.Tests.Outlines;

/// <summary>The area of a closed path of straight strokes, for asking what lies in it.</summary>
internal sealed class Area
{
    private readonly List<(double X, double Y)[]> rings;

    public Area(string path) => rings = [.. path.Split('M', StringSplitOptions.RemoveEmptyEntries).Select(ring =>
    {
        Assert.EndsWith("Z", ring, StringComparison.Ordinal);
        return ring.TrimEnd('Z').Split('L').Select(point => point.Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray())
            .Select(p => (p[0], p[1])).ToArray();
    })];

    /// <summary>Every second unit of a face that lies in it.</summary>
    public HashSet<(int X, int Y)> Samples(int height) =>
        [.. from x in Enumerable.Range(0, 100) from y in Enumerable.Range(0, height / 2) where Has((x * 2) + .53, (y * 2) + .47) select (x, y)];

    public bool Has(double x, double y)
    {
        var within = false;
        foreach (var ring in rings)
        {
            for (int i = 0, j = ring.Length - 1; i < ring.Length; j = i++)
            {
                var (a, b) = (ring[i], ring[j]);
                if (a.Y > y != b.Y > y && x < ((b.X - a.X) * (y - a.Y) / (b.Y - a.Y)) + a.X)
                {
                    within = !within;
                }
            }
        }

        return within;
    }
}
