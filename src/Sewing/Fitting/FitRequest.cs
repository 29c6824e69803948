namespace HeirloomArchive.Sewing;

/// <summary>How many tucks may be taken, both ends included; 1 to 1 000.</summary>
public readonly record struct CountRange(int From, int To);

/// <summary>Lengths that may be taken, both ends included; drawn inwards to whole numbers of the finest marking.</summary>
public readonly record struct LengthRange(Length From, Length To);

/// <summary>The antique whose proportions are looked for.</summary>
/// <param name="Tucks">How many, of a centre lie in both halves; 1 to 1 000.</param>
/// <param name="Width">Above zero; need not be on the marking.</param>
/// <param name="Space">The plain cloth seen between two; null when it has one tuck.</param>
public sealed record Likeness(int Tucks, Length Width, Length? Space);

/// <summary>Equal tucks are to fill a finished width exactly. <see cref="Fit.Find"/> says what is wrong with the request.</summary>
public sealed record FitRequest
{
    /// <summary>The width to fill, ends included; above zero.</summary>
    public required Length Finished { get; init; }

    /// <summary>The flat cloth there is; null is no limit.</summary>
    public Length? Cloth { get; init; }

    /// <summary>How many tucks; of a centre lie in both halves, and only even numbers serve.</summary>
    public required CountRange Tucks { get; init; }

    /// <summary>Fold to stitching line; from one finest marking up.</summary>
    public required LengthRange Width { get; init; }

    /// <summary>The plain cloth seen between two tucks; from zero up.</summary>
    public required LengthRange Space { get; init; }

    /// <summary>The plain cloth seen before the first tuck and after the last; from zero up.</summary>
    public required LengthRange Ends { get; init; }

    /// <summary>One of 1/16, 1/32, 1/64 in, 1, 0.5, 0.25 mm: every width, space and end is a whole number of it.</summary>
    public required Length Finest { get; init; }

    /// <summary>Whose proportions to look for; null lists by tucks, width, space, lead, rising.</summary>
    public Likeness? Like { get; init; }

    /// <summary>True when the plain cloth before and after may differ. Not with a centre lie.</summary>
    public bool UnevenEnds { get; init; }

    /// <summary>Enters the cloth: each tuck takes its correction besides twice its width.</summary>
    public TestStrip? TestStrip { get; init; }

    /// <summary>Which way the tucks will lie; null is towards the end.</summary>
    public Lies? Lies { get; init; }

    /// <summary>The plain cloth seen in the middle of a centre lie; null is the same as the spaces.</summary>
    public Length? Centre { get; init; }

    /// <summary>The unit in which computed lengths are shown: that of the first length of what was sent.</summary>
    public LengthUnit Unit { get; init; }

    /// <summary>Where the request stood in what was sent (<c>onto</c>), so that faults name whole paths; empty when it was all of it.</summary>
    public string Path { get; init; } = "";

    internal bool LiesFromMiddle => Lies is Sewing.Lies.FromCentre or Sewing.Lies.TowardsCentre;

    /// <summary>The run that sews one of the arrangements found, ready for <see cref="TuckPlan.Make"/>.</summary>
    public TuckRun RunOf(FitArrangement arrangement)
    {
        ArgumentNullException.ThrowIfNull(arrangement);
        var tucks = LiesFromMiddle ? arrangement.Tucks / 2 : arrangement.Tucks;
        return new()
        {
            Groups = [new(tucks, arrangement.Width, new(tucks > 1 ? arrangement.Space : null))],
            Lead = LiesFromMiddle ? null : arrangement.Lead,
            Trail = arrangement.Trail,
            Lies = Lies,
            Centre = LiesFromMiddle ? Centre ?? arrangement.Space : null,
            TestStrip = TestStrip,
            Unit = Unit,
            Path = Path,
        };
    }
}
