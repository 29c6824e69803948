using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>Cloth for a straight skirt or petticoat of several breadths. Exact.</summary>
/// <param name="Breadths">1 or more; two are usual in the books.</param>
/// <param name="Finished">Length of the skirt when done, its ruffle in it.</param>
/// <param name="Ruffle">Depth of a ruffle at its foot; zero for none.</param>
/// <param name="Hem">Depth of the hem; zero for none.</param>
/// <param name="Turnings">First turn of the hem and the seam at the top, together.</param>
/// <param name="TakeUp">What tucks take up.</param>
/// <remarks>Burton, School Sewing (1916): two lengths and two hems; Garments for Girls (c. 1919): length less ruffle, twice.</remarks>
public sealed record PetticoatCloth(int Breadths, Length Finished, Length Ruffle, Length Hem, Length Turnings, Length TakeUp)
{
    /// <summary>Each breadth as cut.</summary>
    public Length Each => Finished - Ruffle + Hem + Turnings + TakeUp;

    /// <summary>All breadths, one after the other along the cloth.</summary>
    public Length Cloth => Breadths * Each;

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "petticoat-cloth",
        Shelf = Shelf.Cloth,
        Title = "Hem and cloth of a petticoat",
        Lead = "How long to cut each breadth of a straight skirt, with its hem, its tucks and its ruffle, and how much cloth that is.",
        Asks =
        [
            Ask.Above("finished", "Length when done", "36 in", "From band to lower edge, the ruffle in it."),
            Ask.Whole("breadths", "Breadths", 1, 50, "2").Optional(),
            Ask.Plain("ruffle", "Depth of the ruffle", "6 in", "Its own cloth is another sum."),
            Ask.Plain("hem", "Depth of the hem", "3 in"),
            Ask.Plain("turn", "First turn of the hem", "1/4 in"),
            Ask.Plain("seam", "Seam at the top and above a ruffle", "1/2 in", "Both together."),
            Ask.Plain("takeUp", "Tucks take up", "2 in", "Twice the width of each."),
        ],
        Example = """{"finished":"36 in","breadths":2,"ruffle":"6 in","seam":"1/2 in","takeUp":"2 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var cloth = new PetticoatCloth(asked.Whole("breadths", 2), asked.Length("finished"), asked.Length("ruffle"), asked.Length("hem"),
            asked.Length("turn") + asked.Length("seam"), asked.Length("takeUp"));
        asked.Check(cloth.Ruffle < cloth.Finished, "ruffle", T($"A ruffle of {asked.Show(cloth.Ruffle)} leaves no skirt of {asked.Show(cloth.Finished)}: it must be less."));
        asked.Throw();
        return new Answer(asked.Unit)
            .Figure("cutLength", "Cut each breadth long", cloth.Each, T($"hem and turnings of {asked.Show(cloth.Hem + cloth.Turnings)} and {asked.Show(cloth.TakeUp)} for tucks in it"))
            .Figure("cloth", "Cloth for all breadths", cloth.Cloth, "the ruffle's own cloth not in it")
            .Figure("skirt", "Skirt above the ruffle", cloth.Finished - cloth.Ruffle)
            .Table("usualHems", "Hems in the books", [new("what", "Skirt"), new("hem", "Hem"), new("source", "Source")],
            [
                [T("Baby's skirt, well-to-do"), Nails(4), T("The Workwoman's Guide (1838): 4 nails")],
                [T("Baby's skirt, plain"), Nails(1), T("The Workwoman's Guide (1838): 1 nail")],
                [T("Petticoat, cut with two hems"), Length.FromSixtyFourthsOfInch(3 * 64), T("Burton, School Sewing (1916): 3 in in the worked case")],
            ])
            .Note("Plain petticoat: twice the length and twice the hem.", "Burton, School Sewing Based on Home Problems (1916)")
            .Note("With a ruffle: the length less the ruffle, twice.", "Garments for Girls (c. 1919), six-gored petticoat")
            .Note("A hem has a first turn as well, 1/4 in in the books.", "Baldt, Clothing for Women (1916)")
            .Drawn(T($"One breadth of {asked.Show(cloth.Each)}, laid from top to lower edge."), cloth.Picture(asked));
    }

    private static Length Nails(int count) => count * Length.FromSixtyFourthsOfInch(144);

    private Panel Picture(Asked asked)
    {
        var sketch = new Sketch(46);
        var scale = sketch.ScaleFor(Each);
        var (skirt, tucks, hem) = ((Finished - Ruffle).Mm() * scale, TakeUp.Mm() * scale, (Hem + Turnings).Mm() * scale);
        sketch.Box(Sketch.Margin, 14, skirt, 22, Ink.Cloth).Box(Sketch.Margin + skirt, 14, tucks, 22, Ink.TakenUp).Box(Sketch.Margin + skirt + tucks, 14, hem, 22, Ink.Allowance)
            .Across(Sketch.Margin, Sketch.Margin + sketch.Room, 10, asked.Show(Each));
        return sketch.Text(90, 42, T("from left to right: skirt, what tucks take up, hem and turnings"), Ink.Caption).Panel();
    }
}
