using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>The three lines of a tuck that follows a curved hem, on the flat cloth.</summary>
/// <param name="Tuck">From the hem upwards, from 1.</param>
/// <param name="LowerRadius">Of the stitching line nearer the hem.</param>
/// <param name="FoldRadius">Of the fold.</param>
/// <param name="UpperRadius">Of the stitching line nearer the waist.</param>
/// <param name="Lower">Along the lower stitching line.</param>
/// <param name="Fold">Along the fold.</param>
/// <param name="Upper">Along the upper stitching line.</param>
public sealed record CurvedTuck(int Tuck, Length LowerRadius, Length FoldRadius, Length UpperRadius, Length Lower, Length Fold, Length Upper)
{
    /// <summary>By how much the lower stitching line is longer than the upper one it is sewn to.</summary>
    public Length Ease => Lower - Upper;
}

/// <summary>A tuck cut apart as a curved band, to stitch on a skirt in which no cloth is taken up.</summary>
/// <param name="Tuck">From the hem upwards, from 1.</param>
/// <param name="InnerRadius">Of its stitched edge.</param>
/// <param name="Inner">Along its stitched edge.</param>
/// <param name="OuterRadius">Of its lower edge.</param>
/// <param name="Outer">Along its lower edge.</param>
public sealed record ShapedBand(int Tuck, Length InnerRadius, Length Inner, Length OuterRadius, Length Outer);

/// <summary>Tucks parallel to the hem of a circular piece. Each length is worked out in floating point and rounded once to the nanometre.</summary>
/// <param name="Waist">Along the waist line, above zero.</param>
/// <param name="Part">Of a circle: 1 whole, 0.5 half.</param>
/// <param name="Skirt">From waist to hem on the flat cloth.</param>
/// <param name="FromHem">From the hem to the lowest stitching line, flat.</param>
/// <param name="Tucks">1 or more.</param>
/// <param name="Width">Fold to stitching.</param>
/// <param name="Space">The plain cloth seen between tucks.</param>
/// <remarks>That such tucks are fuller beneath and want easing: Butterick, The New Dressmaker (1921), ch. 20. The amounts are plain geometry.</remarks>
public sealed record CircularTucks(Length Waist, decimal Part, Length Skirt, Length FromHem, int Tucks, Length Width, Length Space)
{
    private double Turn => 2 * Math.PI * (double)Part;

    /// <summary>Waist over 2π times the part.</summary>
    public Length WaistRadius => Waist.Times(1 / Turn);

    /// <summary>Waist radius and length of the skirt.</summary>
    public Length HemRadius => WaistRadius + Skirt;

    /// <summary>Along the hem.</summary>
    public Length Hem => Along(Skirt);

    /// <summary>Length of the skirt when the tucks are sewn.</summary>
    public Length Finished => Skirt - (2 * Tucks * Width);

    /// <summary>From the hem to the uppermost stitching line, flat.</summary>
    public Length Reach => FromHem + ((Tucks - 1) * ((3 * Width) + Space)) + (2 * Width);

    /// <summary>Each tuck from the hem upwards.</summary>
    public IReadOnlyList<CurvedTuck> Lines => [.. Enumerable.Range(0, Tucks).Select(i =>
    {
        var down = Skirt - FromHem - (i * ((3 * Width) + Space));
        return new CurvedTuck(i + 1, WaistRadius + down, WaistRadius + down - Width, WaistRadius + down - (2 * Width),
            Along(down), Along(down - Width), Along(down - (2 * Width)));
    })];

    /// <summary>The same tucks as bands cut to the curve, for a skirt cut to the finished length.</summary>
    public IReadOnlyList<ShapedBand> Bands => [.. Enumerable.Range(0, Tucks).Select(i =>
    {
        var down = Finished - FromHem - (i * (Width + Space));
        return new ShapedBand(i + 1, WaistRadius + down, Along(down), WaistRadius + down + Width, Along(down + Width));
    })];

    private Length Along(Length down) => Waist + down.Times(Turn);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "circular-tucks",
        Shelf = Shelf.Cloth,
        Title = "Tucks round a circular hem",
        Lead = "Where each stitching line and fold falls on a circular piece, how long each is, and whether the cloth will ease the difference.",
        Asks =
        [
            Ask.Above("waist", "Waist line", "24 in", "Along the edge at the top of the piece, seams not in it."),
            Ask.Number("part", "Part of a circle", 0.05m, 1, "0.5", "1 for a whole circle, 0.5 for a half, 0.25 for a quarter."),
            Ask.Above("length", "Length of the piece", "30 in", "From waist line to hem edge on the flat cloth, before the tucks are sewn."),
            Ask.Plain("fromHem", "Hem to lowest stitching", "3 in", "On the flat cloth, to the stitching line nearest the hem."),
            .. AskedTucks.Equal(20), Easing.Ask,
        ],
        Example = """{"waist":"24 in","part":0.5,"length":"30 in","fromHem":"3 in","tucks":3,"width":"1/2 in","space":"1/4 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var piece = new CircularTucks(asked.Length("waist"), asked.Number("part"), asked.Length("length"), asked.Length("fromHem"),
            asked.Whole("tucks"), asked.Length("width"), AskedTucks.Space(asked));
        asked.Check(piece.Reach <= piece.Skirt, "length",
            T($"The tucks reach {asked.Show(piece.Reach)} up from the hem; a piece of {asked.Show(piece.Skirt)} is too short for them: it must be at least {asked.Show(piece.Reach)}."));
        asked.Throw();
        var lines = piece.Lines;
        var answer = new Answer(asked.Unit)
            .Figure("waistRadius", "Radius of the waist line", piece.WaistRadius)
            .Figure("hemRadius", "Radius of the hem", piece.HemRadius)
            .Figure("hem", "Along the hem", piece.Hem)
            .Figure("finishedLength", "Length when sewn", piece.Finished)
            .Figure("easeEach", "To ease in each tuck", lines[0].Ease, "the lower stitching line is longer than the upper by this");
        if (piece.Tucks > 1)
        {
            answer.Apart(piece.Width, piece.Space);
        }

        Easing.Say(answer, asked, [.. lines.Select(l => Easing.Percent(l.Ease, l.Upper))]);
        if (piece.FromHem < piece.Width)
        {
            answer.Caution("below-hem", T($"The lowest fold hangs {asked.Show(piece.Width - piece.FromHem)} below the hem edge."));
        }

        return answer
            .Table("lines", "Each tuck, from the hem upwards",
                [new("tuck", "Tuck"), new("lowerRadius", "Lower stitching, radius"), new("lower", "Along the lower stitching"), new("foldRadius", "Fold, radius"), new("fold", "Along the fold"),
                    new("upperRadius", "Upper stitching, radius"), new("upper", "Along the upper stitching"), new("ease", "To ease"), new("percent", "Per cent")],
                lines.Select(l => (IReadOnlyList<object?>)[l.Tuck, l.LowerRadius, l.Lower, l.FoldRadius, l.Fold, l.UpperRadius, l.Upper, l.Ease, Easing.Percent(l.Ease, l.Upper)]))
            .Table("shapedPieces", "Instead: bands cut to the curve, on a piece of the finished length",
                [new("tuck", "Band"), new("innerRadius", "Stitched edge, radius"), new("inner", "Along the stitched edge"), new("outerRadius", "Lower edge, radius"), new("outer", "Along the lower edge")],
                piece.Bands.Select(b => (IReadOnlyList<object?>)[b.Tuck, b.InnerRadius, b.Inner, b.OuterRadius, b.Outer]))
            .Note("Tucks on a circular piece are fuller beneath, and what is too much is eased in.", "Butterick, The New Dressmaker (1921), ch. 20; the amounts are plain geometry")
            .Note("The folds hang towards the hem; the fold and the lower stitching line are both longer than the upper line they are sewn to. Run an easing thread along the lower line, draw it in, and stitch along the upper.")
            .Note("A shaped band takes up no cloth: cut the piece to the finished length, and add turnings to the band.")
            .Drawn(N(
                piece.Tucks,
                $"A part of {answer.Say(piece.Part)} of a circle with {piece.Tucks} tuck above the hem; hem radius {asked.Show(piece.HemRadius)}.",
                $"A part of {answer.Say(piece.Part)} of a circle with {piece.Tucks} tucks above the hem; hem radius {asked.Show(piece.HemRadius)}."), piece.Picture(asked));
    }

    private Panel Picture(Asked asked)
    {
        const int MostFilled = 6; // so that a drawing of many tucks stays small
        var degrees = 360 * (double)Part;
        var (from, to) = (90 - (degrees / 2), 90 + (degrees / 2));
        IEnumerable<(double X, double Y)> Ring(Length radius) => Sketch.Arc(0, 0, radius.Mm(), from, to);
        (double X, double Y)[] outline = [.. Ring(WaistRadius), .. Ring(HemRadius).Reverse()];
        var sketch = new Sketch(120);
        var place = new Scaled(outline, 10, 6, 160, 98);
        sketch.Area(place.At(outline), Ink.Cloth);
        foreach (var line in Lines)
        {
            if (Tucks <= MostFilled)
            {
                sketch.Area(place.At([.. Ring(line.UpperRadius), .. Ring(line.LowerRadius).Reverse()]), Ink.TakenUp);
            }

            sketch.Path(place.At(Ring(line.LowerRadius)), Ink.Stitching).Path(place.At(Ring(line.FoldRadius)), Ink.Fold).Path(place.At(Ring(line.UpperRadius)), Ink.Stitching);
        }

        var (waist, hem) = (place.At(0, WaistRadius.Mm()), place.At(0, HemRadius.Mm()));
        sketch.Line(waist.X, waist.Y, hem.X, hem.Y, Ink.Datum);
        return sketch.Text(90, 112, T($"flat, waist radius {asked.Show(WaistRadius)}, hem radius {asked.Show(HemRadius)}"), Ink.Caption).Panel();
    }
}
