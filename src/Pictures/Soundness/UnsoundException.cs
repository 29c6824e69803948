namespace HeirloomArchive.Pictures.Soundness;

/// <summary>Thrown inside the room when one file can't be taken; the upload turns it into a <see cref="Refusal"/>.</summary>
/// <param name="say">The reason, in the language of whoever reads it: a worker's turn may be begun by somebody else.</param>
/// <param name="kind">What kind of reason.</param>
internal sealed class UnsoundException(Func<string> say, RefusalKind kind = RefusalKind.Unsound) : Exception
{
    /// <inheritdoc/>
    public override string Message => say();

    public RefusalKind Kind { get; } = kind;

    public Refusal At(int file) => new($"file[{file}]", Kind, Message);
}
