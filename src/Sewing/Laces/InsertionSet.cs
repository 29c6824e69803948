using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>Strips of insertion set in a piece of cloth. Exact.</summary>
/// <param name="Panel">Across the piece before, at its finished size.</param>
/// <param name="Strips">1 or more.</param>
/// <param name="Width">Of the insertion.</param>
/// <param name="Overlap">What each of its edges loses in the seam.</param>
/// <param name="Turning">Cloth turned back at each cut edge.</param>
/// <remarks>Butterick, The New Dressmaker (1921), ch. 27: narrow insertion over a slit, wide over cloth cut away with a seam left at each side.</remarks>
public sealed record InsertionSet(Length Panel, int Strips, Length Width, Length Overlap, Length Turning)
{
    /// <summary>What is seen of each strip.</summary>
    public Length Seen => Width - (2 * Overlap);

    /// <summary>Laid on and the cloth cut away behind it: the size stays.</summary>
    public Length LaidOn => Panel;

    /// <summary>True when the strips find room on the piece side by side, some cloth between them.</summary>
    public bool LiesOn => Strips * Seen < Panel;

    /// <summary>By how much each strip changes the size when it is let in between two cut edges: its width less two turnings.</summary>
    public Length ChangeEach => Seen - (2 * Turning);

    /// <summary>Let in: the size afterwards.</summary>
    public Length LetIn => Panel + (Strips * ChangeEach);

    /// <summary>Cut away behind a strip that is laid on; zero where the cloth is only slit through the middle.</summary>
    public Length CutAway => ChangeEach > Length.Zero ? ChangeEach : Length.Zero;

    /// <summary>Turned back at each side behind a strip that is laid on.</summary>
    public Length TurnedBack => ChangeEach > Length.Zero ? Turning : Seen.DividedBy(2);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "insertion",
        Shelf = Shelf.Lace,
        Title = "Insertion laid on or let in",
        Lead = "What insertion does to the size of a piece: laid on it keeps the size, let in it adds its width less the seams; and strips joined edge to edge.",
        Asks =
        [
            Ask.Choice("set", "The insertion is", "", ("laid-on", "laid on, the cloth cut away behind it"), ("let-in", "let in between two cut edges")).Optional(),
            Ask.Above("panel", "Piece across, before", "20 in", "At its finished size, its own side seams not in it."),
            Ask.Whole("strips", "Strips of insertion", 1, 100, "2").Optional(),
            Ask.Above("width", "Width of the insertion", "3/4 in"),
            Ask.Plain("overlap", "Each of its edges loses in the seam", "1/16 in", "Only where an edge of the insertion is covered."),
            Ask.Plain("turning", "Cloth turned at each cut edge", "1/4 in", "Twice this for each strip."),
            Ask.Above("length", "Length of a strip", "24 in", "As it shows."),
            Ask.Lengths("bands", "Bands of cloth between joined strips", 1, 100, "1 1/4 in", "As they show; then the width of the joined piece is told.").Optional(),
            LaceCare.Ends,
        ],
        Example = """{"set":"let-in","panel":"20 in","strips":3,"width":"3/4 in","turning":"1/4 in","length":"24 in","bands":["2 in","2 in"],"ends":"1/2 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var set = new InsertionSet(asked.Length("panel"), asked.Whole("strips", 1), asked.Length("width"), asked.Length("overlap"), asked.Length("turning"));
        var (letIn, ends) = (asked.Text("set") == "let-in", asked.Length("ends"));
        asked.Check(set.Seen > Length.Zero, "overlap", T($"Two edges of {asked.Show(set.Overlap)} cover the whole insertion of {asked.Show(set.Width)}: each must be less than {asked.Show(set.Width.DividedBy(2))}."));
        asked.Check(set.Strips * 2 * set.Turning < set.Panel, "turning", N(
            set.Strips,
            $"{set.Strips} strip with turnings of {asked.Show(set.Turning)} uses up the piece of {asked.Show(set.Panel)}: a turning must be less than {asked.Show(set.Panel.DividedBy(2 * set.Strips))}.",
            $"{set.Strips} strips with turnings of {asked.Show(set.Turning)} use up the piece of {asked.Show(set.Panel)}: a turning must be less than {asked.Show(set.Panel.DividedBy(2 * set.Strips))}."));
        asked.Check(set.LiesOn || letIn, "strips", N(
            set.Strips,
            $"{set.Strips} strip of {asked.Show(set.Seen)} does not lie on {asked.Show(set.Panel)}: take a narrower one, or let it in.",
            $"{set.Strips} strips of {asked.Show(set.Seen)} do not lie on {asked.Show(set.Panel)}: take fewer or narrower ones, or let them in."));
        asked.Throw();
        var strip = asked.Length("length") + (2 * ends);
        var answer = new Answer(asked.Unit)
            .Figure("finished", "Piece across, after", letIn ? set.LetIn : set.LaidOn)
            .Figure("change", "The size changes by", letIn ? set.Strips * set.ChangeEach : Length.Zero)
            .Figure("seen", "Seen of each strip", set.Seen)
            .Figure("stripLength", "Each strip, to cut", strip, LaceCare.Holds(asked, ends))
            .Figure("lace", "Insertion in all", set.Strips * strip, LaceCare.Holds(asked, ends, "each strip"));
        if (!letIn)
        {
            answer.Figure("cutAway", "Cut away behind each strip", set.CutAway, set.CutAway > Length.Zero ? "" : "only slit the cloth through the middle")
                .Figure("turnedBack", "Turned back at each side", set.TurnedBack);
        }

        var bands = asked.Lengths("bands");
        if (bands.Count > 0)
        {
            answer.Figure("joined", "Strips and bands joined edge to edge", bands.Aggregate(set.Strips * set.Seen, (sum, b) => sum + b), T($"as they show; strips: {set.Strips}, bands: {bands.Count}"));
        }

        return answer
            .Table("ways", "Both ways side by side", [new("way", "Way"), new("finished", "Piece across, after"), new("change", "Changes by")],
                set.LiesOn ? [[T("laid on"), set.LaidOn, Length.Zero], [T("let in"), set.LetIn, set.Strips * set.ChangeEach]] : [[T("let in"), set.LetIn, set.Strips * set.ChangeEach]])
            .Note("Behind narrow insertion slit the cloth through the middle and turn it back; behind wide cut it away and leave a seam at each side.", "Butterick, The New Dressmaker (1921), ch. 27")
            .Note("Let in, a strip adds its width less the cloth turned at both edges; joined edge to edge, the widths that show add up: plain geometry.")
            .LayOutFirst()
            .Drawn(N(
                set.Strips,
                $"{set.Strips} strip of {asked.Show(set.Seen)}; the piece is {asked.Show(letIn ? set.LetIn : set.LaidOn)} across afterwards.",
                $"{set.Strips} strips of {asked.Show(set.Seen)}; the piece is {asked.Show(letIn ? set.LetIn : set.LaidOn)} across afterwards."),
                set.LiesOn ? [set.Picture(asked, false), set.Picture(asked, true)] : [set.Picture(asked, true)]);
    }

    private Panel Picture(Asked asked, bool letIn)
    {
        var sketch = new Sketch(36);
        var (whole, longest) = (letIn ? LetIn : LaidOn, LetIn > LaidOn ? LetIn : LaidOn);
        var scale = sketch.ScaleFor(longest);
        var width = whole.Mm() * scale;
        sketch.Box(Sketch.Margin, 12, width, 16, Ink.Cloth);
        for (var i = 1; i <= Strips; i++)
        {
            var cloth = (whole - (Strips * Seen)).Mm() * scale / (Strips + 1);
            sketch.Box(Sketch.Margin + (i * cloth) + ((i - 1) * Seen.Mm() * scale), 12, Seen.Mm() * scale, 16, Ink.Lace);
        }

        return sketch.Across(Sketch.Margin, Sketch.Margin + width, 8, asked.Show(whole))
            .Text(Sketch.Margin, 33, letIn ? T("let in") : T("laid on"), Ink.Caption, anchor: Anchor.Start).Panel();
    }
}
