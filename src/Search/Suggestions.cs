namespace HeirloomArchive.Search;

/// <summary>What a half-typed sentence may become.</summary>
internal static class Suggestions
{
    private const int Most = 10;

    /// <summary>What is understood already, then the words its end may become, those that some piece has first.</summary>
    public static IEnumerable<Suggestion> For(string q, Func<Suggestion, bool> has)
    {
        var typed = q.Length <= SearchRequest.LongestQ ? q.Trim() : q[..SearchRequest.LongestQ];
        var tokens = Analysis.Tokens(typed);
        var understood = Typed.Read(typed, Sewing.Length.Zero).Understood;

        // The last three words, then two, then the last alone: "irish cr" before "cr".
        var completed = new[] { 3, 2, 1 }.Where(count => count <= tokens.Count)
            .Select(count => string.Join(' ', tokens.TakeLast(count).Select(t => t.Word)))
            .SelectMany(Vocabulary.Completing)
            .Select(word => (word, Parameter: Parameter.All.FirstOrDefault(p => p.Words == word.Facet)?.Name))
            .Where(found => found.Parameter is not null)
            .Select(found => new Suggestion(found.word.Label, found.Parameter!, found.word.Slug))
            .Take(10 * Most)
            .OrderByDescending(has);
        return understood.Concat(completed).DistinctBy(s => (s.Parameter, s.Value)).Take(Most + understood.Count);
    }
}
