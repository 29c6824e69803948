namespace HeirloomArchive.Search;

/// <summary>The index's own fields; the others are named after the parameter that asks them.</summary>
internal static class Fields
{
    /// <summary>The garment's id, on every document of its block.</summary>
    public const string Garment = "gid";

    /// <summary>Says <see cref="Parent"/> on the last document of a block.</summary>
    public const string Kind = "doc";
    public const string Parent = "garment";

    /// <summary>The groups an entry is asked by.</summary>
    public const string Group = "group";

    /// <summary>Stems of the words: an entry's labels, or all that was said of a garment.</summary>
    public const string Text = "text";

    /// <summary>The same words not cut to their stems, for half-typed ones.</summary>
    public const string WholeWords = "words";

    /// <summary>Words of the trade as <c>facet/slug</c>.</summary>
    public const string Trade = "trade";

    /// <summary>Words of one's own on a garment, as <c>facet/what was typed</c>.</summary>
    public const string OwnText = "ownText";

    /// <summary>Every length of an entry or said of a garment, in nanometres.</summary>
    public const string Length = "length";

    public const string Name = "name";
    public const string Number = "number";
    public const string NumberTyped = "numberTyped";
    public const string Dated = "dated";
    public const string YearFrom = "yearFrom";
    public const string YearTo = "yearTo";
    public const string Picture = "picture";

    /// <summary>What a snippet is cut from.</summary>
    public const string Shown = "shown";

    /// <summary>How a technique is made, for comparing it with others.</summary>
    public const string Built = "built";

    /// <summary>An entry's id, and a garment's.</summary>
    public const string Entry = "entry";
    public const string Id = "id";

    public const string ByNumber = "byNumber";
    public const string ByName = "byName";
    public const string ById = "byId";
}
