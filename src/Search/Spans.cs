using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Search;

/// <summary>What is asked of years and widths, ends included; null is an end left open.</summary>
internal static class Spans
{
    /// <summary>Fields of the widths: of a technique's groups of tucks, and of a lace.</summary>
    public const string TuckWidth = "tuckWidth";
    public const string LaceWidth = "laceWidth";

    /// <summary>The years a recorded date may mean, or null when it tells none.</summary>
    public static Years? YearsOf(string dated) => Edtf.TryParse(dated, out var date, out _)
        ? new Years(date.Years.From ?? int.MinValue, date.Years.To ?? int.MaxValue)
        : null;

    /// <summary>Documents of which one length of this field lies between.</summary>
    public static Sieve Between(string field, Length? from, Length? to) => Sieve.Between(field, from?.Nanometres, to?.Nanometres);
}
