namespace HeirloomArchive.Pictures;

/// <summary>Why a file is refused.</summary>
public enum RefusalKind
{
    /// <summary>More bytes than a file may have (status 413).</summary>
    TooLarge,

    /// <summary>Not a JPEG, PNG or WebP (status 415).</summary>
    Foreign,

    /// <summary>Cut off, damaged, or over a limit of the worker (status 422).</summary>
    Unsound,
}

/// <summary>One file refused.</summary>
/// <param name="Path">Which: <c>file[0]</c>, in the order sent.</param>
/// <param name="Kind">Why.</param>
/// <param name="Message">Names what was found and what would be right.</param>
public sealed record Refusal(string Path, RefusalKind Kind, string Message);

/// <summary>Thrown when an upload is refused; nothing of it is kept. Carries every file refused, never none.</summary>
public sealed class RefusedException(IReadOnlyList<Refusal> refusals)
    : Exception(string.Join(" ", refusals.Select(r => r.Message)))
{
    /// <summary>The files refused, in the order sent.</summary>
    public IReadOnlyList<Refusal> Refusals { get; } = refusals;
}
