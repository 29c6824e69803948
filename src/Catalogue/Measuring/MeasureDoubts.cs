using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue.Measuring;

/// <summary>Measures of one piece that can hardly all be right. They are kept as they were taken; the page asks about them.</summary>
public static class MeasureDoubts
{
    // Soft cloth and a soft tape: less than a twentieth, or half an inch, is no contradiction.
    private const int Share = 20;
    private static readonly Length Least = Length.FromSixtyFourthsOfInch(32);

    /// <summary>What to ask about, each a sentence or two; empty when nothing contradicts.</summary>
    public static IReadOnlyList<string> Of(JsonObject garment)
    {
        ArgumentNullException.ThrowIfNull(garment);
        List<Taken> all = [.. (garment["measures"] as JsonArray ?? []).OfType<JsonObject>().Select(Read).OfType<Taken>()];
        return [.. all.GroupBy(m => m.Name).SelectMany(SameName), .. Between(all)];
    }

    private static IEnumerable<string> SameName(IGrouping<string, Taken> same)
    {
        var name = same.First().Label;
        foreach (var way in same.Where(m => m.How is not null).GroupBy(m => m.How).Where(w => w.Count() > 1))
        {
            var (least, most) = (way.MinBy(m => m.Length)!, way.MaxBy(m => m.Length)!);
            if (Differ(least.Length, most.Length))
            {
                yield return T($"{name} is there twice, both {Way(way.Key!)}: {least.Text} and {most.Text}. Which one is it?");
            }
        }

        foreach (var flat in same.Where(m => m.How == "flat-width"))
        {
            foreach (var round in same.Where(m => m.How == "whole-round" && Differ(m.Length, flat.Length * 2)))
            {
                yield return T($"{name} is {round.Text} whole round and {flat.Text} flat, which would be {(flat.Length * 2).ToText(Length.UnitOf(flat.Text))} round. Was an overlap, a pleat or an opening left out?");
            }
        }

        foreach (var out_ in same.Where(m => m.How == "let-out"))
        {
            foreach (var drawn in same.Where(m => m.How is "drawn-up" or "gathered-as-it-lies" && m.Length > out_.Length))
            {
                yield return T($"{name} is {drawn.Text} {Way(drawn.How!)} and only {out_.Text} let out. Were the two exchanged?");
            }
        }
    }

    private static IEnumerable<string> Between(List<Taken> all)
    {
        foreach (var hem in all.Where(m => m.Name == "hem-round").Take(1))
        {
            foreach (var other in all.Where(m => m.Name is "waist" or "chest" or "hips" or "width" && m.How != "let-out"))
            {
                var across = other.How == "flat-width" || (other.Name == "width" && other.How != "whole-round");
                if (hem.Round < (across ? other.Length * 2 : other.Length))
                {
                    var (way, label) = (hem.How is null ? T("round") : Way(hem.How), other.Label.ToLowerInvariant());
                    yield return across
                        ? T($"The hem is {hem.Text} {way}, less than the {label}: {other.Text} across. Was half of the hem measured?")
                        : T($"The hem is {hem.Text} {way}, less than the {label}: {other.Text}. Was half of the hem measured?");
                    break;
                }
            }
        }

        foreach (var skirt in all.Where(m => m.Name == "skirt-length").Take(1))
        {
            if (all.Find(m => m.Name is "front-length" or "back-length" && m.Length < skirt.Length) is { } whole)
            {
                yield return T($"The skirt is {skirt.Text} long, more than the {whole.Label.ToLowerInvariant()} of {whole.Text}, which takes the skirt in. Was one of them measured elsewhere?");
            }
        }
    }

    private static bool Differ(Length a, Length b)
    {
        var (apart, greater) = a > b ? (a - b, a) : (b - a, b);
        return apart > Least && apart * Share > greater;
    }

    private static string Way(string how) => T(ChoiceType.InWords(how)).ToLowerInvariant();

    private static Taken? Read(JsonObject measure) => MeasureType.Of(measure["length"]) is { } length && measure["name"] is { } name
        ? new(
            name is JsonObject own ? own["own"]?.ToString() ?? "" : name.ToString(),
            name is JsonObject o ? o["own"]?.ToString() ?? "" : T(Words.Label("measures", name.ToString())),
            measure["taken"]?.ToString(), length, measure["length"]!["text"]?.ToString() ?? length.ToString())
        : null;

    private sealed record Taken(string Name, string Label, string? How, Length Length, string Text)
    {
        public Length Round => How == "flat-width" ? Length * 2 : Length;
    }
}
