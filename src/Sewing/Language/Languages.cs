using System.Collections.Frozen;
using System.Globalization;
using System.Xml.Linq;

namespace HeirloomArchive.Sewing.Language;

/// <summary>
/// The languages there are: English, one for each <c>texts.xx.xlf</c> in this folder, and the made-up <c>qps-ploc</c>
/// in which whoever works on the pages sees at a glance what is not ready for translation.
/// </summary>
public static class Languages
{
    /// <summary>The made-up language's name, that which .NET and Windows keep for such.</summary>
    public const string MadeUp = "qps-ploc";

    private const string Prefix = "texts.";

    private static readonly FrozenDictionary<string, Translation> All = Read().ToFrozenDictionary(t => t.Language, StringComparer.OrdinalIgnoreCase);

    /// <summary>Names of all but English, as BCP 47 writes them.</summary>
    public static IEnumerable<string> Names => All.Keys;

    /// <summary>The name of that of whoever reads: <c>en</c> where hers is not there.</summary>
    public static string Reader => OfReader?.Language ?? "en";

    /// <summary>That of whoever reads, by <see cref="CultureInfo.CurrentUICulture"/>; null for English.</summary>
    internal static Translation? OfReader
    {
        get
        {
            // de-AT reads what is written for de.
            for (var culture = CultureInfo.CurrentUICulture; culture.Name.Length > 0; culture = culture.Parent)
            {
                if (All.TryGetValue(culture.Name, out var found))
                {
                    return found;
                }
            }

            return null;
        }
    }

    private static IEnumerable<Translation> Read()
    {
        yield return new MadeUpTranslation();
        var here = typeof(Languages).Assembly;
        foreach (var name in here.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal) && n.Count(c => c == '.') == 2))
        {
            using var file = here.GetManifestResourceStream(name)!;
            yield return Translation.Read(XDocument.Load(file));
        }
    }
}
