using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>Which pieces of the list of all: each part that is there must hold. Pieces set aside are never among them.</summary>
/// <param name="Has">What stands in its name or number; capitals, accents and leading zeros do not count.</param>
/// <param name="Kind">Its kind: a word's slug, or a word of her own.</param>
/// <param name="Overall">Its overall state; <c>none</c> where it has none, as with the next three.</param>
/// <param name="Handling">How it may be handled.</param>
/// <param name="Whereabouts">Where it is.</param>
/// <param name="Place">What its shelf and box begin with; <c>none</c> where no place is recorded.</param>
/// <param name="Tag">One of its tags.</param>
public sealed record ListQuestion(
    string? Has = null, string? Kind = null, string? Overall = null, string? Handling = null, string? Whereabouts = null, string? Place = null, string? Tag = null)
{
    /// <summary>What stands for "not recorded".</summary>
    public const string None = "none";

    private static readonly TextType Line = new(300, lines: false);

    /// <summary>The question as JSON: <c>{"kind":"dress","place":"B"}</c>.</summary>
    public static RecordType Shape { get; } = new(
    [
        new("has", Line), new("kind", Line), new("overall", Or("overall")), new("handling", Or("handling")),
        new("whereabouts", new ChoiceType([.. ((ChoiceType)((RecordType)FieldOf("whereabouts")).Fields[0].Type).Values, None])), new("place", Line), new("tag", Line),
    ]);

    /// <summary>The question that was read by <see cref="Shape"/>.</summary>
    public static ListQuestion Of(JsonObject read)
    {
        string? At(string name) => read[name]?.GetValue<string>();
        return new(At("has"), At("kind"), At("overall"), At("handling"), At("whereabouts"), At("place"), At("tag"));
    }

    /// <summary>Each part that is there, by its name.</summary>
    public IEnumerable<(string Name, string Value)> Parts => new[]
    {
        ("has", Has), ("kind", Kind), ("overall", Overall), ("handling", Handling), ("whereabouts", Whereabouts), ("place", Place), ("tag", Tag),
    }.Where(p => !string.IsNullOrWhiteSpace(p.Item2)).Select(p => (p.Item1, p.Item2!));

    private static FieldType FieldOf(string name) => GarmentShape.Garment.Fields.Single(f => f.Name == name).Type;

    private static ChoiceType Or(string name) => new([.. ((ChoiceType)FieldOf(name)).Values, None]);
}
