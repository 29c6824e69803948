using System.Globalization;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Search;

/// <summary>The order of the answer.</summary>
public enum Sorting
{
    Relevance,
    Number,
    Name,
    Dated,
    Newest,
}

/// <summary>One thing asked.</summary>
/// <param name="Name">The parameter it came from; a width's two ends are one condition.</param>
/// <param name="Group">Whose entries it is asked of.</param>
/// <param name="Met">Lets through what meets it.</param>
internal sealed record Condition(string Name, Group Group, Sieve Met)
{
    /// <summary>A word parameter with its values, of which one must be met.</summary>
    public static Condition Of(Parameter parameter, IEnumerable<string> values) => new(parameter.Name, parameter.Group,
        Sieve.Of(parameter.Name, [.. values.Select(v => GarmentBlock.Term(parameter.Meant(v))).Distinct()]));
}

/// <summary>What was asked for, read from the parameters of an address.</summary>
public sealed class SearchRequest
{
    /// <summary>The most characters that may be typed.</summary>
    public const int LongestQ = 2_000;

    /// <summary>How far one may turn the pages, in garments.</summary>
    public const int Deepest = 10_000;

    /// <summary>The most values that all parameters together may have.</summary>
    public const int MostValues = 500;

    private static readonly string[] Spanning = ["from", "to", "decade", "widthFrom", "widthTo", "laceWidthFrom", "laceWidthTo"];
    private static readonly string[] Once = ["q", "tolerance", "page", "size", "sort", "seen"];

    private readonly Dictionary<string, List<string>> given = [];
    private readonly List<Fault> faults = [];
    private readonly List<Condition> conditions = [];

    private SearchRequest()
    {
    }

    /// <summary>What was typed in the one box; empty when nothing was.</summary>
    public string Q { get; private set; } = "";

    /// <summary>By how much a measure typed in <see cref="Q"/> may be missed either way.</summary>
    public Length Tolerance { get; private set; } = Length.Zero;

    /// <summary>The page, from 1, and its size.</summary>
    public int Page { get; private set; } = 1;
    public int Size { get; private set; } = 20;

    /// <summary>The order; without a word typed, relevance is the order of numbers.</summary>
    public Sorting Sort { get; private set; }

    /// <summary>The position of a write that the answer should know, or null.</summary>
    public long? Seen { get; private set; }

    internal IReadOnlyList<Condition> Conditions => conditions;

    /// <summary>Reads the parameters; empty ones count as not given, one given twice means either.</summary>
    /// <exception cref="FaultException">All that can't be read, each fault under its parameter's name.</exception>
    public static SearchRequest Read(IEnumerable<KeyValuePair<string, string?>> query)
    {
        var request = new SearchRequest();
        request.Take(query);
        return request.faults.Count == 0 ? request : throw new FaultException(request.faults);
    }

    private void Take(IEnumerable<KeyValuePair<string, string?>> query)
    {
        foreach (var (name, value) in query)
        {
            if (Parameter.Find(name) is null && !Spanning.Contains(name) && !Once.Contains(name))
            {
                Refuse(name, T($"“{Short(name)}” is not a parameter of the search. It knows {string.Join(", ", Names())}."));
            }
            else if (!string.IsNullOrWhiteSpace(value))
            {
                (given.TryGetValue(name, out var values) ? values : given[name] = []).Add(value);
            }
        }

        if (given.Sum(g => g.Value.Count) > MostValues)
        {
            var most = given.MaxBy(g => g.Value.Count);
            Refuse(most.Key, T($"{given.Sum(g => g.Value.Count)} values are asked for at once, {most.Value.Count} of them of “{most.Key}”; at most {MostValues} can be."));
            given.Clear();
        }

        foreach (var name in Once.Where(name => given.TryGetValue(name, out var values) && values.Distinct().Count() > 1))
        {
            Refuse(name, T($"“{name}” is given {given[name].Count} times; give it once."));
        }

        TakeWords();
        TakeSpans();
        TakeRest();
    }

    private void TakeWords()
    {
        foreach (var parameter in Parameter.All.Where(p => given.ContainsKey(p.Name)))
        {
            var values = given[parameter.Name];
            if (parameter.Name == "withPictures" && values.Find(v => v is not ("true" or "false")) is { } wrong)
            {
                Refuse(parameter.Name, T($"“{Short(wrong)}” is neither true nor false."));
            }

            conditions.Add(Condition.Of(parameter, values));
        }
    }

    private void TakeSpans()
    {
        var from = All("from", Year).Min();
        var to = All("to", Year).Max();
        if (from is not null)
        {
            conditions.Add(new Condition("from", Group.Garment, Sieve.Dated(from, null)));
        }

        if (to is not null)
        {
            conditions.Add(new Condition("to", Group.Garment, Sieve.Dated(null, to)));
        }

        if (given.TryGetValue("decade", out var decades))
        {
            // What is no decade is a value that nothing has.
            conditions.Add(new Condition("decade", Group.Garment,
                Sieve.AnyOf([.. decades.Select(Years.OfDecade).OfType<Years>().Select(y => Sieve.Dated(y.From, y.To))])));
        }

        Widths("width", Spans.TuckWidth, Group.Work);
        Widths("laceWidth", Spans.LaceWidth, Group.Lace);
    }

    private void Widths(string name, string field, Group group)
    {
        var from = All($"{name}From", Measure);
        var to = All($"{name}To", Measure);
        if (from.Count + to.Count > 0)
        {
            conditions.Add(new Condition(name, group,
                Sieve.AnyOf([.. from.DefaultIfEmpty().SelectMany(f => to.DefaultIfEmpty().Select(t => Spans.Between(field, f, t)))])));
        }
    }

    private void TakeRest()
    {
        Q = (given.GetValueOrDefault("q")?[0] ?? "").Trim();
        if (Q.Length > LongestQ)
        {
            Refuse("q", T($"What was typed has {Q.Length} characters; at most {LongestQ} can be searched for."));
        }

        Tolerance = All("tolerance", Measure).FirstOrDefault() ?? Length.Zero;
        if (Tolerance < Length.Zero)
        {
            Refuse("tolerance", T($"“{Short(given["tolerance"][0])}” is below nothing; a tolerance is a length of 0 or more."));
        }

        Page = (int)(Whole("page", 1, int.MaxValue) ?? 1);
        Size = (int)(Whole("size", 1, 100) ?? 20);
        if ((long)Page * Size > Deepest && faults.TrueForAll(f => f.Path is not ("page" or "size")))
        {
            Refuse("page", T($"Page {Page} of {Size} lies beyond the first {Deepest} pieces; ask more narrowly instead."));
        }

        Seen = Whole("seen", 1, long.MaxValue);
        var sort = given.GetValueOrDefault("sort")?[0];
        Sort = sort switch
        {
            null => Q.Length > 0 ? Sorting.Relevance : Sorting.Number,
            "relevance" => Sorting.Relevance,
            "number" => Sorting.Number,
            "name" => Sorting.Name,
            "dated" => Sorting.Dated,
            "newest" => Sorting.Newest,
            _ => Refused<Sorting>("sort", T($"“{Short(sort)}” is no order; it is relevance, number, name, dated or newest.")),
        };
    }

    private List<TRead?> All<TRead>(string name, Func<string, string, TRead?> read) where TRead : struct =>
        [.. given.GetValueOrDefault(name, []).Select(value => read(name, value))];

    private int? Year(string name, string value) =>
        Years.Of(value.Trim()) ?? Refused<int>(name, T($"“{Short(value)}” is not a year; write it with four figures, 1910."));

    private Length? Measure(string name, string value) => Length.TryParse(value, out var length, out var problem)
        ? length
        : Refused<Length>(name, T($"“{Short(value)}” can't be read as a length: {problem}"));

    private long? Whole(string name, long least, long most)
    {
        if (given.GetValueOrDefault(name)?[0] is not { } text)
        {
            return null;
        }

        return long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most
            ? number
            : Refused<long>(name, most < int.MaxValue
                ? T($"“{Short(text)}” is not a whole number from {least} to {most}.")
                : T($"“{Short(text)}” is not a whole number from {least}."));
    }

    private TRead Refused<TRead>(string name, string message) where TRead : struct
    {
        Refuse(name, message);
        return default;
    }

    private void Refuse(string name, string message) => faults.Add(new Fault(name, message, FaultKind.Unreadable));

    private static IEnumerable<string> Names() => Once[..1].Concat(Parameter.All.Select(p => p.Name)).Concat(Spanning).Concat(Once[1..]);

    private static string Short(string text) => text.Length <= 60 ? text : text[..60] + "…";
}
