using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Npgsql;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>Pictures that still lack words, one after another.</summary>
public sealed class UntaggedModel(Archive archive, IndexFollower index, IDocumentStore documents, NpgsqlDataSource database) : FormPage(archive, index)
{
    private const int Around = 12;

    private IReadOnlyList<LackingPicture> all = [];
    private int place;
    private bool refused;

    /// <summary>How many lack a view or a tag, in all pieces.</summary>
    public long Total { get; private set; }

    /// <summary>The tags there are, to choose from.</summary>
    public IReadOnlyList<string> Tags { get; private set; } = [];

    /// <summary>The one to be described now; null when none is left.</summary>
    public LackingPicture? Now => place < all.Count ? all[place] : null;

    /// <summary>The one after it.</summary>
    public string? Next => place + 1 < all.Count ? all[place + 1].Id : null;

    /// <summary>Those that come next.</summary>
    public IEnumerable<LackingPicture> Coming => all.Skip(place).Take(Around);

    /// <summary>A view as it is typed and shown.</summary>
    // In English, as it is read again when it is sent.
    public string View => refused ? Form.Text("view") : Now?.Entry["view"] is { } view ? view is JsonValue slug ? Words.Label("views", slug.ToString()) : Say.Word("views", view) : "";

    public async Task OnGet(Guid? at, CancellationToken ct) => await Load(at, ct);

    public async Task<IActionResult> OnPost(Guid piece, Guid picture, long version, string? caption, string? view, string? tags, string? next, CancellationToken ct)
    {
        static JsonNode? Said(string? text) => string.IsNullOrWhiteSpace(text) ? null : JsonValue.Create(text.Trim());
        var words = (tags ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Distinct().ToList();
        var entry = new JsonObject
        {
            ["caption"] = Said(caption?.ReplaceLineEndings("\n")),
            ["view"] = string.IsNullOrWhiteSpace(view) ? null : UploadMetadata.ViewOf(view.Trim()),
            ["tags"] = words.Count == 0 ? null : new JsonArray([.. words.Select(w => JsonValue.Create(w))]),
        };
        foreach (var blank in entry.Where(e => e.Value is null).Select(e => e.Key).ToList())
        {
            entry.Remove(blank);
        }

        if (await Save(async () => (piece, (await Archive.PutEntry(piece, version, "pictures", picture, entry, Who, ct)).Position)))
        {
            return Redirect(Guid.TryParse(next, out var then) ? $"/pictures/untagged?at={then}" : "/pictures/untagged");
        }

        var (faults, now) = (Form.Faults, Version);
        await Load(picture, ct);
        if (Now?.Id != picture.ToString())
        {
            await Keep(piece, picture, ct);
        }

        (refused, Form) = (true, new(new JsonObject { ["caption"] = caption, ["view"] = view, ["tags"] = tags }) { Faults = faults });
        Version = now > 0 ? now : Version;
        return Page();
    }

    // It may have got its words from somebody else meanwhile: what was typed is still about this picture, and about no other.
    private async Task Keep(Guid piece, Guid picture, CancellationToken ct)
    {
        var garment = await Archive.Find(piece, ct);
        var entry = garment?.State()["pictures"]!.AsArray().OfType<JsonObject>().FirstOrDefault(p => p["id"]!.ToString() == picture.ToString());
        (all, place) = ([new(garment!, entry ?? throw new NotFoundException($"The picture {picture} is not there any more.")), .. all], 0);
        Version = garment!.Version;
    }

    private async Task Load(Guid? at, CancellationToken ct)
    {
        all = await LackingPictures.Find(documents, ct);
        (Total, Tags) = (await LackingPictures.Count(database, ct), await LackingPictures.Tags(database, ct));
        place = at is null ? 0 : all.TakeWhile(p => p.Id != at.ToString()).Count();
        if (place == all.Count)
        {
            place = 0;
        }

        Version = Now?.Garment.Version ?? 0;
        Form = new(Now?.Entry.DeepClone().AsObject() ?? []);
    }
}
