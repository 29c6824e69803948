using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Asking;

/// <summary>Reads what lies side by side on a front, and which of the ways of asking was taken.</summary>
internal static class SectionsJson
{
    /// <summary>Most sections, of one half when mirrored.</summary>
    public const int Most = 50;

    private static readonly string[] Kinds = ["plan", "onto", "insertion"];

    public static List<AskedSection> Read(StrictReader whole, List<Fault> faults)
    {
        var list = whole.List("sections", Most);
        if (list is { Count: 0 })
        {
            whole.Senseless("sections", T("There must be at least one section."));
        }

        List<AskedSection> sections = [];
        for (var i = 0; i < (list?.Count ?? 0); i++)
        {
            var path = $"sections[{i}]";
            if (list![i] is not JsonObject node)
            {
                faults.Add(new Fault(path, T($"{StrictReader.Shown(list[i])} is not an object {{…}}."), FaultKind.Unreadable));
                continue;
            }

            var reader = new StrictReader(node, path, faults);
            var section = new AskedSection(
                reader.Text("technique", 100),
                WorksheetRequestJson.Inner(reader.Object("onto"), n => FitRequestJson.Read(n, $"{path}.onto", onto: true), faults),
                WorksheetRequestJson.Inner(reader.Object("plan"), n => TuckRunJson.Read(n, $"{path}.plan"), faults),
                Insertion(reader.Object("insertion"), $"{path}.insertion", faults));
            OneKind(reader, path, faults);
            reader.RefuseTheRest();
            sections.Add(section);
        }

        return sections;
    }

    /// <summary>One of a single run, given or fitted, and sections; the fields of the others are refused.</summary>
    public static void CheckKind(StrictReader reader, bool mirrored)
    {
        if (reader.Has("sections"))
        {
            foreach (var name in ((string[])["onto", "plan", "technique", "techniques"]).Where(reader.Has))
            {
                reader.Senseless(name, T($"With “sections” there is no “{name}” beside them: each section has its own."));
            }

            return;
        }

        if (mirrored)
        {
            reader.Senseless("mirrored", T("Only “sections” are mirrored; a single run lies from-centre or towards-centre instead."));
        }

        switch (reader.Has("onto"), reader.Has("plan"))
        {
            case (true, true):
                reader.Senseless("plan", T("Send “onto” (to fit a width) or “plan” (all measures given), not both."));
                break;
            case (false, false):
                reader.Senseless("onto", T("Nothing says what to make: send “onto” (to fit a width), “plan” (all measures given) or “sections” (several things side by side)."));
                break;
        }
    }

    private static void OneKind(StrictReader reader, string path, List<Fault> faults)
    {
        var given = Kinds.Where(reader.Has).ToList();
        if (given.Count == 0)
        {
            faults.Add(new Fault(path, T("Nothing says what this section is: give one of plan, onto and insertion.")));
        }
        else if (given.Count > 1)
        {
            faults.Add(new Fault($"{path}.{given[1]}", T($"A section is one thing; “{given[0]}” is there already: put “{given[1]}” in a section of its own.")));
        }
    }

    private static AskedInsertion? Insertion(JsonObject? node, string path, List<Fault> faults)
    {
        if (node is null)
        {
            return null;
        }

        var reader = new StrictReader(node, path, faults);
        var before = faults.Count;
        var width = reader.Length("width", nothingServes: false);
        if (width is null && faults.Count == before)
        {
            reader.Senseless("width", T("How wide is the insertion?"));
        }

        var laidOn = reader.YesNo("laidOn") ?? true;
        reader.RefuseTheRest();
        return width is { } w ? new AskedInsertion(w, laidOn) : null;
    }
}
