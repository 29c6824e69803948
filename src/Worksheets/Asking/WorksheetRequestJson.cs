using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Asking;

/// <summary>Reads the body of <c>POST /api/worksheets</c>, strictly.</summary>
internal static class WorksheetRequestJson
{
    public static WorksheetRequest Read(JsonObject body)
    {
        List<Fault> faults = [];
        var reader = new StrictReader(body, "", faults);
        var request = new WorksheetRequest
        {
            Garment = Garment(reader),
            Techniques = Techniques(reader, faults, out var path),
            TechniquesPath = path,
            Onto = Inner(reader.Object("onto"), node => FitRequestJson.Read(node, "onto", onto: true), faults),
            Plan = Inner(reader.Object("plan"), node => TuckRunJson.Read(node, "plan"), faults),
            Sections = SectionsJson.Read(reader, faults),
            Mirrored = reader.YesNo("mirrored") ?? false,
            Paper = reader.Choice("paper", "A4", "letter") ?? "A4",
            Landscape = reader.YesNo("landscape") ?? false,
            Title = reader.Text("title", 200)?.ReplaceLineEndings(" "),
            Thread = reader.Text("thread", 200),
            Needle = reader.Text("needle", 200),
            Cloth = Cloth(reader.Object("cloth"), reader.PathOf("cloth"), faults),
            Allow = Allow(reader.Object("allow"), reader.PathOf("allow"), faults),
            Unit = reader.Choice("unit", "in16", "in32", "mm"),
            Sewn = reader.Choice("sewn", "hand", "machine"),
            Marking = reader.Choice("marking", "ruler", "gauge", "drawn-thread", "basting", "creasing"),
            Trims = Trims(reader.List("trims", 50), faults),
            Alike = reader.Count("alike", 1, 1000) ?? 1,
        };
        reader.Text("notes", 4000);
        SectionsJson.CheckKind(reader, request.Mirrored);
        if (request.Techniques.Count > 0 && request.Garment is null && !reader.Has("garment"))
        {
            reader.Senseless(path, T("A technique belongs to a garment; say which with “garment”."));
        }

        reader.RefuseTheRest();
        return faults.Count == 0 ? request : throw new FaultException(faults);
    }

    /// <summary>What Sewing reads; its faults are collected with ours.</summary>
    internal static T? Inner<T>(JsonObject? node, Func<JsonObject, T> read, List<Fault> faults)
        where T : class
    {
        try
        {
            return node is null ? null : read(node);
        }
        catch (FaultException e)
        {
            faults.AddRange(e.Faults);
            return null;
        }
    }

    /// <summary>The garment named, or null; a fault if it is not an id.</summary>
    public static Guid? GarmentOf(JsonObject body)
    {
        List<Fault> faults = [];
        var garment = Garment(new StrictReader(body, "", faults));
        return faults.Count == 0 ? garment : throw new FaultException(faults);
    }

    private static Guid? Garment(StrictReader reader)
    {
        if (reader.Text("garment", 100) is not { } text)
        {
            return null;
        }

        if (Guid.TryParse(text, out var id))
        {
            return id;
        }

        reader.Unreadable("garment", T($"“{text}” is not the id of a garment."));
        return null;
    }

    private static List<string> Techniques(StrictReader reader, List<Fault> faults, out string path)
    {
        var single = reader.Text("technique", 100);
        var list = reader.List("techniques", 50);
        path = single is null ? "techniques" : "technique";
        if (single is not null)
        {
            if (list is not null)
            {
                reader.Senseless("technique", T("Send “technique” for one or “techniques” for several, not both."));
            }

            return [single];
        }

        List<string> ids = [];
        for (var i = 0; i < (list?.Count ?? 0); i++)
        {
            if (list![i] is not JsonValue value || value.GetValueKind() != JsonValueKind.String)
            {
                faults.Add(new Fault($"techniques[{i}]", T($"{StrictReader.Shown(list[i])} is not the id of a technique."), FaultKind.Unreadable));
            }
            else if (ids.Contains(value.GetValue<string>()))
            {
                faults.Add(new Fault($"techniques[{i}]", T($"“{value.GetValue<string>()}” is named twice.")));
            }
            else
            {
                ids.Add(value.GetValue<string>());
            }
        }

        return ids;
    }

    private static Cloth Cloth(JsonObject? node, string path, List<Fault> faults)
    {
        if (node is null)
        {
            return new Cloth(null, null, null, null);
        }

        var reader = new StrictReader(node, path, faults);
        var cloth = new Cloth(
            reader.Text("word", 100), reader.Length("width", nothingServes: false), reader.Choice("foldsAlong", "warp", "weft"), reader.YesNo("shrunk"));
        reader.RefuseTheRest();
        return cloth;
    }

    private static Allowances Allow(JsonObject? node, string path, List<Fault> faults)
    {
        var reader = new StrictReader(node ?? [], path, faults);
        Length Of(string name) => reader.Length(name)?.Length ?? Length.Zero;
        var allow = new Allowances(Of("start"), Of("end"), Of("top"), Of("bottom"), Of("shaping"));
        reader.RefuseTheRest();
        return allow;
    }

    private static List<Trim> Trims(JsonArray? list, List<Fault> faults)
    {
        List<Trim> trims = [];
        for (var i = 0; i < (list?.Count ?? 0); i++)
        {
            if (list![i] is not JsonObject node)
            {
                faults.Add(new Fault($"trims[{i}]", T($"{StrictReader.Shown(list[i])} is not an object {{…}}."), FaultKind.Unreadable));
                continue;
            }

            var reader = new StrictReader(node, $"trims[{i}]", faults);
            var technique = reader.Text("technique", 100);
            var before = faults.Count;
            var edge = reader.Length("edge", nothingServes: false);
            if (edge is null && faults.Count == before)
            {
                reader.Senseless("edge", T("The length of the edge to be trimmed is missing."));
            }

            var (width, fullness, corners) = (reader.Length("width"), reader.Factor("fullness", 1, 20), reader.Count("corners", 0, 1000));
            reader.RefuseTheRest();
            if (edge is { } known)
            {
                trims.Add(new Trim(technique, known, width, fullness, corners ?? 0));
            }
        }

        return trims;
    }
}
