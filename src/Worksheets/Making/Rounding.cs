using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>How positions are shown: each rounded by itself to what her ruler shows, the exact length kept beside it.</summary>
internal sealed class Rounding
{
    private readonly long step;

    private Rounding(string name, long step, LengthUnit unit, string words) => (Name, this.step, Unit, Words) = (name, step, unit, words);

    /// <summary><c>in16</c>, <c>in32</c> or <c>mm</c>.</summary>
    public string Name { get; }

    public LengthUnit Unit { get; }

    /// <summary>"in inches, to the nearest 1/16".</summary>
    public string Words { get; }

    /// <summary>The unit asked for; else that of the request's first length.</summary>
    public static Rounding Of(string? asked, LengthUnit unit) => (asked ?? (unit == LengthUnit.Millimetres ? "mm" : "in16")) switch
    {
        "mm" => new("mm", 1_000_000, LengthUnit.Millimetres, T("in whole millimetres")),
        "in32" => new("in32", 793_750, LengthUnit.Inches, T("in inches, to the nearest 1/32")),
        _ => new("in16", 1_587_500, LengthUnit.Inches, T("in inches, to the nearest 1/16")),
    };

    /// <summary>A position: exact <c>mm</c>, rounded <c>text</c> (a half goes up), with ≈ before it where rounding changed it.</summary>
    public JsonObject Shown(Length length) => LengthJson.Write(length, Rounded(length, step, Unit));

    /// <summary>The same in the other unit, as text: millimetres to a tenth, inches to 1/32.</summary>
    public string Beside(Length length) => Unit == LengthUnit.Inches
        ? Rounded(length, 100_000, LengthUnit.Millimetres)
        : Rounded(length, 793_750, LengthUnit.Inches);

    /// <summary>A length that is not marked on the cloth: as exact as its unit can say it.</summary>
    public JsonObject Exact(Length length) => LengthJson.Write(length, Unit);

    /// <summary>The same as text.</summary>
    public string Text(Length length) => length.ToText(Unit);

    /// <summary>The same with the other unit beside it: "2 1/4 in (57.2 mm)".</summary>
    public string Both(Length length) => $"{length.ToText(Unit)} ({Beside(length)})";

    private static string Rounded(Length length, long step, LengthUnit unit)
    {
        var rounded = Length.FromNanometres((length.Nanometres + (step / 2)) / step * step);
        return (rounded == length ? "" : "≈ ") + rounded.ToText(unit);
    }
}
