using System.Text.Json.Serialization;
using HeirloomArchive.Sewing;
using Marten.Schema;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>What a region can show.</summary>
public enum ShownKind
{
    Technique,
    Condition,
    Repair,
    Word,
    Text,
}

/// <summary>One thing that a region shows.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Value">The entry's id in the garment, the word's <c>facet/slug</c>, or the text.</param>
/// <param name="Purpose">Why it stands there, in a word of the annotation vocabulary; null for the usual one of its kind.</param>
/// <param name="Language">Of a text, where it was said: <c>en</c>.</param>
public sealed record ShownThing(ShownKind Kind, string Value, string? Purpose = null, string? Language = null)
{
    /// <summary>As regions are found by it; a text is not.</summary>
    [JsonIgnore]
    public string Key => KeyOf(Kind, Value);

    /// <inheritdoc cref="Key"/>
    public static string KeyOf(ShownKind kind, string value) => $"{kind.ToString().ToLowerInvariant()}:{value}";
}

/// <summary>How long a line is on the piece, as she measured it.</summary>
/// <param name="Nanometres">Exact.</param>
/// <param name="Text">As typed.</param>
public sealed record MeasuredLength(long Nanometres, string Text)
{
    [JsonIgnore]
    public Length Length => Length.FromNanometres(Nanometres);
}

/// <summary>What a region says at one time.</summary>
/// <param name="Shape">Where.</param>
/// <param name="Shows">What.</param>
/// <param name="Measured">Of a line that was measured on the piece.</param>
/// <param name="Motivation">Why, in a word of the annotation vocabulary.</param>
public sealed record RegionSaying(Shape Shape, IReadOnlyList<ShownThing> Shows, MeasuredLength? Measured, string Motivation)
{
    /// <summary>When it was said.</summary>
    public DateTimeOffset When { get; init; }

    /// <summary>Who said it.</summary>
    public string Who { get; init; } = "";
}

/// <summary>A marked place on a picture, kept beside the record with all that it ever said. Taking it away only marks it.</summary>
public sealed class Region
{
    public Guid Id { get; set; }

    /// <summary>The picture's id.</summary>
    public Guid Picture { get; set; }

    /// <summary>The garment that the picture belongs to.</summary>
    public Guid Garment { get; set; }

    /// <summary>Counts its changes, from 1: the API's <c>ETag</c>.</summary>
    [Version]
    public long Version { get; set; }

    /// <summary>What it says.</summary>
    public RegionSaying Now { get; set; } = null!;

    /// <summary>What it said before, oldest first.</summary>
    public List<RegionSaying> Earlier { get; set; } = [];

    /// <summary>When it was made.</summary>
    public DateTimeOffset Made { get; set; }

    /// <summary>When it was taken away; null while it stands.</summary>
    public DateTimeOffset? Gone { get; set; }

    /// <summary>The keys of what it shows, to be found by.</summary>
    public string[] Keys { get; set; } = [];
}
