using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures;

/// <summary>Gives derivatives to be served, and makes them again from the original when they are not there.</summary>
public sealed class Derivatives(PictureStore store, Workshop workshop, PictureLimits limits)
{
    /// <summary>A derivative's bytes; null when there is no such original.</summary>
    /// <exception cref="RefusedException">The original can no longer be decoded.</exception>
    public async Task<FileStream?> Open(Derivative derivative, string sha256, CancellationToken cancel)
    {
        if (store.OpenDerivative(derivative, sha256) is { } ready)
        {
            return ready;
        }

        await using var original = store.OpenOriginal(sha256);
        if (original is null)
        {
            return null;
        }

        var made = await Make(original, sha256, cancel);
        store.KeepDerivative(Derivative.Screen, sha256, made.Screen);
        store.KeepDerivative(Derivative.Thumbnail, sha256, made.Thumbnail);
        return store.OpenDerivative(derivative, sha256);
    }

    private async Task<WorkerAnswer> Make(FileStream original, string sha256, CancellationToken cancel)
    {
        try
        {
            var order = new WorkOrder(() => store.OpenOriginal(sha256)!, SoundPicture.Read(original, limits));
            var done = (await workshop.Make([order], cancel))[0];
            return done.Made ?? throw done.Fault!;
        }
        catch (UnsoundException e)
        {
            throw new RefusedException([e.At(0)]);
        }
    }
}
