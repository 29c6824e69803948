namespace HeirloomArchive.Search;

/// <summary>There is no usable index yet; one is being built. Ask again shortly (503 with <c>Retry-After</c>).</summary>
public sealed class IndexNotReadyException(BuildProgress progress)
    : Exception($"The index is being built: {progress.Done} of {progress.Total} pieces.")
{
    /// <summary>How far the building has come.</summary>
    public BuildProgress Progress { get; } = progress;
}

/// <summary>How far a whole rebuild has come, in garments.</summary>
public sealed record BuildProgress(long Done, long Total);
