using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>The list of all as it is asked for in the address: which pieces, in which order, as what. What makes no sense counts as not asked.</summary>
public sealed record ListAsked(ListQuestion Question, bool AsTable, IReadOnlyList<string> Columns, string Sort, bool Down)
{
    /// <summary>The name of the cookie that keeps how she looks at it.</summary>
    public const string Cookie = "heirloom-list";

    /// <summary>What the address says, else what she chose last, else tiles, the newest first.</summary>
    public static ListAsked Of(HttpRequest request)
    {
        var kept = Preference.Read(request, Cookie)?.Split(':', 2) ?? [];
        var view = Text(request, "as") ?? kept.ElementAtOrDefault(0);
        var chosen = Known(request.Query["columns"]);
        var columns = chosen.Count > 0 ? chosen : Known(kept.ElementAtOrDefault(1)?.Split('.') ?? []);
        var sort = Text(request, "sort") is { } asked && PieceList.Sorts.Contains(asked) ? asked : "entered";
        return new(QuestionOf(request), view == "table", columns.Count > 0 ? columns : PieceColumn.AtFirst, sort, request.Query["down"] == "true" || (sort == "entered" && request.Query["down"] != "false"));
    }

    /// <summary>Which pieces the address asks for.</summary>
    public static ListQuestion QuestionOf(HttpRequest request) => new(
        Text(request, "has"), Text(request, "kind"), Text(request, "overall"), Text(request, "handling"), Text(request, "whereabouts"), Text(request, "place"), Text(request, "tag"));

    /// <summary>What a browser keeps of it.</summary>
    public string Kept => $"{(AsTable ? "table" : "tiles")}:{string.Join('.', Columns)}";

    /// <summary>The address of one page of it.</summary>
    public string To(int number = 1) => Address([.. Parts, .. number > 1 ? [("number", $"{number}")] : Array.Empty<(string, string)>()]);

    /// <summary>The same sorted by a column; the other way round where it is already.</summary>
    public string SortedBy(string column) => (this with { Sort = column, Down = Sort == column && !Down }).To();

    /// <summary>The same as a table or as tiles.</summary>
    public string As(bool table) => (this with { AsTable = table }).To();

    /// <summary>Everything of it, as the address has it.</summary>
    public IReadOnlyList<(string Name, string Value)> Parts =>
    [
        ("as", AsTable ? "table" : "tiles"), .. Question.Parts, .. Sort == "entered" && Down ? [] : new[] { ("sort", Sort), ("down", Down ? "true" : "false") },
        .. AsTable ? Columns.Select(c => ("columns", c)) : [],
    ];

    internal static string Address(IEnumerable<(string Name, string Value)> parts, string path = "/pieces") =>
        path + string.Concat(parts.Select((p, i) => $"{(i == 0 ? '?' : '&')}{p.Name}={Uri.EscapeDataString(p.Value)}"));

    private static List<string> Known(IEnumerable<string?> names)
    {
        var asked = names.ToHashSet();
        return [.. PieceColumn.All.Select(c => c.Name).Where(asked.Contains)];
    }

    private static string? Text(HttpRequest request, string name)
    {
        var text = string.Concat(request.Query[name].ToString().Where(c => !char.IsControl(c))).Trim();
        return text.Length == 0 ? null : text.Length > 300 ? text[..300] : text;
    }
}
