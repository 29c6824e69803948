using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>The grid of dots for smocking: a dot is picked up for each fold, a thread runs along each row.</summary>
public static class Smocking
{
    /// <summary>The most spaces across or rows down.</summary>
    public const int Most = 4_000;

    /// <summary>Height of the grid from its first row to its last. Exact.</summary>
    public static Length Height(int rows, Length row) => (rows - 1) * row;

    internal static Sum Sum { get; } = new()
    {
        Slug = "smocking",
        Shelf = Shelf.Fullness,
        Title = "A grid for smocking",
        Lead = "How wide the cloth must be, and how many dots and rows the grid has, for a smocked panel of a given width.",
        Asks =
        [
            Ask.Above("finished", "Finished width", "5 in", "Of the smocked panel."),
            Ask.Number("fullness", "Fullness", 1, 10, "3", "Three times when left out.").Optional(),
            Ask.Above("dot", "From dot to dot", "1/4 in", "Along a row."),
            Ask.Above("row", "From row to row", "3/8 in"),
            Ask.Whole("rows", "Rows", 1, Most, "9", "Give the rows or the height.").Optional(),
            Ask.Above("height", "Height", "3 in", "From the first row to the last.").Optional(),
            Ask.Plain("side", "Plain at each side", "1/2 in", "For the seams."),
        ],
        Example = """{"finished":"5 in","fullness":3,"dot":"1/4 in","row":"3/8 in","rows":9}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (finished, dot, row) = (asked.Length("finished"), asked.Length("dot"), asked.Length("row"));
        var height = asked.LengthOrNull("height");
        asked.Check(asked.Has("rows") != height is not null, height is null ? "rows" : "height", "Give either the rows or the height of the grid, one of them: the other follows.");
        var flat = Gathered.OfFinished(finished, asked.Number("fullness", 3)).Flat;
        asked.Check(flat.Nanometres / dot.Nanometres < Most, "dot", T($"{asked.Show(dot)} on {asked.Show(flat)} of cloth makes more than {Most} dots: take a wider space."));
        asked.Check(height is not { } tall || tall.Nanometres / row.Nanometres < Most, "row", T($"{asked.Show(row)} makes more than {Most} rows: take a wider space."));
        asked.Throw();

        var across = Rounding.BothWays(flat, dot);
        var down = height is { } h ? Rounding.BothWays(h, row).Select(w => (w.Word, Rows: (int)w.Count + 1, Row: w.Each)).ToList() : [("whole", asked.Whole("rows"), row)];
        var answer = new Answer(asked.Unit)
            .Figure("flat", "Flat width of the grid", flat, "finished width × fullness")
            .Figure("withSides", "Flat with both sides", flat + (2 * asked.Length("side")))
            .Figure("dotsComeOutWhole", "The dots come out whole", across.Count == 1 && across[0].Word == "whole")
            .Table("across", "Dots in a row", [new("way", "Spaces"), new("spaces", "How many"), new("dots", "Dots"), new("dotSpace", "Dot to dot, width kept"), new("flatWithDot", "Flat, dot to dot kept"), new("fullnessWithDot", "Fullness then")],
                across.Select(w => (IReadOnlyList<object?>)[T(w.Word), (int)w.Count, (int)w.Count + 1, w.Each, w.Count * dot, (decimal)(w.Count * dot).Nanometres / finished.Nanometres]))
            .Table("down", "Rows", [new("way", "Rows"), new("rows", "How many"), new("rowSpace", "Row to row"), new("height", "Height")],
                down.Select(w => (IReadOnlyList<object?>)[T(w.Word), w.Rows, w.Row, w.Word == "whole" ? Height(w.Rows, w.Row) : height]))
            .Note("Smocking takes about three times its finished width; a trial with your own cloth and stitch is the only sure figure.", "A modern machine instruction book, for batiste or gingham; by hand common practice is 2 1/2 to 4 times")
            .Note("Each dot is picked up on one thread along its row; one thread is needed for each row. Mark with a transfer or a thread that leaves nothing behind, and try it on a scrap first.", "Common practice.");
        if (across[0].Word != "whole" || down[0].Word != "whole")
        {
            answer.Caution("not-whole", "The grid does not come out whole as asked. Both roundings are in the tables, each with its corrected space: choose one before you mark.");
        }

        var chosen = down[0];
        return answer.Drawn(across.Count == 2
                ? T($"The grid: {across[0].Count + 1} dots in a row {asked.Show(flat)} wide, {chosen.Rows} rows {asked.Show(chosen.Row)} apart; the spaces rounded down.")
                : T($"The grid: {across[0].Count + 1} dots in a row {asked.Show(flat)} wide, {chosen.Rows} rows {asked.Show(chosen.Row)} apart."),
            Picture(asked, across[0], chosen.Rows, chosen.Row));
    }

    private static Panel Picture(Asked asked, Rounding across, int rows, Length row)
    {
        var (columns, lines) = ((int)Math.Min(across.Count, 60), Math.Min(rows, 24));
        var scale = (Sketch.PageWidth - (2 * Sketch.Margin) - 24) / (columns * across.Each).Mm();
        var step = row.Mm() * scale;
        if ((lines - 1) * step > 120)
        {
            (scale, step) = (scale * 120 / ((lines - 1) * step), 120.0 / (lines - 1));
        }

        var (top, wide) = (14.0, across.Each.Mm() * scale);
        var sketch = new Sketch(top + ((lines - 1) * step) + 12);
        sketch.Box(Sketch.Margin, top - 2, (columns * wide) + 4, ((lines - 1) * step) + 4, Ink.Cloth)
            .Across(Sketch.Margin + 2, Sketch.Margin + 2 + wide, top - 5, asked.Show(across.Each));
        for (var line = 0; line < lines; line++)
        {
            var y = top + (line * step);
            sketch.Line(Sketch.Margin + 2, y, Sketch.Margin + 2 + (columns * wide), y, Ink.Stitching);
            for (var dot = 0; dot <= columns; dot++)
            {
                var x = Sketch.Margin + 2 + (dot * wide);
                sketch.Line(x, y - 0.6, x, y + 0.6, Ink.Fold);
            }
        }

        if (lines > 1)
        {
            sketch.Down(Sketch.Margin + 6 + (columns * wide), top, top + step, asked.Show(row));
        }

        var shown = columns < across.Count || lines < rows ? T($"the first {columns + 1} dots and {lines} rows") : T("all dots and rows");
        return sketch.Text(Sketch.Margin, top + ((lines - 1) * step) + 8, shown, Ink.Caption, 2.6, Anchor.Start).Panel();
    }
}
