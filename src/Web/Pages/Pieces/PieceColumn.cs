using System.ComponentModel;
using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A column that the table of all pieces can have.</summary>
/// <param name="Name">As in the address; what it is sorted by too, where it can be.</param>
/// <param name="Label">Its heading in English, translated where it is shown.</param>
/// <param name="Text">What stands in it.</param>
public sealed record PieceColumn(string Name, [Localizable(true)] string Label, Func<ListedPiece, string> Text)
{
    /// <summary>All of them, in the order in which they stand.</summary>
    public static IReadOnlyList<PieceColumn> All { get; } =
    [
        new("number", "Number", p => p.Number ?? ""), new("name", "Name", p => p.Name),
        new("kind", "Kind", p => p.Kind is null ? "" : Say.Word("kinds", p.Kind)),
        new("dated", "Dated", p => p.Dated is { } dated ? DateInWords.Say(dated) : p.DatedText ?? ""),
        new("overall", "Overall", p => Plain(p.Overall)), new("handling", "Handling", p => Plain(p.Handling)), new("whereabouts", "Where it is", p => Plain(p.Whereabouts)),
        new("place", "Kept", p => string.Join(", ", new[] { p.Shelf, p.Box }.OfType<string>())),
        new("tags", "Tags", p => string.Join(", ", p.Tags)), new("pictures", "Pictures", p => Count(p.Pictures)),
        new("findings", "Findings open", p => Count(p.OpenFindings)), new("techniques", "Techniques", p => Count(p.Techniques)),
        new("changed", "Last changed", p => p.Changed.Year < 1900 ? "" : Written.ShortDay(p.Changed)),
    ];

    /// <summary>Those shown until she chooses.</summary>
    public static IReadOnlyList<string> AtFirst { get; } = ["number", "name", "kind", "dated", "overall", "place", "findings"];

    public bool Sorts => PieceList.Sorts.Contains(Name);

    public bool IsNumber => Name is "pictures" or "findings" or "techniques";

    private static string Plain(string? slug) => slug is null ? "" : Say.Plain(slug);

    private static string Count(int number) => number == 0 ? "" : number.ToString(CultureInfo.InvariantCulture);
}
