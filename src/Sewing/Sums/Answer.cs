using System.ComponentModel;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing.Drawing;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>One figure of an answer.</summary>
/// <param name="Name">In the API, in camel case.</param>
/// <param name="Label">On the page.</param>
/// <param name="Value">A <see cref="Length"/>, <see cref="int"/>, <see cref="long"/>, <see cref="decimal"/>, <see cref="bool"/>, text, or null for none.</param>
/// <param name="Note">A few words beside it; may be empty.</param>
/// <param name="InUnit">The unit a length is shown in where it is not the answer's; null: the answer's.</param>
public sealed record Figure(string Name, string Label, object? Value, string Note = "", LengthUnit? InUnit = null);

/// <summary>A column of a table.</summary>
/// <param name="Name">In the API, in camel case.</param>
/// <param name="Label">On the page.</param>
public sealed record Column(string Name, [Localizable(true)] string Label);

/// <summary>A table of an answer; the first column names its rows.</summary>
/// <param name="Name">In the API, in camel case: a list of objects.</param>
/// <param name="Caption">On the page.</param>
/// <param name="Columns">What each row has.</param>
/// <param name="Rows">Values as those of a <see cref="Figure"/>, one for each column; a length with its unit, as a pair, is shown in that.</param>
public sealed record Table(string Name, string Caption, IReadOnlyList<Column> Columns, IReadOnlyList<IReadOnlyList<object?>> Rows);

/// <summary>Something to know beside the figures.</summary>
/// <param name="Text">A sentence or two.</param>
/// <param name="Source">Where it is read; null for plain geometry or common practice, which the text then says.</param>
public sealed record Note(string Text, string? Source = null);

/// <summary>What a sum comes to: figures and tables by name, notes with their sources, cautions, and the drawing of the same plan.</summary>
/// <param name="unit">The unit in which lengths are shown: that of the first length sent.</param>
/// <remarks>Its words are those of the reader's language: a text given here whole is translated, one with values in it comes through <c>T</c>, and so do words among the values.</remarks>
public sealed class Answer(LengthUnit unit)
{
    private readonly List<Figure> figures = [];
    private readonly List<Table> tables = [];
    private readonly List<Note> notes = [];
    private readonly List<TuckCaution> cautions = [];
    private readonly List<Panel> panels = [];

    /// <summary>The unit in which lengths are shown.</summary>
    public LengthUnit Unit => unit;

    /// <summary>The figures, the one she came for first.</summary>
    public IReadOnlyList<Figure> Figures => figures;

    /// <summary>The tables.</summary>
    public IReadOnlyList<Table> Tables => tables;

    /// <summary>What to know, with sources.</summary>
    public IReadOnlyList<Note> Notes => notes;

    /// <summary>What to mind; the answer stands all the same.</summary>
    public IReadOnlyList<TuckCaution> Cautions => cautions;

    /// <summary>The strips of the drawing; none when there is nothing to draw.</summary>
    public IReadOnlyList<Panel> Panels => panels;

    /// <summary>What the drawing shows, in words.</summary>
    public string Shows { get; private set; } = "";

    /// <summary>Adds a figure.</summary>
    public Answer Figure(string name, [Localizable(true)] string label, object? value, [Localizable(true)] string note = "", LengthUnit? inUnit = null)
    {
        figures.Add(new(name, T(label), value, T(note), inUnit));
        return this;
    }

    /// <summary>Adds a table.</summary>
    public Answer Table(string name, [Localizable(true)] string caption, IReadOnlyList<Column> columns, IEnumerable<IReadOnlyList<object?>> rows)
    {
        tables.Add(new(name, T(caption), [.. columns.Select(c => c with { Label = T(c.Label) })], [.. rows]));
        return this;
    }

    /// <summary>Adds a note.</summary>
    public Answer Note([Localizable(true)] string text, [Localizable(true)] string? source = null)
    {
        notes.Add(new(T(text), source is null ? null : T(source)));
        return this;
    }

    /// <summary>Adds a caution.</summary>
    public Answer Caution(string code, [Localizable(true)] string text)
    {
        cautions.Add(new(code, T(text)));
        return this;
    }

    /// <summary>Sets the drawing.</summary>
    /// <param name="shows">What it shows, in words.</param>
    /// <param name="strips">One below the other.</param>
    public Answer Drawn([Localizable(true)] string shows, params IEnumerable<Panel> strips)
    {
        Shows = T(shows);
        panels.AddRange(strips);
        return this;
    }

    /// <summary>The answer of the route: every figure and table by its name, <c>notes</c>, <c>cautions</c>.</summary>
    public JsonObject ToJson()
    {
        var json = new JsonObject();
        foreach (var figure in figures)
        {
            json[figure.Name] = Json(figure.Value, figure.InUnit);
        }

        foreach (var table in tables)
        {
            json[table.Name] = new JsonArray([.. table.Rows.Select(row =>
                new JsonObject(table.Columns.Select((c, i) => KeyValuePair.Create(c.Name, Json(row[i])))))]);
        }

        json["notes"] = new JsonArray([.. notes.Select(n => new JsonObject { ["text"] = n.Text, ["source"] = n.Source })]);
        json["cautions"] = new JsonArray([.. cautions.Select(c => new JsonObject { ["code"] = c.Code, ["text"] = c.Text })]);
        return json;
    }

    /// <summary>A value as the page shows it.</summary>
    public string Say(object? value, LengthUnit? inUnit = null) => value switch
    {
        null => "–",
        Length length => length.ToText(inUnit ?? unit),
        (Length length, LengthUnit own) => length.ToText(own),
        decimal number => number.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture),
        bool yes => yes ? T("yes") : T("no"),
        IFormattable number => number.ToString(null, System.Globalization.CultureInfo.InvariantCulture),
        _ => value.ToString()!,
    };

    private JsonNode? Json(object? value, LengthUnit? inUnit = null) => value switch
    {
        null => null,
        Length length => LengthJson.Write(length, inUnit ?? unit),
        (Length length, LengthUnit own) => LengthJson.Write(length, own),
        int number => JsonValue.Create(number),
        long number => JsonValue.Create(number),
        decimal number => JsonValue.Create(number),
        bool yes => JsonValue.Create(yes),
        _ => JsonValue.Create(value.ToString()),
    };
}
