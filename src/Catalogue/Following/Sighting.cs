using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>One time a piece was looked over.</summary>
/// <param name="Entry">The examination as recorded.</param>
/// <param name="Date">Its first day; null if it is not dated.</param>
/// <param name="Place">Where it stands among all that was looked at: odd, rising.</param>
public sealed record Examined(JsonObject Entry, DateOnly? Date, int Place)
{
    /// <summary>The examination's id.</summary>
    public string Id { get; } = Entry["id"]?.ToString() ?? "";
}

/// <summary>One finding of <c>condition</c>: how something looked on one day.</summary>
/// <param name="Entry">The finding as recorded.</param>
/// <param name="Examined">The examination it belongs to: the one it names, or else one of its date; null if there is none.</param>
/// <param name="Place">Where it stands among the examinations: that of its own, an even number for between them; 0 if it is not dated.</param>
public sealed record Sighting(JsonObject Entry, Examined? Examined, int Place)
{
    private static readonly string[] Severities = ["slight", "moderate", "severe"];
    private static readonly string[] Attentions = ["none", "watch", "soon", "before-handling"];

    /// <summary>The most a sighting can ask for: to be seen to before the piece is handled.</summary>
    public static int MostUrgent { get; } = Attentions.Length - 1;

    /// <summary>The finding's id.</summary>
    public string Id { get; } = Entry["id"]?.ToString() ?? "";

    /// <summary>When it was seen: its own first day, or its examination's; null if neither is dated.</summary>
    public DateOnly? Date { get; } = Days.First(Entry["date"]) ?? Examined?.Date;

    /// <summary>1 slight, 2 moderate, 3 severe; null if not recorded.</summary>
    public int? Severity { get; } = Rank(Severities, Entry["severity"], 1);

    /// <summary>0 none, 1 watch, 2 soon, 3 before handling; null if not recorded.</summary>
    public int? Attention { get; } = Rank(Attentions, Entry["attention"], 0);

    /// <summary>How much of the piece, where its text can be read so.</summary>
    public Extent? Extent { get; } = Extent.Read(Entry["extent"]?.ToString());

    /// <summary>Whether it was said to be getting worse; null if nothing was said.</summary>
    public bool? GettingWorse { get; } = Entry["trend"]?.ToString() is { } trend ? trend == "getting-worse" : null;

    /// <summary>Whether it was ended.</summary>
    public bool IsEnded { get; } = Entry["ended"] is not null;

    /// <summary>The first day on which it was over; null if it is not, or that is not dated.</summary>
    public DateOnly? EndedOn { get; } = Days.First(Entry["ended"]?["date"]);

    /// <summary>The slug of an urgency.</summary>
    public static string AttentionOf(int urgency) => Attentions[urgency];

    /// <summary>
    /// How it stands to an earlier sighting: above 0 for worse, below 0 for better, 0 for the same as far as was told.
    /// What was judged (severity) counts before what was measured (extent), and that before what was said of its trend.
    /// </summary>
    public int Against(Sighting earlier)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        var judged = Severity is { } now && earlier.Severity is { } then ? now.CompareTo(then) : 0;
        var measured = judged != 0 ? judged : Extent?.Against(earlier.Extent) ?? 0;
        return measured != 0 ? Math.Sign(measured) : GettingWorse == true ? 1 : 0;
    }

    private static int? Rank(string[] values, JsonNode? value, int first) =>
        value is not null && Array.IndexOf(values, value.ToString()) is >= 0 and var place ? place + first : null;
}
