namespace HeirloomArchive.Sewing.Fitting;

/// <summary>
/// A fit's request in whole numbers of the finest marking, ranges drawn inwards. Everything a plan would refuse is left out here,
/// so that what adds up can be sewn.
/// </summary>
internal sealed record FitGrid
{
    /// <summary>So many widths are walked through sooner than they are counted otherwise.</summary>
    private const int FewWidths = 24;

    /// <summary>The finest marking, in nanometres, as all lengths of this block are.</summary>
    public required long Unit { get; init; }

    public required long Finished { get; init; }

    public required long Cloth { get; init; }

    /// <summary>The given centre of a centre lie; null when there is none, or when it is one of the spaces.</summary>
    public required long? Centre { get; init; }

    public required long Correction { get; init; }

    public required Lies Lies { get; init; }

    public required bool Uneven { get; init; }

    public required Span Tucks { get; init; }

    /// <summary>In finest markings, as spaces and ends are.</summary>
    public required Span Widths { get; init; }

    public required Span Spaces { get; init; }

    public required Span Ends { get; init; }

    public static FitGrid Of(FitRequest request)
    {
        var unit = request.Finest.Nanometres;
        return new()
        {
            Unit = unit,
            Finished = request.Finished.Nanometres,
            Cloth = Math.Min((request.Cloth ?? Length.Longest).Nanometres, Length.Longest.Nanometres),
            Centre = request.Centre?.Nanometres,
            Correction = (request.TestStrip?.Correction ?? Length.Zero).Nanometres,
            Lies = request.Lies ?? Lies.TowardsEnd,
            Uneven = request.UnevenEnds,
            Tucks = new(request.Tucks.From, request.Tucks.To),
            Widths = Span.Inwards(request.Width, unit),
            Spaces = Span.Inwards(request.Space, unit),
            Ends = Span.Inwards(request.Ends, unit),
        };
    }

    /// <summary>What tucks, spaces and ends are to make up, in nanometres.</summary>
    public long Filled => Finished - (Centre ?? 0);

    /// <summary>False when no whole number of the finest marking makes it up.</summary>
    public bool OnMarking => Filled % Unit == 0;

    public bool LiesFromMiddle => Lies is Lies.FromCentre or Lies.TowardsCentre;

    /// <summary>Whether anything fits. In a count that fits at all, one of the first widths does: the remainders by its gaps come round.</summary>
    public bool Any => Rows().Any(row => row.Fitting().Count > 0);

    /// <summary>The cloth of so many tucks, in nanometres.</summary>
    public long ClothOf(long tucks, long width) => Finished + TakenUp(tucks, width);

    public long TakenUp(long tucks, long width) => tucks * ((2 * width * Unit) + Correction);

    /// <summary>Counts that serve: of a centre lie the even ones.</summary>
    public IEnumerable<int> Counts()
    {
        for (var tucks = Tucks.From; tucks <= Tucks.To; tucks++)
        {
            if (!LiesFromMiddle || long.IsEvenInteger(tucks))
            {
                yield return (int)tucks;
            }
        }
    }

    /// <summary>Every count and width that may add up to the finished width, rising; widths that can't are passed over.</summary>
    public IEnumerable<FitRow> Rows() => Counts().SelectMany(Rows);

    /// <summary>The same for one count.</summary>
    public IEnumerable<FitRow> Rows(int tucks)
    {
        var (widths, whole) = (WidthsThatMayFit(tucks), Filled / Unit);
        for (var width = widths.From; width <= widths.To; width++)
        {
            yield return Row(tucks, width, whole - (tucks * width));
        }
    }

    /// <summary>How many arrangements of so many tucks there are. Where widths are many they are not walked through.</summary>
    public long CountOf(int tucks)
    {
        var widths = WidthsThatMayFit(tucks);
        var walked = widths.To - widths.From < FewWidths ? widths : widths.AtMost(Span.Floor(-Correction, Unit));
        long count = 0;
        for (var width = walked.From; width <= walked.To; width++)
        {
            count += Row(tucks, width, (Filled / Unit) - (tucks * width)).Count;
        }

        // Beyond these a strip's correction forbids no space and no end any more.
        return checked(count + (long)CountOf(tucks, widths.AtLeast(walked.To + 1)));
    }

    private Int128 CountOf(int tucks, Span widths)
    {
        var (gaps, whole) = (Gaps(tucks), Filled / Unit);
        var (spaces, step) = gaps == 0 ? (new Span(0, 0), 1L) : (Spaces, gaps);
        if (widths.IsEmpty)
        {
            return 0;
        }

        if (Uneven)
        {
            // Ordered pairs of ends by their sum: one more for each step up, level, one fewer for each step.
            return Left(2 * Ends.From) - (2 * Left(Ends.From + Ends.To + 1)) + Left((2 * Ends.To) + 2);
        }

        var (least, most) = (whole - (2 * Ends.To), whole - (2 * Ends.From));
        if (long.IsEvenInteger(tucks) && long.IsEvenInteger(gaps))
        {
            return Lattice.Between(widths, spaces, tucks, step, least, most);
        }

        // What is odd, widths or spaces, is taken by twos: it decides whether the ends come out even.
        var odd = whole & 1;
        return long.IsOddInteger(tucks)
            ? Lattice.Between(Halves(widths), spaces, 2 * tucks, step, least - (odd * tucks), most - (odd * tucks))
            : Lattice.Between(widths, Halves(spaces), tucks, 2 * step, least - (odd * step), most - (odd * step));

        Int128 Left(long ends) => Lattice.Left(widths, spaces, tucks, step, whole - ends);

        Span Halves(Span span) => new(Span.Ceiling(span.From - odd, 2), Span.Floor(span.To - odd, 2));
    }

    private Span WidthsThatMayFit(int tucks)
    {
        var (gaps, whole) = (Gaps(tucks), Filled / Unit);
        return !OnMarking || Ends.IsEmpty || (gaps > 0 && Spaces.IsEmpty) || NeverEven(tucks)
            ? new(1, 0)
            : WidthsOf(tucks)
                .AtMost(Span.Floor(Cloth - Finished - (tucks * Correction), 2 * tucks * Unit))
                .AtMost(Span.Floor(whole - (gaps == 0 ? 0 : gaps * Spaces.From) - (2 * Ends.From), tucks))
                .AtLeast(Span.Ceiling(whole - (gaps == 0 ? 0 : gaps * Spaces.To) - (2 * Ends.To), tucks));
    }

    /// <summary>Every count that fits with one width and one space, rising. Only a few counts can add up to what is to be filled.</summary>
    public IEnumerable<FitRow> RowsWith(long width, long space)
    {
        if (!OnMarking || width < 1 || width + space < 1)
        {
            yield break;
        }

        var fewer = Gaps(0);
        var counts = Tucks
            .AtLeast(Span.Ceiling((Filled / Unit) - (2 * Ends.To) - (fewer * space), width + space))
            .AtMost(Span.Floor((Filled / Unit) - (2 * Ends.From) - (fewer * space), width + space));
        for (var tucks = (int)counts.From; tucks <= counts.To; tucks++)
        {
            if ((LiesFromMiddle && int.IsOddInteger(tucks)) || width < WidthsOf(tucks).From || ClothOf(tucks, width) > Cloth)
            {
                continue;
            }

            var row = Row(tucks, width, (Filled / Unit) - (tucks * width));
            row = row with { Spaces = row.Spaces.AtLeast(space).AtMost(space) };
            if (row.Fitting().Count > 0)
            {
                yield return row;
            }
        }
    }

    /// <summary>
    /// The counts and widths from which a finished width near the one asked for can be made; how much cloth there is must be looked at.
    /// Of widths that stay short of it only the widest can come nearest, of those that go beyond it only the narrowest.
    /// </summary>
    public IEnumerable<FitRow> RowsOfAnyWidth(int tucks)
    {
        var gaps = Gaps(tucks);
        if (Ends.IsEmpty || (gaps > 0 && Spaces.IsEmpty))
        {
            yield break;
        }

        var widths = WidthsOf(tucks).AtMost(Span.Floor(Cloth - (tucks * Correction), 2 * tucks * Unit));
        if (Correction == 0 && !widths.IsEmpty)
        {
            var (least, most) = gaps == 0 ? (2 * Ends.From, 2 * Ends.To) : ((gaps * Spaces.From) + (2 * Ends.From), (gaps * Spaces.To) + (2 * Ends.To));
            var beyond = Span.Floor(Span.Floor(Filled, Unit) - least, tucks) + 1;
            var shortOf = Math.Min(widths.To, Span.Floor(Span.Ceiling(Filled, Unit) - 1 - most, tucks));
            var clothOfShort = (Centre ?? 0) + (((3 * tucks * shortOf) + most) * Unit);
            widths = widths.AtMost(Math.Max(widths.From, beyond)).AtLeast(clothOfShort <= Cloth ? shortOf : widths.From);
        }

        for (var width = widths.From; width <= widths.To; width++)
        {
            yield return Row(tucks, width, 0);
        }
    }

    /// <summary>True when even tucks, even gaps and equal ends are to make up an odd number.</summary>
    private bool NeverEven(int tucks) =>
        !Uneven && long.IsEvenInteger(tucks) && long.IsEvenInteger(Gaps(tucks)) && long.IsOddInteger(Filled / Unit);

    public int Gaps(int tucks) => tucks - (Centre is null ? 1 : 2);

    /// <summary>A tuck takes up more than nothing, and in the middle of tucks that lie towards it the lines do not cross.</summary>
    private Span WidthsOf(int tucks)
    {
        var widths = Widths.AtLeast(Span.Floor(-Correction, 2 * Unit) + 1);
        return Lies == Lies.TowardsCentre && Centre is { } centre && tucks > 0
            ? widths.AtLeast(Span.Floor(-centre - (2 * Correction), 2 * Unit) + 1)
            : widths;
    }

    private FitRow Row(int tucks, long width, long left)
    {
        var taken = (width * Unit) + Correction;
        var spaces = Spaces;
        if (tucks >= (LiesFromMiddle ? 4 : 2))
        {
            spaces = spaces.AtLeast(Span.Floor(-taken, Unit) + 1);
        }

        if (Lies == Lies.TowardsCentre && Centre is null)
        {
            spaces = spaces.AtLeast(Span.Floor(-2 * taken, Unit) + 1);
        }

        var outside = Span.Ceiling(-taken, Unit);
        var lead = Lies is Lies.TowardsStart or Lies.FromCentre ? Ends.AtLeast(outside) : Ends;
        var trail = Lies is Lies.TowardsEnd or Lies.FromCentre ? Ends.AtLeast(outside) : Ends;
        return new(tucks, width, Gaps(tucks), left, spaces, lead, trail, Uneven);
    }
}
