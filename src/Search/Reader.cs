using System.Globalization;
using System.Text.RegularExpressions;

namespace HeirloomArchive.Search;

/// <summary>Cuts what was typed into pieces. Nothing typed is an error: what is no word is passed over.</summary>
internal static partial class Reader
{
    private static readonly HashSet<string> Places = ["on", "at", "in", "of", "round", "around", "along", "to"];
    private static readonly HashSet<string> Articles = ["the", "a", "an", "its", "their", "both", "each"];
    private static readonly HashSet<string> Breaks = ["with", "and", "or", "but", "has", "having", "plus"];

    private static readonly HashSet<string> Excluders = ["without", "not", "no", "nor", "except", "excluding", "never"];

    // Said of nearly every piece, or of the search itself; asked for only when nothing else was typed, or in quotes.
    private static readonly HashSet<string> Fillers =
    [
        "piece", "pieces", "garment", "garments", "example", "examples", "something", "anything", "any", "some", "all", "show", "find",
        "me", "has", "have", "having", "where", "which", "whose", "made", "plus", "its", "about", "circa", "around", "round", "along",
        "wide", "width", "deep",
    ];

    /// <summary>The pieces in order.</summary>
    public static List<Piece> Pieces(string q)
    {
        var pieces = new List<Piece>();
        var free = q.ToCharArray();
        foreach (var measure in Measures.In(q))
        {
            pieces.Add(new Piece { Text = q[measure.Start..measure.End].Trim(), Start = measure.Start, End = measure.End, Length = measure.Length, Written = measure.Text });
            Blank(free, measure.Start, measure.End);
        }

        TakeCenturies(free, pieces);
        TakeYears(free, pieces);
        foreach (Match quote in Quotes().Matches(new string(free)))
        {
            var inner = quote.Groups[1];
            var tokens = Shift(Analysis.Tokens(inner.Value), inner.Index);
            pieces.Add(new Piece
            {
                Text = quote.Value, Start = quote.Index, End = quote.Index + quote.Length, Tokens = tokens, Quoted = true,
                Unwanted = UnwantedFrom(q, quote.Index) < quote.Index ? -1 - pieces.Count : 0,
            });
            Blank(free, quote.Index, quote.Index + quote.Length);
        }

        pieces.RemoveAll(p => p.Quoted && p.Tokens.Count == 0);
        TakeWords(q, new string(free), pieces);
        pieces.Sort((a, b) => a.Start.CompareTo(b.Start));
        return pieces;
    }

    private static void TakeYears(char[] free, List<Piece> pieces)
    {
        foreach (Match match in Dates().Matches(new string(free)))
        {
            var how = Analysis.Tokens(match.Groups["how"].Value).Select(t => t.Word).FirstOrDefault() ?? "";
            var first = int.Parse(match.Groups["first"].Value, CultureInfo.InvariantCulture);
            var second = match.Groups["second"].Success ? int.Parse(match.Groups["second"].Value, CultureInfo.InvariantCulture) : (int?)null;
            (string, int)[] years = (how, second) switch
            {
                (_, { } last) => [("from", first), ("to", last)],
                ("before", _) => [("to", first - 1)],
                ("after", _) => [("from", first + 1)],
                ("since" or "from", _) => [("from", first)],
                ("until" or "till" or "to" or "by" or "up", _) => [("to", first)],
                _ => [("from", first), ("to", first)],
            };
            var decade = match.Groups["decade"].Success && first % 10 == 0;
            pieces.Add(new Piece
            {
                Text = match.Value.Trim(), Start = match.Index, End = match.Index + match.Length,
                Tokens = Shift(Analysis.Tokens(match.Value), match.Index),
                Years = decade && years.Length == 2 && second is null
                    ? [("decade", $"{first}s")]
                    : [.. years.Select(y => (y.Item1, y.Item2.ToString("D4", CultureInfo.InvariantCulture)))],
            });
            Blank(free, match.Index, match.Index + match.Length);
        }
    }

    private static void TakeCenturies(char[] free, List<Piece> pieces)
    {
        foreach (Match match in Centuries().Matches(new string(free)))
        {
            var first = (int.Parse(match.Groups["number"].Value, CultureInfo.InvariantCulture) - 1) * 100;
            pieces.Add(new Piece
            {
                Text = match.Value, Start = match.Index, End = match.Index + match.Length,
                Tokens = Shift(Analysis.Tokens(match.Value), match.Index),
                Years = [("from", $"{first:D4}"), ("to", $"{first + 99:D4}")],
            });
            Blank(free, match.Index, match.Index + match.Length);
        }
    }

    private static void TakeWords(string q, string free, List<Piece> pieces)
    {
        var tokens = Analysis.Tokens(free);
        var clause = 0;
        var placed = false;
        var (unwanted, unwantedIn) = (0, -1);
        var passedOver = new List<Piece>();
        for (var i = 0; i < tokens.Count;)
        {
            clause += i > 0 && Divides(free.AsSpan(tokens[i - 1].End, tokens[i].Start - tokens[i - 1].End)) ? 1 : 0;
            var spot = Vocabulary.Trade.At(tokens, i).FirstOrDefault(s => Unbroken(free, tokens, s));
            var count = Math.Max(spot.Count, 1);
            var words = tokens.GetRange(i, count);
            var piece = new Piece
            {
                Text = q[words[0].Start..words[^1].End], Start = words[0].Start, End = words[^1].End, Tokens = words,
                Meanings = spot.Meanings ?? [], Placed = placed, Clause = clause,
                Unwanted = IsMinus(q, words[0].Start) ? 10_000 + i : clause == unwantedIn ? unwanted : 0,
            };
            var word = words[0].Word;
            if (spot.Meanings is null && Excluders.Contains(word))
            {
                // What follows in the same clause is not wanted; "or" and "nor" go on with another thing that isn't.
                (unwanted, unwantedIn) = (i + 1, ++clause);
                passedOver.Add(piece);
            }
            else if (spot.Meanings is null && (Analysis.IsStopWord(word) || Fillers.Contains(word)))
            {
                passedOver.Add(piece);
                if (word == "or" && clause == unwantedIn)
                {
                    (unwanted, unwantedIn) = (i + 1, clause + 1);
                }

                clause += Breaks.Contains(word) ? 1 : 0;
                placed = Places.Contains(word) || (placed && Articles.Contains(word));
            }
            else
            {
                pieces.Add(piece);
                placed = false;
            }

            i += count;
        }

        if (pieces.Count == 0)
        {
            pieces.AddRange(passedOver);
        }

        // Measures stand in the clause of the word nearest before them.
        foreach (var measure in pieces.Where(p => p.Length is not null))
        {
            var nearest = pieces.Where(p => p.Length is null && p.Years.Count == 0)
                .OrderBy(p => p.Start < measure.Start ? measure.Start - p.Start : 10_000 + p.Start).FirstOrDefault();
            (measure.Clause, measure.Unwanted) = (nearest?.Clause ?? 0, nearest is { Quoted: false } && nearest.Unwanted < 10_000 ? nearest.Unwanted : 0);
        }
    }

    /// <summary>Where the words or the sign begin that say of what stands there that it is not wanted; the place itself when none do.</summary>
    public static int UnwantedFrom(string q, int at)
    {
        var from = Math.Max(0, at - 60);
        var match = UnwantedBefore().Match(q[from..at]);
        return match.Success ? from + match.Index : at;
    }

    private static bool IsMinus(string q, int at) => at > 0 && q[at - 1] is '-' or '\u2212' && (at == 1 || char.IsWhiteSpace(q[at - 2]));

    private static bool Divides(ReadOnlySpan<char> between) => between.IndexOfAny(",;:|") >= 0 || between.Contains(". ", StringComparison.Ordinal);

    private static bool Unbroken(string free, List<Token> tokens, Spot spot)
    {
        for (var i = spot.First + 1; i < spot.First + spot.Count; i++)
        {
            var between = free.AsSpan(tokens[i - 1].End, tokens[i].Start - tokens[i - 1].End);
            if (between.Length > 3 || Divides(between))
            {
                return false;
            }
        }

        return true;
    }

    private static void Blank(char[] text, int start, int end) => Array.Fill(text, ' ', start, end - start);

    private static List<Token> Shift(List<Token> tokens, int by) =>
        [.. tokens.Select(t => t with { Start = t.Start + by, End = t.End + by })];

    [GeneratedRegex(@"(?:(?<!\S)[-−]|\b(?:without|not|no|nor|or|except|excluding|never)(?:\s+(?:the|a|an|any|its))*\s+)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.RightToLeft)]
    private static partial Regex UnwantedBefore();

    [GeneratedRegex("[\"“”„]([^\"“”„]*)(?:[\"“”„]|$)")]
    private static partial Regex Quotes();

    [GeneratedRegex("""
        (?:\b(?<how>before|after|since|from|until|till|to|by|up\ to|between|in|about|around|circa|c\.)\s*(?:the\s+)?)?(?:\b(?:early|mid|late)[\s-]+)?
        (?<![\w.,/-])(?<first>1[0-9]{3}|20[0-9]{2})(?:(?<decade>'?s)|(?:\s?(?:-|–|/|\bto\b|\band\b|\buntil\b)\s?(?<second>1[0-9]{3}|20[0-9]{2})))?(?![\w/-])
        """, RegexOptions.IgnorePatternWhitespace | RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Dates();

    [GeneratedRegex(@"(?<![\w.,/-])(?:(?:in|of)\s+)?(?:the\s+)?(?:(?:early|mid|late)[\s-]+)?(?<number>1[0-9]|2[01])(?:st|nd|rd|th)[\s-]+century\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Centuries();
}
