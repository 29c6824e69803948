using System.ComponentModel;

namespace HeirloomArchive.Sewing;

/// <summary>Whether a fault lies in the writing or in the meaning of what was sent.</summary>
public enum FaultKind
{
    /// <summary>It can't be read: malformed, an unknown field, a wrong type, a length with no unit.</summary>
    Unreadable,

    /// <summary>It reads but makes no sense: a negative width, an unknown word, an overlap too far.</summary>
    Senseless,
}

/// <summary>One thing wrong with what was sent.</summary>
/// <param name="Path">Where: <c>techniques[0].groups[1].width</c>; empty for the whole.</param>
/// <param name="Message">Names the value and what would be right, as a sentence for the person who typed it; put in her language as it is made.</param>
/// <param name="Kind">Which of the two kinds of fault it is.</param>
public sealed record Fault(string Path, [Localizable(true)] string Message, FaultKind Kind = FaultKind.Senseless)
{
    /// <summary>Names the value and what would be right.</summary>
    public string Message { get; init; } = T(Message);
}

/// <summary>Thrown when input is refused; nothing has been changed. Carries every fault found, never none.</summary>
public class FaultException(IReadOnlyList<Fault> faults)
    : Exception(string.Join(" ", faults.Select(f => f.Message)))
{
    /// <summary>A single fault.</summary>
    public FaultException(string path, [Localizable(true)] string message, FaultKind kind = FaultKind.Senseless)
        : this([new Fault(path, message, kind)])
    {
    }

    /// <summary>All faults, in the order they were met.</summary>
    public IReadOnlyList<Fault> Faults { get; } = faults;

    /// <summary>True when something could not be read at all (status 400), false when it only makes no sense (422).</summary>
    public bool Unreadable => Faults.Any(f => f.Kind == FaultKind.Unreadable);
}
