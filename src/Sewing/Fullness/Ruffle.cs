using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>A ruffle: its length, its strips, its cut depth, and a second one on its lower edge.</summary>
public static class Ruffle
{
    /// <summary>Depth to cut: finished depth, hem, heading and the seam it is set on with. Exact.</summary>
    public static Length CutDepth(Length depth, Length hem, Length heading, Length seam) => depth + hem + heading + seam;

    internal static Sum Sum { get; } = new()
    {
        Slug = "ruffle",
        Shelf = Shelf.Fullness,
        Title = "A ruffle and its strips",
        Lead = "How long to cut a ruffle or flounce, in how many strips, how deep, and where the quarter marks come.",
        Asks =
        [
            .. Gathered.Asks,
            Ask.Choice("kind", "What kind", "Gives the fullness where you leave it out.", [.. UsualFullness.All.Select(u => (u.Slug, $"{u.Kind}, {u.Range}"))]).Optional(),
            Ask.Whole("pieces", "How many alike", 1, 20, "1", "Two for the legs of a pair of drawers.").Optional(),
            Ask.Above("depth", "Finished depth", "5 in", "From the seam to the lower edge, without the heading.").Optional(),
            Ask.Plain("hem", "For the hem", "1 in", "All that turning the hem takes."),
            Ask.Plain("heading", "For a heading", "1 in", "Twice its height when it is doubled."),
            Ask.Plain("seam", "For the seam", "1/4 in", "Where it is set on."),
            .. Strips.Asks,
            Ask.Number("lowerFullness", "Fullness of a second ruffle", 1, 20, "1 1/2", "When another is set to the lower edge of this one.").Optional(),
        ],
        Example = """{"finished":"60 in","fullness":"1 1/2","depth":"5 in","hem":"3/4 in","seam":"1/4 in","loom":"36 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var usual = UsualFullness.All.First(u => asked.Text("kind") is { Length: > 0 } kind ? u.Slug == kind : u.Slug == "straight");
        var gathered = Gathered.Read(asked, usual.Greatest);
        var pieces = asked.Whole("pieces", 1);
        var answer = new Answer(asked.Unit);
        gathered.Add(answer);
        if (!asked.Has("fullness") && !(asked.Has("finished") && asked.Has("flat")))
        {
            answer.Note(T($"No fullness was given: the most that is given for this kind is taken, of {usual.Range}."), usual.Source);
        }

        var total = pieces * gathered.Flat;
        answer.Figure("allPieces", "For all alike", total, T($"{pieces} × the flat length"));
        Length? cut = asked.LengthOrNull("depth") is { } depth ? CutDepth(depth, asked.Length("hem"), asked.Length("heading"), asked.Length("seam")) : null;
        if (cut is not null)
        {
            answer.Figure("cutDepth", "Cut depth", cut, "finished depth, hem, heading and seam");
        }

        var strips = Strips.Add(asked, answer, total, cut);
        if (asked.Has("lowerFullness"))
        {
            var lower = Gathered.OfFinished(gathered.Flat, asked.Number("lowerFullness"));
            answer.Figure("lowerFlat", "Second ruffle, flat", lower.Flat)
                .Figure("bothFullness", "Fullness of both together", gathered.Fullness * lower.Fullness, "the one times the other");
        }

        UsualFullness.AddTable(answer, gathered.Finished);
        return answer.Drawn(strips?.Joins > 0
                ? T($"A flat strip {asked.Show(gathered.Flat)} long and the same drawn up to {asked.Show(gathered.Finished)}, quarter marks on both, joins dotted.")
                : T($"A flat strip {asked.Show(gathered.Flat)} long and the same drawn up to {asked.Show(gathered.Finished)}, quarter marks on both."),
            gathered.Picture(asked, pieces == 1 ? strips?.Count ?? 1 : 1));
    }
}
