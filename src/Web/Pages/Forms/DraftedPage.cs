using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.Extensions.Primitives;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>The draft of a form, for <c>_DraftHere.cshtml</c> and <c>_DraftBar.cshtml</c>.</summary>
/// <param name="Form">Its name, as <c>data-draft</c> and <c>/api/drafts/{form}</c> have it.</param>
/// <param name="Of">What it is a draft of: "a new piece".</param>
/// <param name="Kept">What is kept of it; null if nothing is.</param>
public sealed record DraftView(string Form, string Of, KeptDraft? Kept)
{
    /// <summary>Whether the form starts from it.</summary>
    public bool IsHere => Kept is { Fields.Count: > 0 };

    public bool CanStepBack => Kept is { CanStepBack: true };

    public string When => Kept is { } kept ? Written.Lately(kept.Saved) : "";
}

/// <summary>
/// A form that is kept as a draft: it starts from the draft when there is one, every press keeps it, "undo" steps back, and a
/// save throws it away. All of it without script; <c>drafts.js</c> keeps it between the presses too.
/// </summary>
public abstract class DraftedPage(Archive archive, IndexFollower index, Drafts drafts) : FormPage(archive, index)
{
    // What a press of a button says, not what stands in the form.
    private static readonly string[] Presses = ["add", "remove", "use", "show", "draft", "seen", "again"];

    /// <summary>The form's draft.</summary>
    public DraftView Draft { get; private set; } = new("", "", null);

    /// <summary>Where somebody saved in between: what to choose from. Null if nobody did.</summary>
    public MergeView? Merge { get; private set; }

    protected Drafts Drafts => drafts;

    /// <summary>What was posted, as a draft keeps it.</summary>
    protected JsonObject Posted => new(Request.Form
        .Where(f => !f.Key.StartsWith("__", StringComparison.Ordinal) && !f.Key.StartsWith(MergeView.Take, StringComparison.Ordinal) && !Presses.Contains(f.Key))
        .Select(f => KeyValuePair.Create<string, JsonNode?>(f.Key, f.Value.ToString().ReplaceLineEndings("\n"))));

    /// <summary>The form as it is without a draft: as recorded, or as it is begun.</summary>
    protected abstract Task<Form> Begin(CancellationToken ct);

    /// <summary>Starts the form, from its draft if there is one.</summary>
    protected async Task TakeUp(string form, string of, RecordType shape, CancellationToken ct)
    {
        Form = await Begin(ct);
        Draft = new(form, of, await drafts.Find(Who, form, ct));
        if (Draft is { IsHere: true, Kept.Fields: var fields })
        {
            Form = new(Values(fields, shape)) { Garment = Form.Garment };
            Version = long.TryParse(fields["version"]?.ToString(), out var version) ? version : Version;
        }
    }

    /// <summary>Reads what was posted and does what was pressed but "save"; null when the form is to be saved.</summary>
    protected async Task<IActionResult?> Press(string form, string of, RecordType shape, JsonObject? garment, CancellationToken ct)
    {
        var press = Request.Form["draft"].ToString();
        Draft = new(form, of, null);
        if (press is "keep" or "undo" or "afresh")
        {
            await Keep(Posted, ct);
            if (press == "undo")
            {
                var begun = Values(RawFields.Of((await Begin(ct)).Values), shape);
                await drafts.StepBack(Who, form, fields => fields.Count == 0 ? begun : Values(fields, shape), ct);
            }
            else if (press == "afresh")
            {
                await Keep([], ct);
            }

            return Redirect(Request.Path + Request.QueryString);
        }

        if (!Rearranges(shape, garment))
        {
            return null;
        }

        await Keep(Posted, ct);
        var fields = RawFields.Of(Form.Values);
        if (Version > 0)
        {
            fields["version"] = Version.ToString(CultureInfo.InvariantCulture);
        }

        await Keep(fields, ct);
        return Page();
    }

    /// <summary>Saves and throws the draft away; refused, the draft is kept. Where somebody saved in between, she chooses field by field.</summary>
    protected async Task<bool> SaveDrafted(Func<Task<(Guid Garment, long Position)>> write, CancellationToken ct, Together? together = null)
    {
        if (together is not null && !await TakeChoices(together, ct))
        {
            await Keep(Posted, ct);
            return false;
        }

        var opened = Version;
        if (await Save(write))
        {
            await drafts.Forget(Who, Draft.Form, CancellationToken.None);
            return true;
        }

        await Keep(Posted, ct);
        if (Differs is not null && together is not null && await together.Look(Form, opened, Version, ct) is { } merge)
        {
            // The form stays one of the version that was opened, so that a draft taken up later is asked again.
            (Merge, Version) = (merge, opened);
        }

        return false;
    }

    // Puts the other's in the form where she chose so; false when a field that both have changed has no choice yet.
    private async Task<bool> TakeChoices(Together together, CancellationToken ct)
    {
        if (!long.TryParse(Request.Form["seen"], NumberStyles.None, CultureInfo.InvariantCulture, out var seen) || await together.Look(Form, Version, seen, ct) is not { } merge)
        {
            return true;
        }

        merge = merge with { Chosen = merge.Met.Select(m => (m.Path, Choice: Request.Form[MergeView.Take + m.Path].ToString())).Where(c => c.Choice is MergeView.Mine or MergeView.Theirs).ToDictionary(c => c.Path, c => c.Choice) };
        var unchosen = merge.Met.Where(m => merge.Choice(m) is null).Select(m => m.Path).ToList();
        if (unchosen.Count > 0)
        {
            Merge = merge with { Unchosen = unchosen };
            Response.StatusCode = StatusCodes.Status412PreconditionFailed;
            return false;
        }

        foreach (var met in merge.Met.Where(m => merge.Choice(m) == MergeView.Theirs))
        {
            Form.Replace(met.Path, met.Now);
        }

        Version = seen;
        return true;
    }

    /// <summary>Keeps fields as the draft's next step.</summary>
    protected async Task Keep(JsonObject fields, CancellationToken ct) =>
        Draft = Draft with { Kept = await drafts.Keep(Who, Draft.Form, fields, ct) };

    private static JsonObject Values(JsonObject fields, RecordType shape) => FormReader.Read(
        fields.Where(f => f.Value is JsonValue).Select(f => KeyValuePair.Create(f.Key, new StringValues(f.Value!.ToString()))), shape, keepBlankRows: true);
}
