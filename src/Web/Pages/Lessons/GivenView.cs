using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>One time a lesson was given, and what does not agree in it.</summary>
public sealed record GivenView(string When, string Group, IReadOnlyList<(string Id, string Name)> Out, IReadOnlySet<string> Back, string NeedlesOut, string NeedlesBack, string Changed)
{
    /// <summary>What is missing or too many, in sentences.</summary>
    public IReadOnlyList<string> Wrong { get; private init; } = [];

    /// <summary>Whether nothing of what came back is written down yet.</summary>
    public bool IsOpen => Back.Count == 0 && NeedlesBack.Length == 0;

    /// <param name="given">As the lesson has it.</param>
    /// <param name="name">A piece's name by its id.</param>
    public static GivenView Of(JsonObject given, Func<string, string> name)
    {
        var (outs, back) = (Ids(given, "out"), Ids(given, "back"));
        var view = new GivenView(
            given["date"] is { } date ? DateInWords.Say(date.ToString()) : "", given["group"]?.ToString() ?? "", [.. outs.Select(id => (id, name(id)))], back.ToHashSet(),
            given["needlesOut"]?.ToString() ?? "", given["needlesBack"]?.ToString() ?? "", given["changed"]?.ToString() ?? "");
        return view.IsOpen ? view : view with { Wrong = [.. Disagreements(given, outs, back, name)] };
    }

    private static IEnumerable<string> Disagreements(JsonObject given, IReadOnlyList<string> outs, IReadOnlyList<string> back, Func<string, string> name)
    {
        foreach (var missing in outs.Except(back))
        {
            yield return T($"Went out and is not back: {name(missing)}.");
        }

        foreach (var more in back.Except(outs))
        {
            yield return T($"Came back and was not written down as going out: {name(more)}.");
        }

        if (given["needlesOut"] is null != given["needlesBack"] is null)
        {
            yield return given["needlesBack"] is null ? T("Needles and pins were counted only before. Count them both times.") : T("Needles and pins were counted only after. Count them both times.");
        }
        else if (given["needlesOut"] is { } before && given["needlesBack"] is { } after && Say.Number(before) != Say.Number(after))
        {
            var difference = Say.Number(before) - Say.Number(after);
            yield return difference > 0
                ? N(difference,
                    $"{before} needles and pins went out, {after} came back: {difference} is missing. The one that is missing is in the cloth: look and feel before anything is folded, pressed or put away.",
                    $"{before} needles and pins went out, {after} came back: {Written.Number(difference)} are missing. The one that is missing is in the cloth: look and feel before anything is folded, pressed or put away.")
                : T($"{before} needles and pins went out, {after} came back: {-difference} more than went. Count again; look where they came from.");
        }
    }

    private static IReadOnlyList<string> Ids(JsonObject given, string list) => [.. (given[list] as JsonArray ?? []).Select(id => id!.ToString())];
}
