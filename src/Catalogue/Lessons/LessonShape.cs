using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue.Lessons;

/// <summary>The table of a lesson: every field of it, of its entries, and of the times it was given.</summary>
public static class LessonShape
{
    /// <summary>The most entries of one lesson.</summary>
    public const int MostEntries = 200;

    /// <summary>What an entry may show of its piece, and the list of the record where that stands.</summary>
    public static IReadOnlyDictionary<string, string> Lists { get; } = new Dictionary<string, string>
    {
        ["technique"] = "techniques", ["repair"] = "repairs", ["finding"] = "condition", ["picture"] = "pictures",
    };

    private static readonly TextType Line = new(300, lines: false);
    private static readonly TextType Lines = new(20_000, lines: true);
    private static readonly NumberType Sharps = new(0, 10_000, whole: true);
    private static readonly ListType Garments = new(new IdType("garments"), MostEntries);

    /// <summary>One entry: a garment or something of it, or a worksheet.</summary>
    public static RecordType Entry { get; } = new(
    [
        new("id", new IdType("")), new("garment", new IdType("garments")),
        .. Lists.Select(l => new Field(l.Key, new IdType(l.Value))), new("worksheet", new IdType("worksheets")),
        new("show", new ChoiceType("piece", "photograph", "sample")), new("note", Lines),
    ],
    ShowsOneThing);

    /// <summary>One time the lesson was given: what went out of the cupboard, and what came back.</summary>
    public static RecordType Given { get; } = new(
    [
        new("date", new DateType(span: false)), new("group", Line), new("out", Garments), new("back", Garments),
        new("needlesOut", Sharps), new("needlesBack", Sharps), new("changed", Lines),
    ]);

    /// <summary>The lesson; <c>id</c> and <c>version</c> stand beside it.</summary>
    public static RecordType Lesson { get; } = new(
    [
        new("name", Line), new("level", Line), new("time", Line), new("pupils", new NumberType(1, 500, whole: true)), new("eachNeeds", Lines),
        new("notes", Lines), new("shared", new FlagType()), new("entries", new ListType(Entry, MostEntries)), new("given", new ListType(Given, 500)),
    ],
    // Not shared is how a lesson begins: saying so is no change.
    (read, _, _) =>
    {
        if (JsonNode.DeepEquals(read["shared"], false))
        {
            read.Remove("shared");
        }
    });

    // What of a lesson is for those who teach.
    private static readonly string[] ForTeachers = ["notes", "given"];

    /// <summary>The fields that are hidden from <see cref="Viewer.Now"/>.</summary>
    internal static IReadOnlyList<string> Hidden => Viewer.Now.Sight.Teaching ? [] : ForTeachers;

    /// <summary>The fields as <see cref="Viewer.Now"/> may see them. A new object.</summary>
    public static JsonObject Seen(JsonObject fields)
    {
        var shown = Lesson.Present(fields).AsObject();
        foreach (var name in Hidden)
        {
            shown.Remove(name);
        }

        return shown;
    }

    private static void ShowsOneThing(JsonObject read, string path, ICollection<Fault> faults)
    {
        var named = Lists.Keys.Where(read.ContainsKey).ToList();
        var (garment, worksheet) = (read.ContainsKey("garment"), read.ContainsKey("worksheet"));
        if (!garment && !worksheet)
        {
            faults.Senseless(RecordType.At(path, "garment"), T($"An entry shows a piece or something of it, or a worksheet: send the id of one, such as {"{\"garment\":\"…\"}"}."));
        }
        else if (worksheet && (garment || named.Count > 0))
        {
            faults.Senseless(RecordType.At(path, "worksheet"), T($"An entry with a worksheet shows that alone; leave {(garment ? "garment" : named[0])} out, or make two entries."));
        }

        foreach (var more in named.Skip(1))
        {
            faults.Senseless(RecordType.At(path, more), T($"An entry shows one thing, and {named[0]} is there already; make an entry for each."));
        }
    }
}
