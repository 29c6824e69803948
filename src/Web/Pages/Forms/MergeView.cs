using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>What a form is about, for two who save it at once.</summary>
/// <param name="Past">The record as it was.</param>
/// <param name="Garment">Whose.</param>
/// <param name="Shape">The fields that the form asks for.</param>
/// <param name="Part">What of the record it shows; null where that is not in it.</param>
public sealed record Together(Past Past, Guid Garment, RecordType Shape, Func<JsonObject, JsonObject?> Part)
{
    /// <summary>
    /// Where the form and the record at a version differ, each with who changed it since the form was opened; null if either
    /// version has nothing of it.
    /// </summary>
    public async Task<MergeView?> Look(Form form, long opened, long seen, CancellationToken ct)
    {
        if (await Past.At(Garment, opened, ct) is not { } then || await Past.At(Garment, seen, ct) is not { } now
            || Part(then.Fields) is not { } was || Part(now.Fields) is not { } there)
        {
            return null;
        }

        var steps = (await Past.Since(then, ct)).Take((int)(seen - opened)).ToList();
        var met = Meeting.Of(Shape, was, form.Values, there)
            .Select(m => m with { By = m.OtherChanged ? steps.LastOrDefault(s => !JsonNode.DeepEquals(At(Part(s.Before), m.Path), At(Part(s.After), m.Path))) : null });
        return new([.. met.OrderByDescending(m => m is { SheChanged: true, OtherChanged: true }).ThenByDescending(m => m.OtherChanged)], seen, now.State());
    }

    /// <summary>Who took it out of the record since it was opened; null if nobody did.</summary>
    public async Task<Step?> TakenOut(long opened, CancellationToken ct) =>
        await Past.At(Garment, opened, ct) is { } then
            ? (await Past.Since(then, ct)).LastOrDefault(s => Part(s.Before) is not null && Part(s.After) is null)
            : null;

    private static JsonNode? At(JsonObject? values, string path) => new Form(values ?? []).At(path);
}

/// <summary>Two saved at once: each field that differs, with hers and the other's to choose from. For <c>_Merge.cshtml</c>.</summary>
/// <param name="Met">The fields, those first that both have changed.</param>
/// <param name="Seen">The version that the other's are of; a save of the choice replaces it.</param>
/// <param name="Garment">The record as it is then.</param>
public sealed record MergeView(IReadOnlyList<Meeting> Met, long Seen, JsonObject Garment)
{
    /// <summary>Stands before a field's path in the name of its choice.</summary>
    public const string Take = "take.";

    public const string Mine = "mine";

    public const string Theirs = "theirs";

    /// <summary>Fields that need a choice and have none yet, after the button was pressed.</summary>
    public IReadOnlyCollection<string> Unchosen { get; init; } = [];

    /// <summary>What was chosen before, by path.</summary>
    public IReadOnlyDictionary<string, string> Chosen { get; init; } = new Dictionary<string, string>();

    /// <summary>Hers where only she changed it, the other's where only the other did; null where both have.</summary>
    public string? Choice(Meeting met) => Chosen.GetValueOrDefault(met.Path) ?? (met.SheChanged ? met.OtherChanged ? null : Mine : Theirs);

    public string Label(Meeting met) => met.Path.Split('.') is [var group, _] && GarmentShape.Garment.Fields.FirstOrDefault(f => f.Name == group) is { } outer
        ? $"{T(Asking.For(group, outer).Label)}: {T(Asking.For(met.Path, met.Field).Label).ToLowerInvariant()}"
        : T(Asking.For(met.Path, met.Field).Label);

    public string Said(Meeting met, JsonNode? value) => ChangeWords.Value(met.Field, value, Garment);

    /// <summary>Who has changed it, and when.</summary>
    public static string By(Meeting met) => met.By is not { } by ? T("As it was")
        : by.Who is null || by.Who == Viewer.Owner.Name ? T($"Saved, {Written.Lately(by.When, seconds: true)}")
        : T($"Saved by {by.Who}, {Written.Lately(by.When, seconds: true)}");
}
