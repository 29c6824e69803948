using System.Globalization;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>Paths into JSON as faults write them: <c>techniques[0].groups[1].width</c>.</summary>
internal static class Paths
{
    // A list of the record holds 2 000 entries at most; a form of our own never counts further.
    private const int Furthest = 2_000;

    /// <summary>Its steps: names (string) and places (int). Empty for what is no path.</summary>
    public static IReadOnlyList<object> Split(string path)
    {
        var steps = new List<object>();
        foreach (var part in path.Split('.'))
        {
            var cut = part.IndexOf('[', StringComparison.Ordinal);
            var name = cut < 0 ? part : part[..cut];
            if (name.Length == 0)
            {
                return [];
            }

            steps.Add(name);
            while (cut >= 0)
            {
                var end = part.IndexOf(']', cut);
                if (end < 0 || !int.TryParse(part.AsSpan(cut + 1, end - cut - 1), NumberStyles.None, CultureInfo.InvariantCulture, out var place) || place > Furthest)
                {
                    return [];
                }

                steps.Add(place);
                cut = part.IndexOf('[', end);
            }
        }

        return steps;
    }
}
