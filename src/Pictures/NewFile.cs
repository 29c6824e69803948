namespace HeirloomArchive.Pictures;

/// <summary>A file being written. Disposing it removes it, unless <see cref="Finish"/> was called.</summary>
internal sealed class NewFile : IDisposable
{
    private bool finished;

    public NewFile(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write, Options = FileOptions.Asynchronous };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead;
        }

        Content = new FileStream(path, options);
    }

    public FileStream Content { get; }

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
