using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets;

/// <summary>A printer whose 50 mm control mark she has measured.</summary>
public sealed class Printer
{
    private static readonly Length Mark = Length.FromMillimetres(50), Least = Length.FromMillimetres(40), Most = Length.FromMillimetres(60);

    public Guid Id { get; set; }

    public string Name { get; set; } = "";

    /// <summary>What the 50 mm mark measured, in nanometres.</summary>
    public long Nanometres { get; set; }

    /// <summary>The same as she typed it.</summary>
    public string Typed { get; set; } = "";

    /// <summary>Reads <c>{"name","measured"}</c>.</summary>
    /// <exception cref="FaultException">A name or a measure is missing, or the measure is not near 50 mm.</exception>
    public static Printer Read(JsonObject body)
    {
        List<Fault> faults = [];
        var reader = new StrictReader(body, "", faults);
        var (name, before) = (reader.Text("name", 100), faults.Count);
        if (name is null && before == 0)
        {
            reader.Senseless("name", T("The printer needs a name, as in “the one in the sewing room”."));
        }

        before = faults.Count;
        var measured = reader.Length("measured");
        if (faults.Count == before && (measured is not { } m || m.Length < Least || m.Length > Most))
        {
            reader.Senseless("measured", T("Give what the 50 mm mark measured on paper, from 40 mm to 60 mm."));
        }

        reader.RefuseTheRest();
        return faults.Count == 0
            ? new Printer { Id = Guid.CreateVersion7(), Name = name!, Nanometres = measured!.Value.Length.Nanometres, Typed = measured.Value.Text }
            : throw new FaultException(faults);
    }

    /// <summary>By how much to draw longer, so that this printer prints it true.</summary>
    public double Stretch() => (double)Mark.Nanometres / Nanometres;

    public JsonObject ToJson() => new()
    {
        ["id"] = Id,
        ["name"] = Name,
        ["measured"] = LengthJson.Write(Length.FromNanometres(Nanometres), Typed),
    };
}
