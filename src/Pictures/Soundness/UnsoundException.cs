namespace HeirloomArchive.Pictures.Soundness;

/// <summary>Thrown inside the room when one file can't be taken; the upload turns it into a <see cref="Refusal"/>.</summary>
internal sealed class UnsoundException(string message, RefusalKind kind = RefusalKind.Unsound) : Exception(message)
{
    public RefusalKind Kind { get; } = kind;

    public Refusal At(int file) => new($"file[{file}]", Kind, Message);
}
