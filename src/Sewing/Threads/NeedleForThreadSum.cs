using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Threads;

/// <summary>A machine needle for a thread and a cloth.</summary>
internal static class NeedleForThreadSum
{
    public static Sum Sum { get; } = new()
    {
        Slug = "needle-for-thread",
        Shelf = Shelf.Thread,
        Title = "A machine needle for thread and cloth",
        Lead = "Which machine needle takes your thread and suits your cloth, and why.",
        Asks =
        [
            Ask.Choice("cloth", "Cloth", "", [.. NeedleCloth.All.Select(c => (c.Slug, c.Words))]),
            .. SpoolNumber.Asks.Select(a => a.Optional()),
            Ask.Above("thick", "Thread as measured", "0.15 mm", "Its thickness, instead of what the number gives: wind it round a ruler and divide.").Optional(),
            Ask.Whole("needle", "A needle you have", 1, 500, "70", "Size NM or American: 70 or 10.").Optional(),
            Ask.Above("blade", "Blade as measured", "0.7 mm", "Of a needle without its packet: the thin part above the eye, never the shank.").Optional(),
        ],
        Example = """{"cloth":"light","system":"ne","written":"80/2","fibre":"cotton","needle":70}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var cloth = NeedleCloth.All.First(c => c.Slug == asked.Text("cloth"));
        asked.Check(asked.Has("thick") || asked.Has("written"), "written", "Give the number on the spool, for example 80/2, or the thread's thickness as measured.");
        asked.Throw();
        var spool = asked.Has("written") ? SpoolNumber.Read(asked) : null;
        var thread = asked.LengthOrNull("thick") ?? spool!.Size.Diameter(SpoolNumber.Fibre(asked).Density, ThreadFibre.Packing);
        var own = Own(asked);
        var answer = new Answer(LengthUnit.Millimetres);
        var needle = MachineNeedle.FinestFor(thread);
        asked.Check(needle is not null, asked.Has("thick") ? "thick" : "written",
            T($"A thread {Mm(thread)} thick goes through the eye of no machine needle here; the thickest is about {Mm(new MachineNeedle(120).ThickestThread)}. Take a finer thread, or sew by hand."));
        asked.Throw();
        var size = MachineNeedle.Sizes.First(s => s >= Math.Max(needle!.Size, cloth.Least));
        var advised = new MachineNeedle(size);
        answer.Figure("needle", "Needle", advised.Size, "NM").Figure("american", "American number", advised.American)
            .Figure("blade", "Its blade", advised.Blade).Figure("eye", "Its eye, about", advised.Eye)
            .Figure("thread", "Thread, about", thread, asked.Has("thick") ? "as measured" : "estimated from its number")
            .Figure("because", "Why", needle!.Size > cloth.Least
                ? T($"The thread decides: {Mm(thread)} wants an eye of {Mm(thread.Times(MachineNeedle.EyeOfThread))}, and the next needle with that is NM {size}.")
                : T($"The cloth decides: for {T(cloth.Slug)} cloth NM {cloth.Least} to {cloth.Most} serve, and the thread goes through the finest of them."));
        if (size > cloth.Most)
        {
            answer.Caution("thread-thick", T($"NM {size} makes large holes in {T(cloth.Slug)} cloth, for which NM {cloth.Most} is the most. Take a thread at most {Mm(new MachineNeedle(cloth.Most).ThickestThread)} thick."));
        }

        if (spool is { IsExact: false } && !asked.Has("thick"))
        {
            answer.Caution("approximate", "The number of this thread is only approximate, so is the needle: try the next size each way on a scrap.");
        }

        Judge(answer, own, thread, cloth);
        if (asked.LengthOrNull("blade") is { } blade)
        {
            answer.Figure("sizeOfBlade", "Size of the measured blade", MachineNeedle.SizeOf(blade), "100 × the blade in mm");
        }

        return answer.Table("needles", "Needles, and the thickest thread each takes", [new("needle", "NM"), new("american", "American"), new("blade", "Blade"), new("eye", "Eye, about"), new("thread", "Thread at most, about"), new("cloth", "Cloth")],
                MachineNeedle.Sizes.Select(s => new MachineNeedle(s)).Select(n => (IReadOnlyList<object?>)[n.Size, n.American, n.Blade, n.Eye, n.ThickestThread, string.Join(", ", NeedleCloth.All.Where(c => c.Least <= n.Size && n.Size <= c.Most).Select(c => T(c.Slug)))]))
            .Note("The size NM is 100 times the diameter of the blade in mm: 80 is 0.80 mm. It is not that of the shank.", "A needle maker's note, which names DIN 5325 of 1953")
            .Note("The eye should be about 40 % wider than the thread: common practice. That an eye is about four tenths of its blade is written from memory, and makers differ.", "Dillmont, Encyclopedia of Needlework (1886), says only that the eye should be wider than the thread")
            .Note("American number × 5 + 20 is NM up to 18; 19 is 120 by no rule (from memory).", "A needle maker's note")
            .Note("Which needles serve which cloth is common practice: try on a scrap. For underwear and thin gowns thread 70 to 100, never coarser than 50.", "Threads: Watson, Textiles and Clothing (1907)")
            .Note("The metric count Nm of a thread is never the NM of a needle.", "A needle maker's note; textile notes")
            .Caution("sharps", "Count needles before and after. A needle never goes through an antique to try it: every hole stays. Ask a textile conservator.")
            .Drawn(T($"The eye of each needle beside the thread, all magnified alike; NM {size} is the one advised."), Picture(thread, size));
    }

    /// <summary>A needle she has, by either number; the two lists have none in common.</summary>
    private static MachineNeedle? Own(Asked asked)
    {
        if (!asked.Has("needle"))
        {
            return null;
        }

        var number = asked.Whole("needle");
        var found = MachineNeedle.OfAmerican(number) ?? (MachineNeedle.Sizes.Contains(number) ? new MachineNeedle(number) : null);
        asked.Check(found is not null, "needle", T($"{number} is no size of a machine needle: NM {string.Join(", ", MachineNeedle.Sizes)}, or American {string.Join(", ", MachineNeedle.Sizes.Select(s => new MachineNeedle(s).American))}. A thread's number is not a needle's."));
        asked.Throw();
        return found;
    }

    private static void Judge(Answer answer, MachineNeedle? own, Length thread, NeedleCloth cloth)
    {
        if (own is null)
        {
            return;
        }

        var (takes, suits) = (own.ThickestThread >= thread, own.Size >= cloth.Least && own.Size <= cloth.Most);
        answer.Figure("ownNeedle", "Yours, as NM", own.Size).Figure("ownTakesThread", "Its eye takes the thread", takes).Figure("ownSuitsCloth", "It suits the cloth", suits);
        if (!takes)
        {
            answer.Caution("eye-narrow", T($"The eye of NM {own.Size} is about {Mm(own.Eye)}; this thread wants {Mm(thread.Times(MachineNeedle.EyeOfThread))}. It will fray or break: take NM {MachineNeedle.FinestFor(thread)!.Size} or a finer thread."));
        }

        if (!suits)
        {
            answer.Caution(own.Size > cloth.Most ? "needle-coarse" : "needle-fine", own.Size > cloth.Most
                ? T($"NM {own.Size} makes large holes in such cloth: at most NM {cloth.Most}.")
                : T($"NM {own.Size} may bend or break in such cloth: at least NM {cloth.Least}."));
        }
    }

    private static Panel Picture(Length thread, int advised)
    {
        var sketch = new Sketch(40);
        var scale = 14 / (double)Math.Max(new MachineNeedle(120).Blade.Nanometres, thread.Nanometres);
        var step = sketch.Room / MachineNeedle.Sizes.Count;
        for (var i = 0; i < MachineNeedle.Sizes.Count; i++)
        {
            var needle = new MachineNeedle(MachineNeedle.Sizes[i]);
            var (x, blade, eye, thick) = (Sketch.Margin + (step * (i + 0.5)), needle.Blade.Nanometres * scale, needle.Eye.Nanometres * scale, thread.Nanometres * scale);
            sketch.Box(x - (blade / 2), 6, blade, 24, Ink.Cloth).Line(x - (blade / 2), 6, x - (blade / 2), 30, Ink.FoldFine).Line(x + (blade / 2), 6, x + (blade / 2), 30, Ink.FoldFine)
                .Box(x - (eye / 2), 11, eye, 14, Ink.Ground).Path([(x - (eye / 2), 11), (x + (eye / 2), 11), (x + (eye / 2), 25), (x - (eye / 2), 25), (x - (eye / 2), 11)], Ink.FoldFine)
                .Line(x - (thick / 2), 8, x - (thick / 2), 28, Ink.Stitching).Line(x + (thick / 2), 8, x + (thick / 2), 28, Ink.Stitching)
                .Text(x, 35, needle.Size == advised ? $"→ {needle.Size}" : $"{needle.Size}", needle.Size == advised ? Ink.Number : Ink.Caption, 2.8);
        }

        return sketch.Panel();
    }

    // To the hundredth of a millimetre: an estimate has no more.
    private static string Mm(Length length) => FormattableString.Invariant($"{length.Millimetres:0.00} mm");
}
