using System.Text.Json.Nodes;
using Marten;

namespace HeirloomArchive.Catalogue;

/// <summary>One change of many pieces at once, as it was asked for.</summary>
public sealed class ManyChange
{
    /// <summary>Of version 7: ids rise in the order of asking.</summary>
    public Guid Id { get; set; }

    public string Who { get; set; } = "";

    public DateTimeOffset When { get; set; }

    /// <summary>As it was sent, without the pieces: <c>{"change":{…},"tags":{"add":[…],"remove":[…]}}</c>.</summary>
    public JsonObject Asked { get; set; } = [];

    /// <summary>How many pieces it is for.</summary>
    public int Total { get; set; }

    /// <summary>Whether something of it, or of its undoing, is still to be done.</summary>
    public bool Open { get; set; } = true;

    /// <summary>When it was to be undone; null if never.</summary>
    public DateTimeOffset? Undoing { get; set; }
}

/// <summary>What became of one piece.</summary>
public enum ManyOutcome
{
    /// <summary>Its turn is still to come.</summary>
    Waiting,

    /// <summary>It was changed by one event.</summary>
    Changed,

    /// <summary>It was so already.</summary>
    Same,

    /// <summary>It is set aside and takes no change.</summary>
    Aside,

    /// <summary>The change makes no sense for it; the reason says why.</summary>
    Refused,

    /// <summary>The whole was undone before its turn came.</summary>
    Stopped,

    /// <summary>It is as it was before.</summary>
    Undone,

    /// <summary>It was changed since, so undoing left it alone; the reason names the fields.</summary>
    ChangedSince,
}

/// <summary>One piece of a change of many; saved together with the piece's event.</summary>
public sealed class ManyPiece
{
    /// <summary>The change's id and the piece's place in it.</summary>
    public string Id { get; set; } = "";

    public Guid Many { get; set; }

    public Guid Garment { get; set; }

    public ManyOutcome Outcome { get; set; }

    /// <summary>Why it was left as it was.</summary>
    public string? Why { get; set; }

    /// <summary>The fields that were changed, as they were.</summary>
    public JsonObject? Before { get; set; }

    /// <summary>The same as they were made; null where one was taken away.</summary>
    public JsonObject? After { get; set; }
}

internal static class ManyStore
{
    /// <summary>The header of an event that is one of many: the change's id.</summary>
    public const string Header = "many";

    public static void Configure(StoreOptions o)
    {
        o.Schema.For<ManyChange>().Duplicate(m => m.Open);
        o.Schema.For<ManyPiece>().Duplicate(p => p.Many).Duplicate(p => p.Outcome).Index(p => new { p.Many, p.Outcome, p.Id });
    }
}
