using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>The three lines of a tuck across a gore, and how wide the gore is at each. Flat, rounded once to the nanometre.</summary>
/// <param name="Tuck">From the hem upwards, from 1.</param>
/// <param name="FromHem">To its lower stitching line.</param>
/// <param name="Lower">The gore at the lower stitching line.</param>
/// <param name="Fold">The gore at the fold.</param>
/// <param name="Upper">The gore at the upper stitching line.</param>
public sealed record GoreTuck(int Tuck, Length FromHem, Length Lower, Length Fold, Length Upper);

/// <summary>Straight tucks across gores, which widen evenly from top to bottom. Whole numbers throughout.</summary>
/// <param name="Gores">Of this shape round the skirt.</param>
/// <param name="Top">Width at the top, seams not in it.</param>
/// <param name="Bottom">Width at the hem.</param>
/// <param name="Height">From top to hem, flat.</param>
/// <param name="FromHem">From the hem to the lowest stitching line, flat.</param>
/// <param name="Tucks">1 or more.</param>
/// <param name="Width">Fold to stitching.</param>
/// <param name="Space">The plain cloth seen between tucks.</param>
public sealed record GoredTucks(int Gores, Length Top, Length Bottom, Length Height, Length FromHem, int Tucks, Length Width, Length Space)
{
    /// <summary>From the hem to the uppermost stitching line, flat.</summary>
    public Length Reach => FromHem + ((Tucks - 1) * ((3 * Width) + Space)) + (2 * Width);

    /// <summary>What the lower stitching line of a tuck has more than the upper, in one gore.</summary>
    public Length Ease => (Bottom - Top).Times(2 * Width, Height);

    /// <summary>Each tuck from the hem upwards.</summary>
    public IReadOnlyList<GoreTuck> Lines => [.. Enumerable.Range(0, Tucks).Select(i =>
    {
        var up = FromHem + (i * ((3 * Width) + Space));
        return new GoreTuck(i + 1, up, At(up), At(up + Width), At(up + (2 * Width)));
    })];

    /// <summary>Width of the gore so far above the hem.</summary>
    public Length At(Length up) => Bottom - (Bottom - Top).Times(up, Height);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "gored-tucks",
        Shelf = Shelf.Cloth,
        Title = "Tucks across a gored skirt",
        Lead = "How wide a gore is at each stitching line and fold, and how much must be eased in because a gore widens below.",
        Asks =
        [
            Ask.Whole("gores", "Gores", 1, 50, "6", "All of one shape; work out each shape for itself."),
            Ask.Above("top", "Gore at the top", "4 in", "Seams not in it."),
            Ask.Above("bottom", "Gore at the hem", "10 in", "Seams not in it."),
            Ask.Above("height", "Gore from top to hem", "30 in", "On the flat cloth, before the tucks are sewn."),
            Ask.Plain("fromHem", "Hem to lowest stitching", "3 in", "On the flat cloth, to the stitching line nearest the hem."),
            .. AskedTucks.Equal(50), Easing.Ask,
        ],
        Example = """{"gores":6,"top":"4 in","bottom":"10 in","height":"30 in","fromHem":"3 in","tucks":3,"width":"1/2 in","space":"1/4 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var skirt = new GoredTucks(asked.Whole("gores"), asked.Length("top"), asked.Length("bottom"), asked.Length("height"), asked.Length("fromHem"),
            asked.Whole("tucks"), asked.Length("width"), AskedTucks.Space(asked));
        asked.Check(skirt.Bottom >= skirt.Top, "bottom", T($"{asked.Show(skirt.Bottom)} is less than the top of {asked.Show(skirt.Top)}: a gore is as wide at the hem as at the top, or wider."));
        asked.Check(skirt.Reach <= skirt.Height, "height",
            T($"The tucks reach {asked.Show(skirt.Reach)} up from the hem; a gore of {asked.Show(skirt.Height)} is too short for them: it must be at least {asked.Show(skirt.Reach)}."));
        asked.Throw();
        var lines = skirt.Lines;
        var answer = new Answer(asked.Unit)
            .Figure("easeEachGore", "To ease in each tuck, each gore", skirt.Ease, "the lower stitching line is longer than the upper by this")
            .Figure("easeRound", "To ease in each tuck, all round", (skirt.Gores * (skirt.Bottom - skirt.Top)).Times(2 * skirt.Width, skirt.Height))
            .Figure("takeUp", "The tucks take up", 2 * skirt.Tucks * skirt.Width)
            .Figure("finishedHeight", "Length when sewn", skirt.Height - (2 * skirt.Tucks * skirt.Width));
        if (skirt.Tucks > 1)
        {
            answer.Apart(skirt.Width, skirt.Space);
        }

        Easing.Say(answer, asked, [.. lines.Select(l => Easing.Percent(l.Lower - l.Upper, l.Upper))]);
        return answer
            .Table("lines", "Each tuck, from the hem upwards: width of one gore",
                [new("tuck", "Tuck"), new("fromHem", "Hem to lower stitching"), new("lower", "At the lower stitching"), new("fold", "At the fold"), new("upper", "At the upper stitching"), new("round", "Upper stitching, all round")],
                lines.Select(l => (IReadOnlyList<object?>)[l.Tuck, l.FromHem, l.Lower, l.Fold, l.Upper, skirt.Gores * l.Upper]))
            .Note("A gore widens evenly, so both stitching lines of a tuck differ by twice its width times what the gore widens in each inch: plain geometry.")
            .Note("The tucks are taken straight across each gore. Sew the gores together first, ease each tuck at the seams rather than in the middle, and press before the next.")
            .Drawn(N(
                skirt.Tucks,
                $"One gore of {asked.Show(skirt.Top)} to {asked.Show(skirt.Bottom)} with {skirt.Tucks} tuck; it has {asked.Show(skirt.Ease)} to ease.",
                $"One gore of {asked.Show(skirt.Top)} to {asked.Show(skirt.Bottom)} with {skirt.Tucks} tucks; each has {asked.Show(skirt.Ease)} to ease."), skirt.Picture(asked));
    }

    private Panel Picture(Asked asked)
    {
        var height = Height.Mm();
        (double X, double Y)[] Band(Length low, Length high) =>
            [(-At(low).Mm() / 2, height - low.Mm()), (At(low).Mm() / 2, height - low.Mm()), (At(high).Mm() / 2, height - high.Mm()), (-At(high).Mm() / 2, height - high.Mm())];
        var outline = Band(Length.Zero, Height);
        var sketch = new Sketch(130);
        var to = new Scaled(outline, 20, 14, 110, 98);
        sketch.Area(to.At(outline), Ink.Cloth);
        foreach (var line in Lines)
        {
            sketch.Area(to.At(Band(line.FromHem, line.FromHem + (2 * Width))), Ink.TakenUp);
            foreach (var (up, ink) in new[] { (line.FromHem, Ink.Stitching), (line.FromHem + Width, Ink.Fold), (line.FromHem + (2 * Width), Ink.Stitching) })
            {
                sketch.Path(to.At(Band(up, up)[..2]), ink);
            }
        }

        sketch.Across(to.At(-Top.Mm() / 2, 0).X, to.At(Top.Mm() / 2, 0).X, 11, asked.Show(Top)).Across(to.At(-Bottom.Mm() / 2, 0).X, to.At(Bottom.Mm() / 2, 0).X, 122, asked.Show(Bottom));
        return sketch.Down(146, to.At(0, 0).Y, to.At(0, height).Y, asked.Show(Height)).Panel();
    }
}
