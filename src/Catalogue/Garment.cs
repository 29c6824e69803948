using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>One garment as it stands now: the inline snapshot of its event stream.</summary>
public sealed class Garment
{
    /// <summary>The stream's id.</summary>
    public Guid Id { get; set; }

    /// <summary>The stream's version: the number of its events. The API's <c>ETag</c>.</summary>
    public long Version { get; set; }

    /// <summary>All that is recorded, in the shape the API shows it (lengths as <c>{"mm","text"}</c>).</summary>
    public JsonObject Fields { get; set; } = [];
}
