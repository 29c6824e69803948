using System.Text.Json.Nodes;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Tests.TuckKinds;

/// <summary>Asks a sum as its route does, and reads its answer in words.</summary>
internal static class Asking
{
    public static Answer Ask(string slug, string request) => AllSums.Find(slug)!.Of(JsonNode.Parse(request));

    public static string Figure(this Answer answer, string name)
    {
        var figure = answer.Figures.Single(f => f.Name == name);
        return answer.Say(figure.Value, figure.InUnit);
    }

    public static Length LengthOf(this Answer answer, string name) => (Length)answer.Figures.Single(f => f.Name == name).Value!;

    /// <summary>A column of a table.</summary>
    public static string[] Column(this Answer answer, string table, string column) => [.. answer.ColumnOf<object>(table, column).Select(v => answer.Say(v))];

    public static IEnumerable<T> ColumnOf<T>(this Answer answer, string table, string column)
    {
        var found = answer.Tables.Single(t => t.Name == table);
        var at = found.Columns.Select(c => c.Name).ToList().IndexOf(column);
        return found.Rows.Select(r => (T)r[at]!);
    }

    public static Length In(string inches) => Json.L(inches + " in");

    /// <summary>What is refused must name the field and say these words.</summary>
    public static void IsRefused(string slug, string request, string path, params string[] words)
    {
        var refused = Assert.Throws<FaultException>(() => Ask(slug, request));
        Assert.False(refused.Unreadable);
        var fault = Assert.Single(refused.Faults, f => f.Path == path);
        Assert.All(words, w => Assert.Contains(w, fault.Message, StringComparison.Ordinal));
    }

    public static bool Warns(this Answer answer, string code) => answer.Cautions.Any(c => c.Code == code);
}
