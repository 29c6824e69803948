using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>
/// What of the record somebody may see. The room itself holds to it: what it answers has nothing in it that is hidden from the
/// one who asks, so no page and no route can show more than it was given.
/// </summary>
public sealed class Sight
{
    private static readonly string[][] AllPrivate = [.. PrivateFields.Paths.Select(path => path.Split('.'))];

    // What a visitor is told of a piece that is shown to her: what it is and how it was made. Nothing of persons, condition or keeping.
    private static readonly HashSet<string> ForVisitors =
        ["id", "version", "number", "name", "kind", "dated", "datedText", "made", "description", "materials", "measures", "techniques", "pictures"];

    // Within those: remarks are the keeper's own, the digest and tags of a picture help nobody else.
    private static readonly HashSet<string> NotForVisitors = ["note", "sha256", "tags"];

    private readonly string[][] hidden;

    private Sight(string name, params string[] seen) =>
        (Name, hidden) = (name, [.. AllPrivate.Where(path => !seen.Contains(string.Join('.', path)))]);

    /// <summary>All of it: who keeps the archive, and the archive's own work.</summary>
    public static Sight Everything { get; } = new("everything", [.. PrivateFields.Paths]) { Originals = true };

    /// <summary>Every piece and where it lies, to fetch and photograph it; nothing else that is private.</summary>
    public static Sight WithPlace { get; } = new("with its place", "place");

    /// <summary>Every piece, nothing private.</summary>
    public static Sight Pieces { get; } = new("pieces");

    /// <summary>Of the pieces that are shown to visitors, what is meant for them.</summary>
    public static Sight Shown { get; } = new("shown to visitors") { OnlyShown = true };

    /// <summary>Nothing at all: who has not said who she is.</summary>
    public static Sight Nothing { get; } = new("nothing") { OnlyShown = true, Blind = true };

    /// <summary>In words.</summary>
    public string Name { get; }

    /// <summary>Whether pictures may be had as they were uploaded, place and camera data included.</summary>
    public bool Originals { get; private init; }

    /// <summary>Whether only pieces shown to visitors are seen.</summary>
    public bool OnlyShown { get; private init; }

    /// <summary>Whether lessons that are not shared, and what else is for those who teach, are seen.</summary>
    public bool Teaching => Originals;

    /// <summary>The same without anything private: for lists, where nothing private is shown to anybody.</summary>
    public Sight WithoutPrivate => OnlyShown ? this : Pieces;

    /// <summary>Whether not even what is shown to visitors is seen.</summary>
    internal bool Blind { get; private init; }

    /// <summary>Whether a piece is seen at all.</summary>
    public bool Sees(Garment garment) => !Blind && (!OnlyShown || garment is { IsForVisitors: true, IsAside: false });

    /// <summary>Whether anything stands in a private field that is seen: looking at it is then worth a line in the book of who saw what.</summary>
    public bool SeesPrivate(JsonObject fields) => !OnlyShown && AllPrivate.Except(hidden).Any(path => At(fields, path) is not null);

    /// <summary>The same of a place where the record changed.</summary>
    internal bool SeesPrivate(Difference change)
    {
        var steps = StepsOf(change.Path);
        return !OnlyShown && AllPrivate.Except(hidden).Any(path =>
            Begins(steps, path) || (Begins(path, steps) && new[] { change.Old, change.New }.Any(value => value is JsonObject inner && At(inner, path[steps.Length..]) is not null)));
    }

    /// <summary>Takes out of a garment's state, in place, what is not seen.</summary>
    public JsonObject Trim(JsonObject state)
    {
        foreach (var path in hidden)
        {
            if (At(state, path[..^1]) is JsonObject holder)
            {
                holder.Remove(path[^1]);
            }
        }

        if (OnlyShown)
        {
            foreach (var name in state.Select(f => f.Key).Where(name => Blind || !ForVisitors.Contains(name)).ToList())
            {
                state.Remove(name);
            }

            TakeOut(state);
        }

        return state;
    }

    /// <summary>Whether a place in the record is hidden: <c>acquired.price</c>, <c>techniques[0].note</c>.</summary>
    public bool Hides(string path)
    {
        var steps = StepsOf(path);
        return Blind || hidden.Any(h => Begins(steps, h)) || (OnlyShown && !ForVisitors.Contains(steps[0]));
    }

    /// <summary>A value that stands at a place which is not hidden, without what is hidden within it. A new node.</summary>
    public JsonNode? Trim(string path, JsonNode? value)
    {
        var (copy, steps) = (value?.DeepClone(), StepsOf(path));
        foreach (var h in hidden.Where(h => h.Length > steps.Length && Begins(h, steps)))
        {
            if (copy is JsonObject inner && At(inner, h[steps.Length..^1]) is JsonObject holder)
            {
                holder.Remove(h[^1]);
            }
        }

        return copy;
    }

    private static string[] StepsOf(string path) => [.. path.Split('.').Select(step => step.Split('[')[0])];

    private static bool Begins(string[] path, string[] with) => path.Take(with.Length).SequenceEqual(with);

    private static JsonNode? At(JsonObject from, IEnumerable<string> path) =>
        path.Aggregate((JsonNode?)from, (node, step) => (node as JsonObject)?[step]);

    private static void TakeOut(JsonNode? node)
    {
        switch (node)
        {
            case JsonObject o:
                foreach (var name in o.Select(f => f.Key).Where(NotForVisitors.Contains).ToList())
                {
                    o.Remove(name);
                }

                foreach (var (_, inner) in o)
                {
                    TakeOut(inner);
                }

                break;
            case JsonArray list:
                foreach (var inner in list)
                {
                    TakeOut(inner);
                }

                break;
            default:
                break;
        }
    }
}
