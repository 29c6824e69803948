using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;
using HeirloomArchive.Worksheets.Making;

namespace HeirloomArchive.Worksheets;

/// <summary>What came of a worksheet when she sewed it. Kept beside the worksheet, which never changes.</summary>
public sealed class MadeUp
{
    private static readonly DateOnly Earliest = new(1850, 1, 1);

    /// <summary>Its own id; a worksheet can be sewn several times.</summary>
    public Guid Id { get; set; }

    public Guid Worksheet { get; set; }

    /// <summary>The day, as <c>2026-11-25</c>.</summary>
    public string Date { get; set; } = "";

    /// <summary>The cloth it was sewn in, in her words; empty for the cloth of the worksheet.</summary>
    public string Cloth { get; set; } = "";

    /// <summary>What it measured when sewn and pressed, without allowances, in nanometres.</summary>
    public long Nanometres { get; set; }

    /// <summary>The same as she typed it.</summary>
    public string Typed { get; set; } = "";

    public string Note { get; set; } = "";

    /// <summary>A picture of the archive that shows it, or null.</summary>
    public Guid? Picture { get; set; }

    /// <summary>Reads <c>{"date","cloth","finished","note","picture"}</c> against the worksheet's plan.</summary>
    /// <exception cref="FaultException">The date or the measure is missing, can't be read, or can't come from this cloth.</exception>
    public static MadeUp Read(JsonObject body, Worksheet worksheet, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        List<Fault> faults = [];
        var reader = new StrictReader(body, "", faults);
        var date = Day(reader, faults, today);
        var before = faults.Count;
        var finished = reader.Length("finished", nothingServes: false);
        if (finished is null && faults.Count == before)
        {
            reader.Senseless("finished", T("What did it measure when sewn and pressed, from start to end?"));
        }

        var had = MadeUpSum.Available(worksheet.Result);
        if (finished is { } measured && MadeUpSum.Tucks(worksheet.Result) > 0 && measured.Length >= had)
        {
            reader.Senseless("finished", T($"“{measured.Text}” can't be: with its tucks sewn it must measure less than the {had.ToText(measured.Unit)} it was sewn from."));
        }

        var (cloth, note, picture) = (reader.Text("cloth", 200), reader.Text("note", 4000), reader.Text("picture", 100));
        Guid? id = null;
        if (picture is not null && (id = Guid.TryParse(picture, out var read) ? read : null) is null)
        {
            reader.Unreadable("picture", T($"“{picture}” is not the id of a picture."));
        }

        reader.RefuseTheRest();
        return faults.Count > 0 ? throw new FaultException(faults) : new MadeUp
        {
            Id = Guid.CreateVersion7(),
            Worksheet = worksheet.Id,
            Date = date!,
            Cloth = cloth ?? "",
            Nanometres = finished!.Value.Length.Nanometres,
            Typed = finished.Value.Text,
            Note = note ?? "",
            Picture = id,
        };
    }

    /// <summary>
    /// What she entered, and beside it <c>planned</c>, <c>difference</c> (measured less planned), <c>perTuck</c>, the correction it
    /// comes to and <c>testStrip</c>, ready to be sent to <c>corrected</c>; null, with <c>why</c>, where it can be none.
    /// </summary>
    public JsonObject ToJson(Worksheet worksheet)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        var unit = Length.UnitOf(Typed);
        var measured = Length.FromNanometres(Nanometres);
        var sum = MadeUpSum.Of(worksheet.Result, measured);
        JsonObject? L(Length? length) => length is { } l ? LengthJson.Write(l, unit) : null;
        return new JsonObject
        {
            ["id"] = Id,
            ["date"] = Date,
            ["cloth"] = Cloth.Length > 0 ? Cloth : null,
            ["finished"] = LengthJson.Write(measured, Typed),
            ["note"] = Note.Length > 0 ? Note : null,
            ["picture"] = Picture,
            ["planned"] = L(sum.Planned),
            ["difference"] = L(sum.Difference),
            ["perTuck"] = L(sum.PerTuck),
            ["correction"] = L(sum.Correction),
            ["testStrip"] = sum.Strip is { } strip
                ? new JsonObject { ["tucks"] = strip.Tucks, ["width"] = L(strip.Width), ["flat"] = L(strip.Flat), ["finished"] = L(strip.Finished) } : null,
            ["why"] = sum.Why,
            ["text"] = sum.Text(unit),
        };
    }

    private static string? Day(StrictReader reader, List<Fault> faults, DateOnly today)
    {
        var before = faults.Count;
        var text = reader.Text("date", 40);
        if (text is null)
        {
            if (faults.Count == before)
            {
                reader.Senseless("date", T("When was it sewn? Give the day, as in 2026-11-25."));
            }

            return null;
        }

        if (!DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            reader.Senseless("date", T($"“{text}” is not a day; write it as in 2026-11-25."));
        }
        else if (day < Earliest || day > today.AddDays(1))
        {
            reader.Senseless("date", day < Earliest ? T($"“{text}” lies too far back; give the day it was sewn.") : T($"“{text}” lies in the future; give the day it was sewn."));
        }

        return text;
    }
}
