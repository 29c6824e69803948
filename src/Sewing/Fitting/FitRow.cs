namespace HeirloomArchive.Sewing.Fitting;

/// <summary>
/// So many tucks of one width; what is left of the finished width is for the spaces and the ends. In whole numbers of the finest marking.
/// </summary>
/// <param name="Tucks">How many.</param>
/// <param name="Width">Of each.</param>
/// <param name="Gaps">How many equal spaces there are.</param>
/// <param name="Left">Finished width less centre less tucks: gaps × space + lead + trail must make it up.</param>
/// <param name="Spaces">That may be taken.</param>
/// <param name="Lead">That may be taken.</param>
/// <param name="Trail">That may be taken.</param>
/// <param name="Uneven">Whether lead and trail may differ.</param>
internal readonly record struct FitRow(int Tucks, long Width, int Gaps, long Left, Span Spaces, Span Lead, Span Trail, bool Uneven)
{
    /// <summary>The ends when they are the same.</summary>
    private Span Both => new(Math.Max(Lead.From, Trail.From), Math.Min(Lead.To, Trail.To));

    /// <summary>What both ends together may come to; even numbers only unless uneven.</summary>
    public Span Ends => Uneven ? new(Lead.From + Trail.From, Lead.To + Trail.To) : new(2 * Both.From, 2 * Both.To);

    private bool NoEnds => Uneven ? Lead.IsEmpty || Trail.IsEmpty : Both.IsEmpty;

    /// <summary>The spaces that leave room for ends; a row without gaps has one of no meaning when its ends serve.</summary>
    public Steps Fitting()
    {
        if (NoEnds)
        {
            return Steps.None;
        }

        var ends = Ends;
        if (Gaps == 0)
        {
            return Left >= ends.From && Left <= ends.To && (Uneven || long.IsEvenInteger(Left)) ? new(0, 1, 1) : Steps.None;
        }

        var within = new Span(Span.Ceiling(Left - ends.To, Gaps), Span.Floor(Left - ends.From, Gaps)).AtLeast(Spaces.From).AtMost(Spaces.To);
        if (Uneven || (long.IsEvenInteger(Gaps) && long.IsEvenInteger(Left)))
        {
            return new(within.From, 1, Math.Max(0, within.To - within.From + 1));
        }

        if (long.IsEvenInteger(Gaps))
        {
            return Steps.None;
        }

        var first = within.From + ((Left - within.From) & 1);
        return new(first, 2, Math.Max(0, ((within.To - first) >> 1) + 1));
    }

    /// <summary>How many arrangements: every fitting space, and when uneven every ordered pair of ends.</summary>
    public long Count
    {
        get
        {
            var spaces = Fitting();
            if (!Uneven || spaces.Count == 0)
            {
                return spaces.Count;
            }

            // Ordered pairs of ends by their sum: one more for each step up, then level, then one fewer.
            long lead = Lead.To - Lead.From, trail = Trail.To - Trail.From, all = lead + trail;
            var (rises, falls) = (Math.Min(lead, trail), Math.Max(lead, trail));
            var (least, most, step) = (Left - (Gaps * spaces.Last) - Ends.From, Left - (Gaps * spaces.First) - Ends.From, Math.Max(1, Gaps));
            return Pairs(least, Math.Min(most, rises), step)
                + ((rises + 1) * Between(rises + 1, Math.Min(most, falls)))
                + Pairs(all - most, all - Math.Max(least, falls + 1), step);

            long Between(long from, long to) => Math.Max(0, Span.Floor(to - least, step) - Math.Max(0, Span.Ceiling(from - least, step)) + 1);
        }
    }

    /// <summary>The sum of x + 1 for x at equal steps.</summary>
    private static long Pairs(long from, long to, long step)
    {
        var count = from > to ? 0 : ((to - from) / step) + 1;
        return count * ((2 * from) + (step * (count - 1)) + 2) / 2;
    }

    /// <summary>The leads that serve with a space.</summary>
    public Span Leads(long space)
    {
        var ends = Left - (Gaps * space);
        return Uneven ? Lead.AtLeast(ends - Trail.To).AtMost(ends - Trail.From) : new(ends / 2, ends / 2);
    }

    /// <summary>The lead that comes nearest to its trail, the smaller of two as near.</summary>
    public long EvenestLead(long space)
    {
        var leads = Leads(space);
        return Math.Clamp(Span.Floor(TrailOf(space, 0), 2), leads.From, leads.To);
    }

    /// <summary>The trail that belongs to a space and a lead.</summary>
    public long TrailOf(long space, long lead) => Left - (Gaps * space) - lead;

    /// <summary>The greatest that spaces and ends can come to without going above a number; null when they can't.</summary>
    public long? MostUpTo(long bound)
    {
        long? most = null;
        var top = Gaps == 0 ? 0 : Math.Min(Spaces.To, Span.Floor(bound - Ends.From, Gaps));
        for (var space = top; space >= top - 1 && (Gaps == 0 ? space == 0 : space >= Spaces.From) && !NoEnds; space--)
        {
            var room = bound - (Gaps * space);
            var ends = Math.Min(Ends.To, Uneven ? room : room - (room & 1));
            if (ends >= Ends.From && !(most >= (Gaps * space) + ends))
            {
                most = (Gaps * space) + ends;
            }
        }

        return most;
    }

    /// <summary>The least that spaces and ends can come to without going below a number; null when they can't.</summary>
    public long? LeastFrom(long bound)
    {
        long? least = null;
        var bottom = Gaps == 0 ? 0 : Math.Max(Spaces.From, Span.Ceiling(bound - Ends.To, Gaps));
        for (var space = bottom; space <= bottom + 1 && (Gaps == 0 ? space == 0 : space <= Spaces.To) && !NoEnds; space++)
        {
            var room = bound - (Gaps * space);
            var ends = Math.Max(Ends.From, Uneven ? room : room + (room & 1));
            if (ends <= Ends.To && !(least <= (Gaps * space) + ends))
            {
                least = (Gaps * space) + ends;
            }
        }

        return least;
    }
}
