using System.Text;

namespace HeirloomArchive.Search;

/// <summary>What to mark in a snippet: stems of words, and the beginning of a half-typed one.</summary>
internal sealed record Marks(IReadOnlySet<string> Stems, string? HalfTyped)
{
    public bool Meets(Token token) =>
        Stems.Contains(token.Stem) || (HalfTyped is not null && token.Word.StartsWith(HalfTyped, StringComparison.Ordinal));
}

/// <summary>Cuts the passage that shows most of what was asked, as escaped HTML with <c>&lt;mark&gt;</c>.</summary>
internal static class Snippet
{
    private const int Longest = 200;

    public static string Of(string text, Marks marks)
    {
        var hits = Analysis.Tokens(text).Where(marks.Meets).ToList();
        var (start, end) = Passage(text, hits);
        var html = new StringBuilder(start > 0 ? "… " : "");
        var at = start;
        foreach (var hit in hits.Where(h => h.Start >= start && h.End <= end))
        {
            Escape(html, text.AsSpan(at, hit.Start - at));
            html.Append("<mark>");
            Escape(html, text.AsSpan(hit.Start, hit.End - hit.Start));
            html.Append("</mark>");
            at = hit.End;
        }

        Escape(html, text.AsSpan(at, end - at));
        return html.Append(end < text.Length ? " …" : "").ToString();
    }

    private static (int Start, int End) Passage(string text, List<Token> hits)
    {
        if (text.Length <= Longest)
        {
            return (0, text.Length);
        }

        // The best passage begins a little before a hit; of equal ones the first.
        var start = 0;
        var most = 0;
        for (var i = 0; i < hits.Count; i++)
        {
            var within = hits.Skip(i).TakeWhile(h => h.End <= hits[i].Start + Longest - 40).Select(h => h.Stem).Distinct().Count();
            if (within > most)
            {
                most = within;
                start = Math.Max(0, hits[i].Start - 30);
            }
        }

        start = start == 0 ? 0 : NextBlank(text, start);
        return (start, PreviousBlank(text, start, Math.Min(text.Length, start + Longest)));
    }

    private static int NextBlank(string text, int at)
    {
        var blank = text.IndexOf(' ', at);
        return blank >= 0 && blank < at + 25 ? blank + 1 : Whole(text, at);
    }

    private static int PreviousBlank(string text, int start, int at)
    {
        if (at == text.Length)
        {
            return at;
        }

        var blank = text.LastIndexOf(' ', at - 1, at - start);
        return blank > at - 25 ? blank : Whole(text, at);
    }

    // Never between the halves of a surrogate pair.
    private static int Whole(string text, int at) => char.IsLowSurrogate(text[at]) ? at - 1 : at;

    private static void Escape(StringBuilder html, ReadOnlySpan<char> text)
    {
        foreach (var c in text)
        {
            _ = c switch
            {
                '&' => html.Append("&amp;"),
                '<' => html.Append("&lt;"),
                '>' => html.Append("&gt;"),
                '"' => html.Append("&quot;"),
                '\'' => html.Append("&#39;"),
                _ => html.Append(c),
            };
        }
    }
}
