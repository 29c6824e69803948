using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>Lengths of a patterned lace cut at whole repeats, so that every one begins at the same point and joins match. Whole numbers throughout.</summary>
/// <param name="Repeat">Of the pattern.</param>
/// <param name="Lap">What a piece needs beyond its length for the join at its end.</param>
public sealed record PatternRepeat(Length Repeat, Length Lap)
{
    /// <summary>Whole repeats for a piece of that length and its join.</summary>
    public long RepeatsFor(Length length) => (length + Lap).PartsOf(Repeat);

    /// <summary>The piece to cut.</summary>
    public Length Cut(Length length) => RepeatsFor(length) * Repeat;

    /// <summary>What a length as sold gives to a row of joined lengths: whole repeats, the lap taken off; zero when too short.</summary>
    /// <param name="sold">One length as it is sold.</param>
    public Length Usable(Length sold) => sold - Lap >= Repeat ? (sold - Lap).Nanometres / Repeat.Nanometres * Repeat : Length.Zero;

    /// <summary>How many lengths as sold make so many pieces: several pieces from one where they fit whole, else each joined from several.</summary>
    /// <param name="length">Of a piece.</param>
    /// <param name="count">How many pieces.</param>
    /// <param name="sold">One length as it is sold, at least one repeat and a lap.</param>
    public (long Lengths, long JoinsEach) From(Length length, int count, Length sold)
    {
        var inOne = sold.Nanometres / Cut(length).Nanometres;
        if (inOne > 0)
        {
            return ((count + inOne - 1) / inOne, 0);
        }

        var each = length.PartsOf(Usable(sold));
        return (count * each, each - 1);
    }

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "pattern-repeat",
        Shelf = Shelf.Lace,
        Title = "Lace joined at its pattern",
        Lead = "How long to cut each piece of a patterned lace so that the joins match, and how much to buy.",
        Asks =
        [
            Ask.Above("repeat", "Repeat of the pattern", "2 1/2 in", "From one point of the pattern to the same point again."),
            Ask.Plain("lap", "A join takes", "1/2 in", "Where two ends lie over each other; once for each piece."),
            Ask.Rows("pieces", "Pieces", 1, 40, "Each begins at the same point of the pattern.",
                Ask.Text("name", "Piece", "hem"),
                Ask.Above("length", "Length that shows", "60 in"),
                Ask.Whole("count", "How many", 1, 200, "2").Optional()),
            Ask.Above("sold", "Lace comes in lengths of", "108 in", "Leave out when it is cut from one long piece.").Optional(),
        ],
        Example = """{"repeat":"2 1/2 in","lap":"1/2 in","pieces":[{"name":"hem","length":"118 in"},{"name":"sleeve","length":"9 in","count":2}],"sold":"108 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var pattern = new PatternRepeat(asked.Length("repeat"), asked.Length("lap"));
        var sold = asked.LengthOrNull("sold");
        asked.Check(sold is null || pattern.Usable(sold.Value) > Length.Zero, "sold",
            T($"A length of {asked.Show(sold ?? default)} has no whole repeat and join in it: it must be at least {asked.Show(pattern.Repeat + pattern.Lap)}."));
        asked.Throw();
        var rows = asked.Rows("pieces").Select(p => (Name: p.Text("name"), Length: p.Length("length"), Count: p.Whole("count", 1))).ToList();
        var shown = rows.Aggregate(Length.Zero, (sum, r) => sum + (r.Count * r.Length));
        var cut = rows.Aggregate(Length.Zero, (sum, r) => sum + (r.Count * pattern.Cut(r.Length)));
        var answer = new Answer(asked.Unit)
            .Figure("lace", "Lace to buy in one piece", cut, T($"whole repeats, and {asked.Show(pattern.Lap)} in each piece for its join"))
            .Figure("shown", "Of it will show", shown)
            .Figure("allowance", "Allowance for joins and pattern", cut - shown)
            .Figure("repeats", "Repeats in all", rows.Sum(r => r.Count * pattern.RepeatsFor(r.Length)));
        if (sold is { } length)
        {
            var lengths = rows.Sum(r => pattern.From(r.Length, r.Count, length).Lengths);
            answer.Figure("lengths", T($"Lengths of {asked.Show(length)} to buy"), lengths, "each row by itself; a short piece may come from the end of another")
                .Figure("joinsWithin", "Joins within pieces", rows.Sum(r => r.Count * pattern.From(r.Length, r.Count, length).JoinsEach), "they match, each cut at a whole repeat");
        }

        return answer
            .Table("pieces", "Each piece", [new("name", "Piece"), new("count", "How many"), new("length", "Shows"), new("repeats", "Repeats to cut"), new("cut", "Length to cut"), new("allowance", "Allowance in it")],
                rows.Select(r => (IReadOnlyList<object?>)[r.Name, r.Count, r.Length, pattern.RepeatsFor(r.Length), pattern.Cut(r.Length), pattern.Cut(r.Length) - r.Length]))
            .Table("round", "Where a piece closes on itself, whole repeats that show", [new("name", "Piece"), new("fewer", "Repeats, fewer"), new("fewerLength", "Length"), new("more", "Repeats, more"), new("moreLength", "Length")],
                rows.Select(r => (Row: r, Whole: r.Length.Nanometres / pattern.Repeat.Nanometres)).Select(w =>
                    (IReadOnlyList<object?>)[w.Row.Name, w.Whole, w.Whole * pattern.Repeat, w.Row.Length.PartsOf(pattern.Repeat), w.Row.Length.PartsOf(pattern.Repeat) * pattern.Repeat]))
            .Note("Pieces cut at whole repeats all begin at the same point, so any end matches any beginning; a piece that closes on itself matches only when it shows whole repeats. Plain counting, common practice.")
            .Note("Join in the pattern: lay one motif over the other, sew round its edge with fine overhand stitches, and trim both layers close.")
            .LayOutFirst()
            .Drawn(T($"The first piece laid out by its repeats of {asked.Show(pattern.Repeat)}; the lighter end is its allowance."), pattern.Picture(asked, rows[0].Length));
    }

    private Panel Picture(Asked asked, Length length)
    {
        const int MostDrawn = 300;
        var sketch = new Sketch(40);
        var cut = Cut(length);
        var scale = sketch.ScaleFor(cut);
        var shown = length.Mm() * scale;
        sketch.Box(Sketch.Margin, 14, sketch.Room, 12, Ink.Allowance).Box(Sketch.Margin, 14, shown, 12, Ink.Lace);
        for (var i = 0L; i <= RepeatsFor(length) && i <= MostDrawn; i++)
        {
            var x = Sketch.Margin + (i * Repeat.Mm() * scale);
            sketch.Line(x, 12, x, 28, Ink.FoldFine);
        }

        return sketch.Across(Sketch.Margin, Sketch.Margin + shown, 9, asked.Show(length)).Text(90, 35, T($"{asked.Show(cut)} to cut"), Ink.Caption).Panel();
    }
}
