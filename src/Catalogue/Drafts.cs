using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Marten;

namespace HeirloomArchive.Catalogue;

/// <summary>A form half filled in: its raw fields as they were typed, with the steps before. One a person and form.</summary>
public sealed class Draft
{
    /// <summary>The person and the form: <c>owner/new-piece</c>.</summary>
    public string Id { get; set; } = "";

    /// <summary>When it was last kept.</summary>
    public DateTimeOffset Saved { get; set; }

    /// <summary>The fields step by step, each the text of a JSON object, oldest first; the last is what stands in the form.</summary>
    public List<string> Steps { get; set; } = [];
}

/// <summary>What a draft holds now.</summary>
/// <param name="Fields">The raw fields; none in a form begun afresh.</param>
/// <param name="Saved">When it was last kept.</param>
/// <param name="CanStepBack">Whether there is an earlier step.</param>
public sealed record KeptDraft(JsonObject Fields, DateTimeOffset Saved, bool CanStepBack);

/// <summary>Drafts of forms: kept as she types, stepped back through, thrown away once the form is saved. Nothing is checked in them.</summary>
public sealed class Drafts(IDocumentStore store, TimeProvider clock)
{
    /// <summary>The most bytes of one draft.</summary>
    public const int LargestBytes = 512 * 1024;

    /// <summary>The steps that are kept: enough to undo a run of mistakes, not a second history.</summary>
    public const int MostSteps = 20;

    // Twenty steps of the largest draft would be a heavy document; fewer of them are kept then.
    private const int MostCharacters = 4 * LargestBytes;

    private const string Nothing = "{}";

    private static readonly JsonSerializerOptions Writing = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Whether a text can name a form: 1 to 100 of <c>a-z 0-9 - :</c>.</summary>
    public static bool IsForm(string form) => form.Length is > 0 and <= 100 && form.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c is '-' or ':');

    /// <summary>The draft of a person and form; null if there is none.</summary>
    public async Task<KeptDraft?> Find(string who, string form, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return Shown(await session.LoadAsync<Draft>(Id(who, form), ct));
    }

    /// <summary>Keeps the fields as the next step; what is there already is no step.</summary>
    /// <returns>The draft as it is now kept.</returns>
    public async Task<KeptDraft> Keep(string who, string form, JsonObject fields, CancellationToken ct = default)
    {
        await using var session = store.LightweightSession();
        // The form as it was begun is the first step, so that the first thing typed can be undone too.
        var draft = await session.LoadAsync<Draft>(Id(who, form), ct) ?? new Draft { Id = Id(who, form), Steps = [Nothing] };
        if (!JsonNode.DeepEquals(Read(draft.Steps[^1]), fields))
        {
            draft.Steps.Add(fields.ToJsonString(Writing));
        }

        while (draft.Steps.Count > MostSteps || (draft.Steps.Count > 2 && draft.Steps.Sum(s => s.Length) > MostCharacters))
        {
            draft.Steps.RemoveAt(0);
        }

        return await Save(session, draft, ct);
    }

    /// <summary>Steps back to the newest earlier step that shows something else, and forgets what came after it.</summary>
    /// <param name="who">Whose.</param>
    /// <param name="form">Which form.</param>
    /// <param name="shown">What a step looks like in the form: two that look alike are one.</param>
    /// <param name="ct">Stops it.</param>
    /// <returns>The draft as it is now kept; null if there is none.</returns>
    public async Task<KeptDraft?> StepBack(string who, string form, Func<JsonObject, JsonNode> shown, CancellationToken ct = default)
    {
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<Draft>(Id(who, form), ct) is not { } draft)
        {
            return null;
        }

        var now = shown(Read(draft.Steps[^1]));
        while (draft.Steps.Count > 1)
        {
            draft.Steps.RemoveAt(draft.Steps.Count - 1);
            if (!JsonNode.DeepEquals(shown(Read(draft.Steps[^1])), now))
            {
                break;
            }
        }

        return await Save(session, draft, ct);
    }

    /// <summary>Throws a draft away, with its steps; nothing happens where there is none.</summary>
    public async Task Forget(string who, string form, CancellationToken ct = default)
    {
        await using var session = store.LightweightSession();
        session.Delete<Draft>(Id(who, form));
        await session.SaveChangesAsync(ct);
    }

    private async Task<KeptDraft> Save(IDocumentSession session, Draft draft, CancellationToken ct)
    {
        draft.Saved = clock.GetUtcNow();
        session.Store(draft);
        await session.SaveChangesAsync(ct);
        return Shown(draft)!;
    }

    private static string Id(string who, string form) => $"{who}/{form}";

    private static JsonObject Read(string step) => JsonNode.Parse(step)!.AsObject();

    private static KeptDraft? Shown(Draft? draft) => draft is null ? null : new(Read(draft.Steps[^1]), draft.Saved, draft.Steps.Count > 1);
}
