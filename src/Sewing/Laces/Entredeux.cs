using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>So many holes that come out as long as so many of something else.</summary>
/// <param name="Holes">Of the entredeux.</param>
/// <param name="Others">Tucks or slots.</param>
/// <param name="Off">By how much the holes are longer; below zero they are shorter.</param>
public sealed record HoleMatch(long Holes, int Others, Length Off);

/// <summary>Entredeux: a row of holes between two strips of cloth. Whole numbers; what is shown is rounded once to the nanometre.</summary>
/// <param name="Holes">Counted.</param>
/// <param name="Over">The length they were counted over.</param>
public sealed record Entredeux(int Holes, Length Over)
{
    private const int MostMatched = 24;

    /// <summary>From hole to hole.</summary>
    public Length Pitch => Over.DividedBy(Holes);

    /// <summary>Length of so many holes.</summary>
    public Length LengthOf(long holes) => (holes * Over).DividedBy(Holes);

    /// <summary>Whole holes in a length.</summary>
    public long HolesIn(Length length) => (long)((Int128)length.Nanometres * Holes / Over.Nanometres);

    /// <summary>Where holes and another pitch come together again, the nearer the longer: each entry is closer than all before, down to exact or to 24 of the other.</summary>
    /// <param name="pitch">Of tucks, stitching to stitching, or of the slots of beading.</param>
    public IReadOnlyList<HoleMatch> Match(Length pitch)
    {
        var found = new List<HoleMatch>();
        for (var others = 1; others <= MostMatched && (found.Count == 0 || found[^1].Off != Length.Zero); others++)
        {
            var holes = (long)Length.Rounded((System.Numerics.BigInteger)others * pitch.Nanometres * Holes, Over.Nanometres);
            var off = LengthOf(holes) - (others * pitch);
            if (holes > 0 && (found.Count == 0 || Math.Abs(off.Nanometres) < Math.Abs(found[^1].Off.Nanometres)))
            {
                found.Add(new(holes, others, off));
            }
        }

        return found;
    }

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "entredeux",
        Shelf = Shelf.Lace,
        Title = "Entredeux and its holes",
        Lead = "How many holes a length of entredeux has, how wide it is trimmed, where to cut so that holes stay whole, and how its holes meet tucks or beading.",
        Asks =
        [
            Ask.Whole("holes", "Holes counted", 1, 10_000, "18"),
            Ask.Above("over", "Over a length of", "2 in", "Count over 2 in or more: one inch is easily half a hole out."),
            Ask.Above("length", "Length wanted", "10 in"),
            Ask.Above("width", "Width of the strip", "1/2 in", "With the cloth at both sides."),
            Ask.Plain("trim", "Cloth cut away at each side", "3/16 in"),
            Ask.Above("match", "Holes to meet every", "3/8 in", "Stitching to stitching of tucks, or from slot to slot of beading.").Optional(),
            LaceCare.Ends,
        ],
        Example = """{"holes":18,"over":"2 in","length":"10 in","width":"1/2 in","trim":"3/16 in","match":"3/8 in","ends":"1/2 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var strip = new Entredeux(asked.Whole("holes"), asked.Length("over"));
        var (length, width, trim, ends) = (asked.Length("length"), asked.Length("width"), asked.Length("trim"), asked.Length("ends"));
        asked.Check(strip.Pitch > Length.Zero, "over", T($"{strip.Holes} holes do not lie on {asked.Show(strip.Over)}: count them over a longer piece."));
        asked.Check(width > 2 * trim, "trim", T($"Cutting {asked.Show(trim)} from each side leaves nothing of {asked.Show(width)}: it must be less than {asked.Show(width.DividedBy(2))}."));
        asked.Throw();
        var fewer = strip.HolesIn(length);
        var whole = strip.LengthOf(fewer) == length;
        var counts = fewer == 0 ? [1L] : whole ? [fewer] : new[] { fewer, fewer + 1 };
        var holes = counts[^1];
        var answer = new Answer(asked.Unit)
            .Figure("holes", "Holes for that length", holes, whole ? "they come out whole" : "rounded up: see both below")
            .Figure("lace", "Entredeux to cut", strip.LengthOf(holes) + (2 * ends), LaceCare.Holds(asked, ends))
            .Figure("pitch", "From hole to hole", strip.Pitch)
            .Figure("perInch", "Holes in 1 in", decimal.Round((decimal)strip.Holes * Length.Inch / strip.Over.Nanometres, 2))
            .Figure("perCm", "Holes in 1 cm", decimal.Round(strip.Holes * 10_000_000m / strip.Over.Nanometres, 2))
            .Figure("trimmed", "Trimmed width", width - (2 * trim))
            .Table("whole", "Cut at whole holes", [new("holes", "Holes"), new("length", "Length as it shows"), new("off", "Longer than asked by")],
                counts.Select(n => (IReadOnlyList<object?>)[n, strip.LengthOf(n), strip.LengthOf(n) - length]));
        if (asked.LengthOrNull("match") is { } pitch)
        {
            var matches = strip.Match(pitch);
            answer.Table("matches", "Where the holes meet them again", [new("holes", "Holes"), new("others", "Tucks or slots"), new("off", "Holes longer by")],
                matches.Select(m => (IReadOnlyList<object?>)[m.Holes, m.Others, m.Off]))
                .Figure("meets", "They meet exactly", matches.Count > 0 && matches[^1].Off == Length.Zero, matches.Count > 0 && matches[^1].Off == Length.Zero ? T($"every {matches[^1].Others}") : "only nearly: see the table");
        }

        return answer
            .Note("A hole is whole or it frays: cut in the middle of a bar between two holes, and let corners and ends fall on a bar. Common practice.")
            .Note("Trim the second side only after the first is sewn: the cloth keeps the strip straight.")
            .LayOutFirst()
            .Drawn(T($"Entredeux with {holes} holes on {asked.Show(strip.LengthOf(holes))}; the part drawn shows the first of them."), strip.Picture(asked, width, trim, (int)Math.Min(holes, 16)));
    }

    private Panel Picture(Asked asked, Length width, Length trim, int drawn)
    {
        var (pitch, wide, cut) = ((double)Over.Nanometres / Holes / 1e6, width.Mm(), trim.Mm());
        var sketch = new Sketch(60);
        var to = new Scaled([(0, 0), (drawn * pitch, wide)], Sketch.Margin, 14, sketch.Room, 32);
        void Box(double x, double y, double w, double h, Ink ink)
        {
            var (left, top) = to.At(x, y);
            sketch.Box(left, top, w * to.By, h * to.By, ink);
        }

        Box(0, 0, drawn * pitch, wide, Ink.Allowance);
        Box(0, cut, drawn * pitch, wide - (2 * cut), Ink.Lace);
        for (var i = 0; i < drawn; i++)
        {
            Box((i + 0.25) * pitch, cut + ((wide - (2 * cut)) / 4), pitch / 2, (wide - (2 * cut)) / 2, Ink.Ground);
        }

        return sketch.Across(to.At(0, 0).X, to.At(pitch, 0).X, 10, asked.Show(Pitch)).Text(90, 56, T($"{asked.Show(width)} wide, trimmed to {asked.Show(width - (2 * trim))}"), Ink.Caption).Panel();
    }
}
