using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>Pleats for a section or from a length of cloth: the sum with its route and page.</summary>
internal static class PleatSum
{
    private const int MostDrawn = 80;

    public static Sum Sum { get; } = new()
    {
        Slug = "pleats",
        Shelf = Shelf.Fullness,
        Title = "Pleats",
        Lead = "Cloth, count, depth and every fold line of knife, box and inverted pleats; a count that does not come out whole is rounded both ways.",
        Asks =
        [
            Ask.Choice("kind", "Kind", "Normal pleats are as deep as they are wide, shallow ones less deep, overlapping ones deeper.",
                ("normal", "Normal: they meet"), ("shallow", "Shallow"), ("overlapping", "Overlapping"), ("box", "Box"), ("inverted", "Inverted")).Optional(),
            Ask.Above("finished", "Finished section", "92 cm", "When pleated. Give this or the flat cloth.").Optional(),
            Ask.Above("flat", "Flat cloth", "236 cm", "Without seams, where you start from a piece you have.").Optional(),
            Ask.Above("width", "Width of a pleat", "5 cm", "From fold to fold as seen; of a box pleat its face. Give this or the count.").Optional(),
            Ask.Whole("count", "Pleats", 1, PleatRequest.MostPleats, "18", "With a width too, box pleats stand apart.").Optional(),
            Ask.Above("depth", "Depth", "4 cm", "From the fold to the under fold. Normal pleats are as deep as wide.").Optional(),
            Ask.Plain("seams", "For the seams", "2 cm", "Both ends together."),
            Ask.Above("cutDepth", "Cut length", "15 cm", "Of the pleated piece from top to bottom, hem included.").Optional(),
            .. Strips.Asks,
        ],
        Example = """{"kind":"shallow","finished":"92 cm","width":"5 cm","depth":"4 cm","loom":"90 cm","join":"1 cm","cutDepth":"15 cm"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var kind = asked.Text("kind") is { Length: > 0 } word ? Enum.Parse<PleatKind>(word, ignoreCase: true) : PleatKind.Normal;
        var ways = new PleatRequest(asked, kind).Ways();
        var (answer, seams) = (new Answer(asked.Unit), asked.Length("seams"));
        var whole = ways.Count == 1 && ways[0].Word == "whole";
        answer.Figure("comesOutWhole", "The count comes out whole", whole);
        var strips = ways.Select(w => Strips.Read(asked, w.Pleats.Cloth + seams, asked.LengthOrNull("cutDepth"))).ToList();
        if (whole)
        {
            var p = ways[0].Pleats;
            answer.Figure("count", "Pleats", p.Count).Figure("width", "Width of each", p.Width).Figure("depth", "Depth of each", p.Depth)
                .Figure("takeUp", "Taken up", p.TakeUp, "2 × depth for each fold").Figure("flat", "Flat cloth", p.Cloth).Figure("withSeams", "Flat cloth with seams", p.Cloth + seams)
                .Figure("finished", "Finished section", p.Finished);
        }
        else
        {
            answer.Caution("not-whole", "The count does not come out whole as asked. Each rounding is shown with its corrected width: choose one before you mark.");
        }

        answer.Table("ways", whole ? "The pleats" : "Rounded, each with its corrected width",
                [new("way", "Count"), new("count", "Pleats"), new("width", "Width of each"), new("depth", "Depth"), new("face", "Face"), new("takeUp", "Taken up"), new("flat", "Flat cloth"), new("withSeams", "With seams"), new("finished", "Finished"), new("ratio", "Flat ÷ finished"), new("lies", "They lie"), new("strips", "Strips"), new("cloth", "Length of cloth")],
                ways.Select((w, i) => (IReadOnlyList<object?>)[T(w.Word), w.Pleats.Count, w.Pleats.Width, w.Pleats.Depth, kind == PleatKind.Box ? w.Pleats.Face : null, w.Pleats.TakeUp, w.Pleats.Cloth, w.Pleats.Cloth + seams, w.Pleats.Finished,
                    Pleats.Ratio(kind, w.Pleats.Depth, w.Pleats.Width), Lies(w.Pleats), strips[i]?.Count, strips[i]?.Cloth]))
            .Table("lines", "Every line, from the start", [new("way", "Count"), new("pleat", "Pleat"), new("line", "Line"), new("flat", "On the flat cloth"), new("finished", "When pleated")],
                ways.SelectMany(w => w.Pleats.Lines().Select(l => (IReadOnlyList<object?>)[T(w.Word), l.Pleat, T(l.What), l.Flat, l.Finished])));
        AddBothWays(answer, ways[0].Pleats);
        AddNotes(asked, answer, ways);
        return answer.Drawn(string.Join(" ", ways.Select(w => whole
                ? N(
                    w.Pleats.Count,
                    $"{w.Pleats.Count} pleat: {asked.Show(w.Pleats.Cloth)} of flat cloth with its lines, and the same laid to {asked.Show(w.Pleats.Finished)}.",
                    $"{w.Pleats.Count} pleats: {asked.Show(w.Pleats.Cloth)} of flat cloth with its lines, and the same laid to {asked.Show(w.Pleats.Finished)}.")
                : N(
                    w.Pleats.Count,
                    $"{w.Pleats.Count} pleat ({T(w.Word)}): {asked.Show(w.Pleats.Cloth)} of flat cloth with its lines, and the same laid to {asked.Show(w.Pleats.Finished)}.",
                    $"{w.Pleats.Count} pleats ({T(w.Word)}): {asked.Show(w.Pleats.Cloth)} of flat cloth with its lines, and the same laid to {asked.Show(w.Pleats.Finished)}."))),
            ways.SelectMany(w => Pictures(asked, w.Pleats)));
    }

    private static string Lies(Pleats p) => Pleats.Word(p.Kind is PleatKind.Box or PleatKind.Inverted ? p.Kind : Pleats.Classify(p.Depth, p.Width));

    /// <summary>The table that reads both ways: cloth for this section, and section from this cloth, for other depths.</summary>
    private static void AddBothWays(Answer answer, Pleats p) => answer
        .Table("bothWays", "Other depths, read either way", [new("depth", "Depth"), new("lies", "They lie"), new("ratio", "Flat ÷ finished"), new("flat", "Cloth for this section"), new("finished", "Section from this cloth")],
            new[] { 2, 3, 4, 5, 6 }.Select(quarters => (p.Width * quarters).DividedBy(4)).Select(depth => (IReadOnlyList<object?>)
            [
                depth, Lies(p with { Depth = depth }), Pleats.Ratio(p.Kind, depth, p.Width),
                p.Finished + (2 * Pleats.Sides(p.Kind) * p.Count * depth), Gathered.OfFlat(p.Cloth, Pleats.Ratio(p.Kind, depth, p.Width)).Finished,
            ]));

    private static void AddNotes(Asked asked, Answer answer, IReadOnlyList<(string Word, Pleats Pleats)> ways)
    {
        answer.Note("Cloth = finished + 2 × depth for each fold: pleats are tucks that are not sewn down.", "Dress Making, NIMI, pp. 202–205; Baldt, Clothing for Women (1916), p. 401")
            .Note("Pleats that meet take three times the finished length.", "Hapgood, School Needlework; NIMI, p. 204; The New Dressmaker (1921)")
            .Note("Rounding the count up or down is free; the width must then be worked out again.", "NIMI, pp. 203 and 209");
        foreach (var p in ways.Select(w => w.Pleats))
        {
            var over = (2 * p.Depth) - (p.Kind == PleatKind.Box ? p.Face : p.Width);
            if (p.Kind is PleatKind.Box or PleatKind.Inverted && over > Length.Zero)
            {
                answer.Caution("folds-overlap", N(
                    p.Count,
                    $"With {p.Count} pleat the under folds lie over one another by {asked.Show(over)} at the back: thick in all but fine cloth.",
                    $"With {p.Count} pleats the under folds lie over one another by {asked.Show(over)} at the back: thick in all but fine cloth."));
            }
            else if (p.Kind is PleatKind.Normal or PleatKind.Shallow or PleatKind.Overlapping && p.Depth > p.Width)
            {
                answer.Caution("folds-overlap", N(
                    p.Count,
                    $"With {p.Count} pleat the fold lies {asked.Show(p.Depth - p.Width)} beyond the section: leave plain cloth there, or turn it into the seam.",
                    $"With {p.Count} pleats each fold lies {asked.Show(p.Depth - p.Width)} over the next, and the last by as much beyond the section: leave plain cloth there, or turn it into the seam."));
            }
        }
    }

    private static IEnumerable<Panel> Pictures(Asked asked, Pleats p)
    {
        var lines = p.Lines();
        var drawn = lines.Where(l => l.Pleat <= MostDrawn).ToList();
        var least = Math.Min(0, lines.Min(l => l.Finished).Mm());
        var most = Math.Max(p.Finished.Mm(), lines.Max(l => l.Finished).Mm());
        var some = p.Count > MostDrawn ? T($", lines of the first {MostDrawn} pleats") : "";

        var flat = new Sketch(34);
        var scale = flat.ScaleFor(p.Cloth);
        flat.Box(Sketch.Margin, 14, flat.Room, 14, Ink.Cloth).Across(Sketch.Margin, Sketch.Margin + flat.Room, 10, T($"flat {asked.Show(p.Cloth)}{some}"));
        foreach (var pleat in drawn.GroupBy(l => l.Pleat))
        {
            var (from, to) = (X(pleat.First().Flat), X(pleat.Last().Flat));
            if (p.Kind == PleatKind.Box)
            {
                var (left, right) = (X(pleat.ElementAt(2).Flat), X(pleat.ElementAt(3).Flat));
                flat.Box(from, 14, left - from, 14, Ink.TakenUp).Box(right, 14, to - right, 14, Ink.TakenUp);
            }
            else
            {
                flat.Box(from, 14, to - from, 14, Ink.TakenUp);
            }

            foreach (var line in pleat)
            {
                flat.Line(X(line.Flat), 14, X(line.Flat), 28, InkOf(line, drawn.Count));
            }

            if (p.Count <= 30)
            {
                flat.Text((from + to) / 2, 32, $"{pleat.Key}");
            }
        }

        yield return flat.Panel();

        var laid = new Sketch(34);
        var across = laid.Room / (most - least);
        laid.Box(Laid(0), 14, p.Finished.Mm() * across, 14, Ink.Cloth).Across(Laid(0), Laid(p.Finished.Mm()), 10, T($"pleated {asked.Show(p.Finished)}"));
        foreach (var pleat in drawn.GroupBy(l => l.Pleat))
        {
            var (from, to) = (pleat.Min(l => l.Finished).Mm(), pleat.Max(l => l.Finished).Mm());
            laid.Box(Laid(from), 15, (to - from) * across, 12, Ink.Tuck);
        }

        foreach (var line in drawn)
        {
            var x = Laid(line.Finished.Mm());
            laid.Line(x, 15, x, 27, InkOf(line, drawn.Count));
        }

        yield return laid.Panel();

        double X(Length at) => Sketch.Margin + (at.Mm() * scale);

        double Laid(double mm) => Sketch.Margin + ((mm - least) * across);
    }

    private static Ink InkOf(PleatLine line, int lines) => line.What switch
    {
        "fold" => lines > 120 ? Ink.FoldFine : Ink.Fold,
        "under fold" => Ink.CutEdge,
        _ => Ink.Stitching,
    };
}
