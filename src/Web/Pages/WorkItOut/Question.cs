using Microsoft.Extensions.Primitives;

namespace HeirloomArchive.Web.Pages.WorkItOut;

/// <summary>A sum's question as its address holds it.</summary>
internal static class Question
{
    private static readonly string[] NotAsked = ["add", "remove", "nearest", "__RequestVerificationToken", "handler"];

    /// <summary>The fields of the question, without what only rearranged the form.</summary>
    public static IEnumerable<(string Key, string Value)> Of(IEnumerable<KeyValuePair<string, StringValues>> sent) =>
        sent.Where(p => !NotAsked.Contains(p.Key)).Select(p => (p.Key, p.Value.ToString()));
}
