namespace HeirloomArchive.Pictures;

/// <summary>A file being written. Disposing it removes it, unless <see cref="Finish"/> was called.</summary>
internal sealed class NewFile(string path) : IDisposable
{
    private bool finished;

    public FileStream Content { get; } = Durable.Open(path, FileMode.CreateNew);

    /// <summary>Flushes it to the disk and closes it; whoever takes the path sees to the file from now on.</summary>
    public string Finish()
    {
        Content.Flush(flushToDisk: true);
        Content.Dispose();
        finished = true;
        return Content.Name;
    }

    public void Dispose()
    {
        try
        {
            // On a full disk, what is still to be written fails here once more.
            Content.Dispose();
        }
        finally
        {
            if (!finished)
            {
                File.Delete(Content.Name);
            }
        }
    }
}
