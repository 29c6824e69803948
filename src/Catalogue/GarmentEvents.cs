using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

// What can happen to a garment. Who and when are the event's metadata. These records are the stored form: an event type,
// once written, is read for ever. Never rename or retype a member; a new form is a new record and an upcast in CatalogueStore.
// Fields are whole values by name, as they are kept; null takes one away. "Also" holds what followed from the change
// elsewhere in the record: the overall state after an examination, references to an entry that is gone.

/// <summary>A piece came in, with everything that was sent.</summary>
public sealed record GarmentEntered(JsonObject Fields);

/// <summary>Fields were changed by a merge patch: only those that became another.</summary>
public sealed record GarmentChanged(JsonObject Fields);

/// <summary>An entry was added at the end of a list.</summary>
public sealed record EntryAdded(string List, JsonObject Entry, JsonObject? Also);

/// <summary>An entry was put in the place of the one with its id.</summary>
public sealed record EntryChanged(string List, JsonObject Entry, JsonObject? Also);

/// <summary>An entry was taken out.</summary>
public sealed record EntryRemoved(string List, Guid Entry, JsonObject? Also);

/// <summary>Pictures were uploaded.</summary>
public sealed record PicturesAdded(JsonArray Pictures);

/// <summary>The piece was set aside: entered by mistake.</summary>
public sealed record GarmentSetAside;

/// <summary>The piece was brought back.</summary>
public sealed record GarmentBroughtBack;

/// <summary>The piece was shown to visitors: what is meant for them of it, now and as it will be.</summary>
public sealed record GarmentShownToVisitors;

/// <summary>The piece was taken from the visitors' sight again.</summary>
public sealed record GarmentHiddenFromVisitors;

/// <summary>An earlier version was put back, or one field of it; carries the whole record as it then stood.</summary>
public sealed record VersionPutBack(long Version, string? Field, JsonObject Fields);
