using System.Globalization;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Threads;

/// <summary>A number on a spool in all other systems.</summary>
internal static class ThreadCountSum
{
    public static Sum Sum { get; } = new()
    {
        Slug = "thread-count",
        Shelf = Shelf.Thread,
        Title = "What the number on the spool means",
        Lead = "A thread's number in tex, metric count, cotton count and denier, and about how thick the thread is.",
        Asks = SpoolNumber.Asks,
        Example = """{"system":"ne","written":"80/2","fibre":"cotton"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (thread, fibre) = (SpoolNumber.Read(asked), SpoolNumber.Fibre(asked));
        var size = thread.Size;
        var diameter = size.Diameter(fibre.Density, ThreadFibre.Packing);
        var answer = new Answer(LengthUnit.Millimetres)
            .Figure("tex", "Tex", Six(size.Tex), thread.IsExact ? "grams in 1 000 m" : "about; makers differ")
            .Figure("exact", "Exact by definition", thread.IsExact)
            .Figure("texExact", "Tex as a fraction", thread.IsExact ? size.Exact : null, "no rounding at all")
            .Figure("plies", "Plies", thread.Plies)
            .Figure("singleTex", "Tex of one ply", thread.IsExact ? Six(thread.OnePly.Tex) : null)
            .Figure("dtex", "Decitex", Six(size.Dtex))
            .Figure("denier", "Denier", Six(size.Denier))
            .Figure("nm", "Metric count of the whole thread", Six(size.Nm), "Nm; not the size of a needle")
            .Figure("ne", "Cotton count of the whole thread", Six(size.Ne), "Ne")
            .Figure("lea", "Linen count of the whole thread", Six(size.Lea))
            .Figure("diameter", "About so thick", diameter, "an estimate");
        if (thread.IsExact)
        {
            answer.Note("Tex, decitex, denier, metric, cotton and linen count follow from their definitions: 453.592 37 g × 1 000 / (840 × 0.9144 m) = 590.5412 is tex times cotton count. What twist shortens is left out, as on the spool.",
                "Three textile notes; the exact figure is plain arithmetic; the lea of 300 yd is written from memory");
        }
        else
        {
            answer.Figure("texLeast", "Tex, least", Six(size.Tex * (1 - SpoolNumber.Doubt))).Figure("texMost", "Tex, most", Six(size.Tex * (1 + SpoolNumber.Doubt)))
                .Caution("approximate", "Ticket, weight and old six-cord numbers differ by maker, by use (sewing, lace, embroidery) and by fibre. Weigh a measured length, 10 m on a fine scale, if it matters: grams in 10 m times 100 is tex.")
                .Note(T($"{Meaning(thread.System)} Written from memory; 15 % either way is a guess at how far makers differ."));
        }

        answer.Note(T($"The thickness takes the thread as round, of {T(fibre.Words).ToLowerInvariant()} at {fibre.Density.ToString("0.00", CultureInfo.InvariantCulture)} g/cm³, six tenths of it fibre: density from memory, packing common practice, so only an estimate."))
            .Note("“Nm” has two meanings: the metric count of a thread and the size of a machine needle. The one is never turned into the other.", "A needle maker's note; textile notes");
        return answer.Drawn(T($"The thread {asked.Text("written")}, {diameter.ToText(LengthUnit.Millimetres)} thick, beside three cotton threads, all magnified alike."), Picture(asked.Text("written"), diameter));
    }

    private static string Meaning(ThreadSystem system) => system switch
    {
        ThreadSystem.Ticket => T("The ticket of a synthetic or silk thread is about three times the metric count of the whole thread."),
        ThreadSystem.CottonTicket => T("The ticket of a cotton thread is about three times the cotton count of the whole thread."),
        ThreadSystem.Weight => T("The weight of a thread is about the kilometres that weigh a kilogram."),
        _ => T("Six-cord no. 40 is six strands of 80, so as thick as three of 40, the three-cord of that number."),
    };

    private static Panel Picture(string written, Length diameter)
    {
        var threads = new[] { (Name: T($"yours, {Shown.Short(written)}"), Thick: diameter) }
            .Concat(new[] { 120, 80, 50 }.Select(ne => (Name: T($"cotton {ne}/2"), Thick: ThreadSize.FromNe(ne).Plied(2).Diameter(ThreadFibre.All[0].Density, ThreadFibre.Packing)))).ToList();
        var sketch = new Sketch(74);
        var scale = 12 / threads.Max(t => t.Thick).Mm();
        for (var i = 0; i < threads.Count; i++)
        {
            var (thick, middle) = (threads[i].Thick.Mm() * scale, 11 + (i * 16.0));
            sketch.Box(Sketch.Margin, middle - (thick / 2), 110, thick, Ink.Cloth)
                .Line(Sketch.Margin, middle - (thick / 2), Sketch.Margin + 110, middle - (thick / 2), Ink.FoldFine).Line(Sketch.Margin, middle + (thick / 2), Sketch.Margin + 110, middle + (thick / 2), Ink.FoldFine)
                .Text(122, middle + 1, $"{threads[i].Name}: {threads[i].Thick.ToText(LengthUnit.Millimetres)}", Ink.Number, 2.6, Anchor.Start);
        }

        return sketch.Panel();
    }

    private static decimal Six(decimal number) => decimal.Round(number, 6);
}
