using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Marten;

namespace HeirloomArchive.Catalogue;

/// <summary>A piece as one row of the list of all: what is shown, sorted and asked there, saved with each of its changes.</summary>
public sealed class ListedPiece
{
    private static readonly string[] Overalls = ["sound", "fair", "weak", "fragile"];
    private static readonly string[] Handlings = ["handle-in-class", "teacher-only", "show-flat", "photograph-only", "keep-apart"];

    /// <summary>The garment.</summary>
    public Guid Id { get; set; }

    public long Version { get; set; }

    public bool Aside { get; set; }

    public string? Number { get; set; }

    public string? NumberKey { get; set; }

    public string Name { get; set; } = "";

    public string NameKey { get; set; } = "";

    /// <summary>A word's slug, or a word of her own.</summary>
    public string? Kind { get; set; }

    public string? Dated { get; set; }

    public string? DatedText { get; set; }

    /// <summary>The first year it may be of.</summary>
    public int? Year { get; set; }

    public string? Overall { get; set; }

    public int? OverallRank { get; set; }

    public string? Handling { get; set; }

    public int? HandlingRank { get; set; }

    public string? Whereabouts { get; set; }

    public string? Shelf { get; set; }

    public string? Box { get; set; }

    public string? PlaceKey { get; set; }

    public string[] Tags { get; set; } = [];

    public int Pictures { get; set; }

    /// <summary>Findings that are neither ended nor continued by a later one.</summary>
    public int OpenFindings { get; set; }

    public int Techniques { get; set; }

    public DateTimeOffset Changed { get; set; }

    /// <summary>The row of a piece with these fields.</summary>
    internal static ListedPiece Of(Guid id, long version, JsonObject fields, DateTimeOffset changed, bool aside)
    {
        var (number, name) = (Text(fields["number"]), Text(fields["name"]) ?? "");
        var (shelf, box) = (Text(fields["place"]?["shelf"]), Text(fields["place"]?["box"]));
        var (overall, handling) = (Text(fields["overall"]), Text(fields["handling"]));
        return new()
        {
            Id = id, Version = version, Aside = aside, Changed = changed,
            Number = number, NumberKey = number is null ? null : Key(number), Name = name, NameKey = Key(name),
            Kind = Text(fields["kind"]) ?? Text((fields["kind"] as JsonObject)?["own"]),
            Dated = Text(fields["dated"]), DatedText = Text(fields["datedText"]), Year = FirstYear(Text(fields["dated"])),
            Overall = overall, OverallRank = Rank(Overalls, overall), Handling = handling, HandlingRank = Rank(Handlings, handling),
            Whereabouts = Text(fields["whereabouts"]?["is"]),
            Shelf = shelf, Box = box, PlaceKey = shelf is null && box is null ? null : Key($"{shelf}\t{box}"),
            Tags = [.. (fields["tags"] as JsonArray ?? []).Select(t => t!.GetValue<string>())],
            Pictures = (fields["pictures"] as JsonArray)?.Count ?? 0,
            OpenFindings = Open(fields["condition"] as JsonArray ?? []),
            Techniques = (fields["techniques"] as JsonArray)?.Count ?? 0,
        };
    }

    /// <summary>A text as it is sorted and looked for: capitals and accents do not count, and G-2 stands before G-10.</summary>
    internal static string Key(string text)
    {
        var plain = string.Concat(text.Normalize(NormalizationForm.FormKD).ToLowerInvariant()
            .Where(c => CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark)).Trim();
        var key = new StringBuilder(plain.Length + 8);
        for (var i = 0; i < plain.Length && key.Length < LongestKey;)
        {
            var end = i;
            while (end < plain.Length && char.IsAsciiDigit(plain[end]))
            {
                end++;
            }

            // How many digits comes first (nine stands for more too), so that the longer number is the greater.
            var digits = plain[i..end].TrimStart('0');
            key.Append(end == i ? plain[i..++end] : $"{(char)('0' + Math.Min(digits.Length, 9))}{digits}");
            i = end;
        }

        // An index takes only so much; one sign may stand for eighteen letters. Half a pair is none.
        var cut = Math.Min(key.Length, LongestKey);
        return key.ToString(0, cut > 0 && char.IsHighSurrogate(key[cut - 1]) ? cut - 1 : cut);
    }

    private const int LongestKey = 200;

    internal static void Configure(StoreOptions o) => o.Schema.For<ListedPiece>()
        .Duplicate(p => p.Aside).Duplicate(p => p.NumberKey).Duplicate(p => p.NameKey).Duplicate(p => p.Kind).Duplicate(p => p.Year)
        .Duplicate(p => p.OverallRank).Duplicate(p => p.HandlingRank).Duplicate(p => p.Whereabouts).Duplicate(p => p.PlaceKey)
        .Duplicate(p => p.Pictures).Duplicate(p => p.OpenFindings).Duplicate(p => p.Techniques).Duplicate(p => p.Changed);

    private static string? Text(JsonNode? node) => node is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;

    private static int? Rank(string[] order, string? value) => Array.IndexOf(order, value) is >= 0 and var rank ? rank : null;

    private static int? FirstYear(string? dated) => dated is not null && Edtf.TryParse(dated, out var read, out _) && (read.Start ?? read.End) is { } moment ? moment.From.Year : null;

    private static int Open(JsonArray findings)
    {
        var continued = findings.Select(f => Text(f!["continues"])).ToHashSet();
        return findings.Count(f => f!["ended"] is null && !continued.Contains(Text(f["id"])));
    }
}
