using System.Collections.Concurrent;
using System.Threading.Channels;
using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures;

/// <summary>Gives derivatives to be served, and makes them again from the original when they are not there.</summary>
public sealed class Derivatives(PictureStore store, Workshop workshop, PictureLimits limits)
{
    private readonly ConcurrentDictionary<(string Sha256, bool Others), Lazy<Task>> making = new();
    private readonly Channel<string> later = Channel.CreateUnbounded<string>();

    /// <summary>Originals whose tiles and WebP somebody should make soon.</summary>
    internal ChannelReader<string> Later => later.Reader;

    /// <summary>A derivative's bytes; null when there is no such original.</summary>
    /// <param name="derivative">Which.</param>
    /// <param name="sha256">The original.</param>
    /// <param name="webP">WebP will do too: it is given when it has been made, which takes a moment after an upload. Else it is JPEG.</param>
    /// <param name="cancel">Stops waiting; what is being made is made all the same.</param>
    /// <exception cref="RefusedException">The original can no longer be decoded.</exception>
    public async Task<FileStream?> Open(Derivative derivative, string sha256, bool webP, CancellationToken cancel)
    {
        if (webP && store.OpenDerivative(derivative, PictureFormat.WebP, sha256) is { } better)
        {
            return better;
        }

        if (store.OpenDerivative(derivative, PictureFormat.Jpeg, sha256) is { } ready)
        {
            return ready;
        }

        if (!store.HasOriginal(sha256))
        {
            return null;
        }

        await Once(sha256, rest: false).WaitAsync(cancel);
        return store.OpenDerivative(derivative, PictureFormat.Jpeg, sha256);
    }

    /// <summary>The same as JPEG.</summary>
    /// <inheritdoc cref="Open(Derivative, string, bool, CancellationToken)" path="/exception"/>
    public Task<FileStream?> Open(Derivative derivative, string sha256, CancellationToken cancel) => Open(derivative, sha256, webP: false, cancel);

    /// <summary>Keeps what a worker made of a new original.</summary>
    internal void Keep(string sha256, WorkerAnswer first)
    {
        store.KeepDerivative(Derivative.Screen, PictureFormat.Jpeg, sha256, first.Files[0]);
        store.KeepDerivative(Derivative.Thumbnail, PictureFormat.Jpeg, sha256, first.Files[1]);
    }

    /// <summary>Asks for the rest: once the record names the original, so that nothing is being made of one that is taken back.</summary>
    internal void AskForTheRest(string sha256) => later.Writer.TryWrite(sha256);

    /// <summary>Has all made again of an original that was mended: it may have been made of the wrong bytes.</summary>
    internal void Renew(string sha256)
    {
        store.DropMade(sha256);
        AskForTheRest(sha256);
    }

    /// <summary>The tiles, made now when they are not there; null when there is no such original.</summary>
    /// <exception cref="RefusedException">The original can no longer be decoded.</exception>
    internal async Task<TileFile?> Tiles(string sha256, CancellationToken cancel)
    {
        if (!store.HasRest(sha256) && store.HasOriginal(sha256))
        {
            await Once(sha256, rest: true).WaitAsync(cancel);
        }

        return store.OpenTiles(sha256) is { } file ? TileFile.Open(file) : null;
    }

    /// <summary>Makes what is missing of an original's derivatives, after what others need of the machine; nothing of one that has gone meanwhile.</summary>
    /// <exception cref="RefusedException">The original can no longer be decoded.</exception>
    internal async Task MakeMissing(string sha256, CancellationToken cancel)
    {
        if (!store.HasOriginal(sha256))
        {
            return;
        }

        if (!store.HasFirst(sha256))
        {
            await Once(sha256, rest: false).WaitAsync(cancel);
        }

        if (!store.HasRest(sha256))
        {
            await Once(sha256, rest: true, behind: true).WaitAsync(cancel);
        }
    }

    /// <summary>However many ask at once, it is made once.</summary>
    private Task Once(string sha256, bool rest, bool behind = false) => making.GetOrAdd((sha256, rest), key => new(() => Task.Run(async () =>
    {
        try
        {
            await (rest ? MakeRest(sha256, behind) : MakeFirst(sha256));
        }
        finally
        {
            making.TryRemove(key, out _);
        }
    }))).Value;

    private async Task MakeFirst(string sha256)
    {
        var order = new FirstOrder(() => Original(sha256), Examine(sha256));
        Keep(sha256, Made((await workshop.Make([order], CancellationToken.None))[0]));
    }

    private async Task MakeRest(string sha256, bool behind)
    {
        var sound = Examine(sha256);
        using var tiles = store.NewFile();
        var order = new RestOrder(() => Original(sha256), sound, tiles.Content);
        var made = Made(behind ? await workshop.MakeBehind(order, CancellationToken.None) : (await workshop.Make([order], CancellationToken.None))[0]);
        store.KeepDerivative(Derivative.Screen, PictureFormat.WebP, sha256, made.Files[0]);
        store.KeepDerivative(Derivative.Thumbnail, PictureFormat.WebP, sha256, made.Files[1]);
        store.KeepTiles(sha256, tiles); // Last: where the tiles are, all of it is.
    }

    private FileStream Original(string sha256) => store.OpenOriginal(sha256) ?? throw new FileNotFoundException($"The original {sha256} has gone.");

    private SoundPicture Examine(string sha256)
    {
        try
        {
            using var original = Original(sha256);
            return SoundPicture.Read(original, limits);
        }
        catch (UnsoundException e)
        {
            throw new RefusedException([e.At(0)]);
        }
    }

    private static WorkerAnswer Made(WorkDone done) => done.Made ?? throw new RefusedException([done.Fault!.At(0)]);
}
