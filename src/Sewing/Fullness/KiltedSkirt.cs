using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>A pleated skirt that is narrower at the waist than at the hem: its pleats take more there.</summary>
/// <remarks>Conover, A Complete Course in Dressmaking (1921–22), vol. 5, pp. 63–69.</remarks>
public static class KiltedSkirt
{
    /// <summary>What is to be pleated away at one level. Exact.</summary>
    public static Length ToPleat(Length cloth, Length finished) => cloth - finished;

    /// <summary>What one pleat takes of it, rounded once to the nanometre; its depth is half of that.</summary>
    public static Length EachTakes(Length cloth, Length finished, int pleats) => ToPleat(cloth, finished).DividedBy(pleats);

    internal static Sum Sum { get; } = new()
    {
        Slug = "kilted",
        Shelf = Shelf.Fullness,
        Title = "A pleated skirt at waist, hip and hem",
        Lead = "What each pleat takes at the waist, the hip and the hem of a pleated or kilted skirt.",
        Asks =
        [
            Ask.Above("cloth", "Flat cloth", "44 in", "Of the whole skirt or of the half, as its measures are."),
            Ask.Whole("pleats", "Pleats", 1, 200, "8"),
            Ask.Rows("levels", "Levels", 1, 8, "From the waist down.", Ask.Text("name", "Level", "waist"), Ask.Above("finished", "Finished there", "14 in")),
            Ask.Above("waist", "Waist, for a kilt", "27 in", "Tells the yards a full kilt takes by the old rule.").Optional(),
        ],
        Example = """{"cloth":"44 in","pleats":8,"levels":[{"name":"waist","finished":"14 in"},{"name":"hip","finished":"20 in"},{"name":"hem","finished":"27 1/2 in"}]}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (cloth, pleats, levels) = (asked.Length("cloth"), asked.Whole("pleats"), asked.Rows("levels"));
        foreach (var level in levels)
        {
            level.Check(level.Length("finished") <= cloth, "finished", T($"{asked.Show(level.Length("finished"))} is wider than the cloth: it may be at most {asked.Show(cloth)}."));
        }

        asked.Throw();
        var answer = new Answer(asked.Unit)
            .Figure("most", "Most that one pleat takes", levels.Max(l => EachTakes(cloth, l.Length("finished"), pleats)))
            .Table("levels", "Level by level", [new("level", "Level"), new("finished", "Finished"), new("toPleat", "To be pleated"), new("each", "Each pleat takes"), new("depth", "Depth of each"), new("width", "Width of each as seen")],
                levels.Select(l => (IReadOnlyList<object?>)[l.Text("name"), l.Length("finished"), ToPleat(cloth, l.Length("finished")), EachTakes(cloth, l.Length("finished"), pleats),
                    ToPleat(cloth, l.Length("finished")).DividedBy(2L * pleats), l.Length("finished").DividedBy(pleats)]))
            .Note("At each level what is to be pleated is shared equally among the pleats. The book rounds to the nearest eighth and lets the last pleat take the rest.", "Conover, A Complete Course in Dressmaking (1921–22), vol. 5, pp. 63–69")
            .Note("An inverted plait at the centre back of a gored skirt: 2 to 3 in at the waist and twice that at the hem, and the seam. For set-in plaits the strip is eight times the width of a plait.", "Baldt, Clothing for Women (1916)");
        if (asked.LengthOrNull("waist") is { } waist)
        {
            answer.Figure("kiltCloth", "Cloth for a full kilt", 6 * waist, "six times the waist")
                .Note("A kilt takes about six times the waist, or 7 1/2 to 9 yards: the two agree only for waists of 45 to 54 in, and the book says both.", "The Cutter's Practical Guide (1898), p. 45");
        }

        return answer.Drawn(T($"The skirt level by level, within the width of its flat cloth, {asked.Show(cloth)}."), Picture(asked, cloth, levels));
    }

    private static Panel Picture(Asked asked, Length cloth, IReadOnlyList<Asked> levels)
    {
        const double Step = 16;
        var sketch = new Sketch(24 + (levels.Count * Step));
        var (scale, middle) = (sketch.ScaleFor(cloth), Sketch.PageWidth / 2);
        sketch.Across(Sketch.Margin, Sketch.Margin + sketch.Room, 10, T($"flat {asked.Show(cloth)}"));
        for (var i = 0; i < levels.Count; i++)
        {
            var (half, y) = (levels[i].Length("finished").Mm() * scale / 2, 16 + (i * Step));
            sketch.Box(Sketch.Margin, y, sketch.Room, 7, Ink.TakenUp).Box(middle - half, y, 2 * half, 7, Ink.Cloth)
                .Text(middle, y + 11, $"{Shown.Short(levels[i].Text("name"))}: {asked.Show(levels[i].Length("finished"))}", Ink.Number, 2.6);
        }

        return sketch.Panel();
    }
}
