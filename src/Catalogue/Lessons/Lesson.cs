using System.Text.Json.Nodes;
using System.Text.Json.Serialization;

namespace HeirloomArchive.Catalogue.Lessons;

/// <summary>Whether a worksheet is there; another room keeps them.</summary>
public delegate Task<bool> WorksheetIsThere(Guid id, CancellationToken ct);

/// <summary>A lesson as it stands: a named, ordered set of entries that point into the record.</summary>
public sealed class Lesson
{
    /// <summary>Of version 7, so that ids rise in the order of making.</summary>
    public Guid Id { get; set; }

    /// <summary>Counts its changes from 1. The API's <c>ETag</c>.</summary>
    public long Version { get; set; }

    /// <summary>When and by whom it was taken away; null while it is there.</summary>
    public SetAside? Away { get; set; }

    /// <summary>Whether it is taken away: it leaves the list until it is brought back.</summary>
    public bool IsAway => Away is not null;

    /// <summary>Whether those who do not teach see it too.</summary>
    public bool IsShared => Fields["shared"] is not null;

    /// <summary>When it was last changed.</summary>
    public DateTimeOffset Changed { get; set; }

    /// <summary>All of it by <see cref="LessonShape"/>; nothing absent, no empty list.</summary>
    public JsonObject Fields { get; set; } = [];

    /// <summary>Its name.</summary>
    [JsonIgnore]
    public string Name => Fields["name"]?.GetValue<string>() ?? "";

    /// <summary>Its entries in their order.</summary>
    [JsonIgnore]
    public IReadOnlyList<JsonObject> Entries => [.. (Fields["entries"] as JsonArray ?? []).OfType<JsonObject>()];

    /// <summary>The times it was given, as they were written down.</summary>
    [JsonIgnore]
    public IReadOnlyList<JsonObject> Given => [.. (Fields["given"] as JsonArray ?? []).OfType<JsonObject>()];

    /// <summary>As the API answers it to <see cref="Viewer.Now"/>. A new object.</summary>
    public JsonObject State()
    {
        var state = new JsonObject { ["id"] = Id.ToString(), ["version"] = Version };
        foreach (var (name, value) in LessonShape.Seen(Fields))
        {
            state[name] = value?.DeepClone();
        }

        state["shared"] ??= false;
        return state;
    }
}

/// <summary>A lesson as it was at one version: each is kept when it is made, in the same transaction, and never changed.</summary>
public sealed class LessonVersion
{
    /// <summary>The lesson's id and the version: there can't be two.</summary>
    public string Id { get; set; } = "";

    /// <summary>Whose.</summary>
    public Guid Lesson { get; set; }

    /// <summary>Which.</summary>
    public long Version { get; set; }

    /// <summary>When it was made.</summary>
    public DateTimeOffset When { get; set; }

    /// <summary>By whom.</summary>
    public string Who { get; set; } = "";

    /// <summary>What was done: <c>made, changed, added to, taken away, brought back</c>.</summary>
    public string What { get; set; } = "";

    /// <summary>All of it then.</summary>
    public JsonObject Fields { get; set; } = [];
}

/// <summary>What an entry of a lesson shows.</summary>
/// <param name="Entry">The lesson's entry.</param>
/// <param name="Piece">Its piece, as the API answers it; null for a worksheet.</param>
/// <param name="List">The list of the record where <paramref name="What"/> stands; empty for the whole piece and for a worksheet.</param>
/// <param name="What">The technique, repair, finding or picture, as it stands or as it last stood; null for the whole piece and for a worksheet.</param>
/// <param name="Gone">Whether it has been taken out of the record since.</param>
public sealed record Shown(JsonObject Entry, JsonObject? Piece, string List, JsonObject? What, bool Gone);
