using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Asking;

/// <summary>What she asked for, read and checked; the plan is read by Sewing.</summary>
internal sealed record WorksheetRequest
{
    public Guid? Garment { get; init; }

    /// <summary>Ids of the garment's techniques, in her order; none when it is made from no technique.</summary>
    public IReadOnlyList<string> Techniques { get; init; } = [];

    /// <summary><c>techniques</c> or <c>technique</c>, whichever she sent.</summary>
    public string TechniquesPath { get; init; } = "techniques";

    /// <summary>The width to fill, or null.</summary>
    public FitRequest? Onto { get; init; }

    /// <summary>The run with all its measures, or null.</summary>
    public TuckRun? Plan { get; init; }

    /// <summary>What lies side by side, from start to end, or from the middle outwards when mirrored; none for a single run.</summary>
    public IReadOnlyList<AskedSection> Sections { get; init; } = [];

    /// <summary>The sections are one half from the middle outwards, and their mirror image stands before them.</summary>
    public bool Mirrored { get; init; }

    public string Paper { get; init; } = "A4";

    public bool Landscape { get; init; }

    public string? Title { get; init; }

    public string? Thread { get; init; }

    public string? Needle { get; init; }

    public Cloth Cloth { get; init; } = new(null, null, null, null);

    public Allowances Allow { get; init; } = new(Length.Zero, Length.Zero, Length.Zero, Length.Zero, Length.Zero);

    /// <summary><c>in16</c>, <c>in32</c>, <c>mm</c>, or null: that of the plan's first length.</summary>
    public string? Unit { get; init; }

    /// <summary><c>hand</c>, <c>machine</c> or null: as the antique is sewn, if that is recorded.</summary>
    public string? Sewn { get; init; }

    public string? Marking { get; init; }

    public IReadOnlyList<Trim> Trims { get; init; } = [];

    /// <summary>How many such pieces.</summary>
    public int Alike { get; init; } = 1;
}

/// <summary>One of several things side by side: exactly one of the three is there.</summary>
/// <param name="Technique">The recorded technique it copies, or null.</param>
/// <param name="Onto">A width to fill with tucks.</param>
/// <param name="Plan">A run with all its measures.</param>
/// <param name="Insertion">Lace or another strip set between.</param>
internal sealed record AskedSection(string? Technique, FitRequest? Onto, TuckRun? Plan, AskedInsertion? Insertion);

/// <summary>A strip of lace or embroidery.</summary>
/// <param name="Width">As it shows when sewn, above 0.</param>
/// <param name="LaidOn">Laid on the cloth, which goes on beneath it; else let in between two edges.</param>
internal sealed record AskedInsertion(TypedLength Width, bool LaidOn);

/// <summary>Her cloth.</summary>
/// <param name="Word">Its word, as text: <c>lawn</c>.</param>
/// <param name="Width">From selvage to selvage.</param>
/// <param name="FoldsAlong"><c>warp</c> or <c>weft</c>: the threads that the folds run along.</param>
/// <param name="Shrunk">Whether it has been shrunk.</param>
internal sealed record Cloth(string? Word, TypedLength? Width, string? FoldsAlong, bool? Shrunk);

/// <summary>Added outside the tucked run; <paramref name="Shaping"/> at every cut edge.</summary>
internal sealed record Allowances(Length Start, Length End, Length Top, Length Bottom, Length Shaping);

/// <summary>An edge to be trimmed.</summary>
/// <param name="Technique">The recorded lace it copies, or null.</param>
/// <param name="Edge">The length of the edge.</param>
/// <param name="Width">The lace's width, or null: as recorded.</param>
/// <param name="Fullness">1 is flat; null: as recorded, else flat.</param>
/// <param name="Corners">Outside corners to turn.</param>
internal sealed record Trim(string? Technique, TypedLength Edge, TypedLength? Width, decimal? Fullness, int Corners);
