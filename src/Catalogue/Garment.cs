using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using JasperFx.Events;
using Marten.Events.Aggregation;

namespace HeirloomArchive.Catalogue;

/// <summary>One garment as it stands now: the inline snapshot of its event stream.</summary>
public sealed class Garment
{
    /// <summary>The stream's id; of version 7, so that ids rise in the order of entry.</summary>
    public Guid Id { get; set; }

    /// <summary>The stream's version: the number of its events. The API's <c>ETag</c>.</summary>
    public long Version { get; set; }

    /// <summary>The global position (event sequence) of its last event.</summary>
    public long Position { get; set; }

    /// <summary>When its last event happened.</summary>
    public DateTimeOffset Changed { get; set; }

    /// <summary>When and by whom it was set aside; null if it is not.</summary>
    public SetAside? Aside { get; set; }

    /// <summary>Whether it is set aside: it leaves lists and search.</summary>
    public bool IsAside => Aside is not null;

    /// <summary>What the lists of care ask, worked out with each event.</summary>
    public CareNote Care { get; set; } = CareNote.Nothing;

    /// <summary>Whether it is shown to visitors: a decision of its own.</summary>
    public bool IsForVisitors { get; set; }

    /// <summary>All that is recorded, as it is kept: nothing computed, no empty list.</summary>
    public JsonObject Fields { get; set; } = [];

    /// <summary>Its number as she writes it, or null.</summary>
    [JsonIgnore]
    public string? Number => Fields["number"]?.GetValue<string>();

    /// <summary>Its name.</summary>
    [JsonIgnore]
    public string Name => Fields["name"]?.GetValue<string>() ?? "";

    /// <summary>The state as the API answers it, as far as <see cref="Viewer.Now"/> may see it: in the order of the table; lists always there, absent fields left out. A new object.</summary>
    public JsonObject State()
    {
        var viewer = Viewer.Now;
        if (viewer.Sight.SeesPrivate(Fields))
        {
            viewer.Saw(Id);
        }

        return State(viewer.Sight);
    }

    /// <summary>The same, as far as a sight goes.</summary>
    public JsonObject State(Sight sight)
    {
        var state = new JsonObject
        {
            ["id"] = Id.ToString(),
            ["version"] = Version,
            ["setAside"] = Aside is { } aside ? new JsonObject { ["when"] = Moment.Text(aside.When), ["who"] = aside.Who } : null,
        };
        var shown = GarmentShape.Garment.Present(Fields).AsObject();
        foreach (var name in shown.Select(m => m.Key).ToList())
        {
            var value = shown[name];
            shown.Remove(name);
            state[name] = value;
        }

        return sight.Trim(state);
    }

    internal Garment Copy() =>
        new() { Id = Id, Version = Version, Position = Position, Changed = Changed, Aside = Aside, IsForVisitors = IsForVisitors, Care = Care, Fields = Fields.DeepClone().AsObject() };
}

/// <summary>When a garment was set aside, and by whom.</summary>
public sealed record SetAside(DateTimeOffset When, string? Who);

/// <summary>Folds the events of a stream into its garment.</summary>
public sealed class GarmentProjection : SingleStreamProjection<Garment, Guid>
{
    /// <inheritdoc />
    public override Garment? Evolve(Garment? snapshot, Guid id, IEvent e) => After(snapshot, id, e);

    internal static Garment After(Garment? before, Guid id, IEvent e)
    {
        var garment = before ?? new Garment();
        garment.Id = id;
        garment.Version = e.Version;
        garment.Position = e.Sequence;
        garment.Changed = e.Timestamp;
        garment.Aside = e.Data switch
        {
            GarmentSetAside => new SetAside(e.Timestamp, e.UserName),
            GarmentBroughtBack => null,
            _ => garment.Aside,
        };
        garment.IsForVisitors = e.Data switch
        {
            GarmentShownToVisitors => true,
            GarmentHiddenFromVisitors => false,
            _ => garment.IsForVisitors,
        };
        Folding.Apply(garment.Fields, e.Data);
        garment.Care = CareNote.Of(garment);
        return garment;
    }
}
