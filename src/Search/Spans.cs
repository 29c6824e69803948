using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using Lucene.Net.Queries;
using Lucene.Net.Search;

namespace HeirloomArchive.Search;

/// <summary>Filters over years and widths, ends included; null is an end left open.</summary>
internal static class Spans
{
    /// <summary>Fields of the widths: of a technique's groups of tucks, and of a lace.</summary>
    public const string TuckWidth = "tuckWidth";
    public const string LaceWidth = "laceWidth";

    /// <summary>The years a recorded date may mean, or null when it tells none.</summary>
    public static Years? YearsOf(string dated) => Edtf.TryParse(dated, out var date, out _)
        ? new Years(date.Years.From ?? int.MinValue, date.Years.To ?? int.MaxValue)
        : null;

    /// <summary>Garments that may have been made in these years or between.</summary>
    public static Filter Dated(int? from, int? to)
    {
        var both = new BooleanFilter();
        if (from is not null || to is null)
        {
            both.Add(NumericRangeFilter.NewInt32Range(Fields.YearTo, from, null, true, true), Occur.MUST);
        }

        if (to is not null)
        {
            both.Add(NumericRangeFilter.NewInt32Range(Fields.YearFrom, null, to, true, true), Occur.MUST);
        }

        return both;
    }

    /// <summary>Documents of which one length of this field lies between.</summary>
    public static Filter Between(string field, Length? from, Length? to) =>
        NumericRangeFilter.NewInt64Range(field, from?.Nanometres, to?.Nanometres, true, true);
}
