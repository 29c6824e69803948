using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Soundness;
using HeirloomArchive.Sewing;
using Marten;

namespace HeirloomArchive.Pictures;

/// <summary>One picture of an upload, as the garment now has it.</summary>
/// <param name="Id">The picture's id in the garment.</param>
/// <param name="Sha256">The original's digest, its name in the store.</param>
/// <param name="Width">Pixels, the orientation applied.</param>
/// <param name="Height">Pixels, the orientation applied.</param>
/// <param name="Already">The garment had this very file before; nothing was added for it.</param>
public sealed record TakenPicture(Guid Id, string Sha256, int Width, int Height, bool Already);

/// <summary>What an upload came to.</summary>
/// <param name="Pictures">One for each file, in the order sent.</param>
/// <param name="Garment">The garment as it stands after it.</param>
/// <param name="Position">The event's global position; null when every file was there already and nothing was written.</param>
public sealed record Taken(IReadOnlyList<TakenPicture> Pictures, Garment Garment, long? Position);

/// <summary>The door of the room: takes files for a garment, all of them or none.</summary>
public sealed class Uploads(Archive archive, IDocumentStore documents, PictureStore store, Workshop workshop, Derivatives derivatives, RegionCache regions, PictureLimits limits) : IDisposable
{
    // Recording takes milliseconds; one at a time, two uploads of the same file can't both be the first, and none takes back
    // an original that another is just naming.
    private readonly SemaphoreSlim recording = new(1);

    /// <summary>
    /// Checks every file, has the derivatives made by the worker, keeps the originals lastingly and only then adds them
    /// to the record. The caller still owns and disposes the files.
    /// </summary>
    /// <exception cref="NotFoundException">There is no such garment.</exception>
    /// <exception cref="SetAsideException">The garment is set aside.</exception>
    /// <exception cref="RefusedException">A file is refused; then nothing is kept.</exception>
    /// <exception cref="FaultException">The record refuses the caption or one more picture.</exception>
    public async Task<Taken> Take(Guid garment, IReadOnlyList<IncomingFile> files, string? caption, string who, CancellationToken cancel)
    {
        var made = await Make(files, KnownTo(await Standing(garment, cancel)), cancel);
        return await InTurn(() => Record(garment, files, made, caption, who), cancel);
    }

    /// <summary>Takes a picture of something that is no garment of the record: of a worksheet as it came out.</summary>
    /// <param name="files">One file.</param>
    /// <param name="owner">The id of what it shows.</param>
    /// <param name="keep">Stores what names the picture, in the same session, so that both are there or neither.</param>
    /// <param name="cancel">Until the picture is made.</param>
    /// <exception cref="RefusedException">The file is refused; then nothing is kept.</exception>
    public async Task<TakenPicture> TakeFor(IReadOnlyList<IncomingFile> files, Guid owner, Action<IDocumentSession, Guid> keep, CancellationToken cancel)
    {
        var (sound, answer) = (await Make(files, [], cancel)).Single().Value;
        var picture = new TakenPicture(Guid.CreateVersion7(), files[0].Sha256, answer.Width, answer.Height, Already: false);
        return await InTurn(async () =>
        {
            await KeepOriginal(files[0]);
            derivatives.Keep(picture.Sha256, answer);
            await using var session = documents.LightweightSession();
            session.Insert(new PictureOwner { Id = picture.Id, Garment = owner, Sha256 = picture.Sha256, Format = Word(sound.Format) });
            keep(session, picture.Id);
            await session.SaveChangesAsync(CancellationToken.None);
            derivatives.AskForTheRest(picture.Sha256);
            return picture;
        }, cancel);
    }

    /// <summary>
    /// Takes files in two steps, for a garment that is still to be entered: the files are checked and their derivatives made
    /// first, so that what is refused is refused before there is a garment.
    /// </summary>
    /// <returns>Adds the files to the garment whose id it is given.</returns>
    /// <exception cref="RefusedException">A file is refused; then nothing is kept.</exception>
    public async Task<Func<Guid, Task<Taken>>> Prepare(IReadOnlyList<IncomingFile> files, string who, CancellationToken cancel)
    {
        var made = await Make(files, [], cancel);
        return garment => InTurn(() => Record(garment, files, made, null, who), CancellationToken.None);
    }

    /// <summary>Looks over files that are to be added later: what would be refused then is refused now.</summary>
    /// <exception cref="RefusedException">A file is refused.</exception>
    public async Task Check(IReadOnlyList<IncomingFile> files) => await Make(files, [], CancellationToken.None);

    /// <summary>The garment, when it can be given pictures.</summary>
    /// <exception cref="NotFoundException">There is no such garment.</exception>
    /// <exception cref="SetAsideException">The garment is set aside.</exception>
    public async Task<Garment> Standing(Guid id, CancellationToken cancel)
    {
        var garment = await archive.Find(id, cancel) ?? throw new NotFoundException($"No garment has the id {id}.");
        return garment.IsAside ? throw new SetAsideException() : garment;
    }

    /// <inheritdoc/>
    public void Dispose() => recording.Dispose();

    /// <summary>Each new file made once, by its digest.</summary>
    private async Task<Dictionary<string, (SoundPicture Sound, WorkerAnswer Made)>> Make(
        IReadOnlyList<IncomingFile> files, Dictionary<string, TakenPicture> known, CancellationToken cancel)
    {
        List<Refusal> refusals = [];
        List<(int Place, FirstOrder Order)> orders = [];
        HashSet<string> seen = [.. known.Keys];
        for (var i = 0; i < files.Count; i++)
        {
            try
            {
                if (files[i].TooLarge)
                {
                    throw new UnsoundException(() => T($"The file is larger than {limits.FileBytes / 1_000_000} MB. Send it smaller."), RefusalKind.TooLarge);
                }

                if (seen.Add(files[i].Sha256))
                {
                    orders.Add((i, Examine(files[i].Path)));
                }
            }
            catch (UnsoundException e)
            {
                refusals.Add(e.At(i));
            }
        }

        var done = await workshop.Make([.. orders.Select(o => o.Order)], cancel);
        refusals.AddRange(done.Select((d, n) => d.Fault?.At(orders[n].Place)).OfType<Refusal>());
        return refusals.Count > 0
            ? throw new RefusedException([.. refusals.OrderBy(r => r.Path.Length).ThenBy(r => r.Path, StringComparer.Ordinal)])
            : orders.Zip(done).ToDictionary(p => files[p.First.Place].Sha256, p => (p.First.Order.Sound, p.Second.Made!));
    }

    private FirstOrder Examine(string path)
    {
        using var file = File.OpenRead(path);
        return new FirstOrder(() => File.OpenRead(path), SoundPicture.Read(file, limits));
    }

    /// <summary>One at a time; once it is its turn, a sender who hangs up changes nothing.</summary>
    private async Task<TAnswer> InTurn<TAnswer>(Func<Task<TAnswer>> record, CancellationToken cancel)
    {
        await recording.WaitAsync(cancel);
        try
        {
            return await record();
        }
        finally
        {
            recording.Release();
        }
    }

    private async Task<Taken> Record(
        Guid id, IReadOnlyList<IncomingFile> files, Dictionary<string, (SoundPicture Sound, WorkerAnswer Made)> made, string? caption, string who)
    {
        var garment = await Standing(id, CancellationToken.None);
        var known = KnownTo(garment);
        List<TakenPicture> taken = [];
        List<JsonObject> entries = [];
        List<string> fresh = [];
        HashSet<string> seen = [];
        try
        {
            foreach (var file in files)
            {
                // Of a picture she has, too: the bytes are those of its digest, so they mend one that was lost or changed.
                var isNew = seen.Add(file.Sha256) && await KeepOriginal(file);
                if (!known.TryGetValue(file.Sha256, out var picture))
                {
                    var (sound, answer) = made[file.Sha256];
                    picture = new TakenPicture(Guid.CreateVersion7(), file.Sha256, answer.Width, answer.Height, Already: false);
                    known[file.Sha256] = picture with { Already = true };
                    entries.Add(Entry(picture, sound.Format, file.Caption ?? caption, file.View));
                    if (isNew)
                    {
                        fresh.Add(file.Sha256);
                    }

                    derivatives.Keep(file.Sha256, answer);
                }

                taken.Add(picture);
            }

            if (entries.Count == 0)
            {
                return new Taken(taken, garment, null);
            }

            var saved = await archive.AddPictures(id, entries, who, CancellationToken.None);
            entries.ForEach(e => derivatives.AskForTheRest(e["sha256"]!.GetValue<string>()));
            var now = KnownTo(saved.Garment);
            // Another node may have added the same file a moment before: then its entry is the one that counts.
            return new Taken([.. taken.Select(t => now[t.Sha256].Id == t.Id ? t : now[t.Sha256])], saved.Garment, saved.Position);
        }
        catch (Exception e) when (e is NotFoundException or SetAsideException or FaultException)
        {
            // A plain no from the record. Any other failure may come after the event was stored: then the files stay.
            await Drop(fresh);
            throw;
        }
    }

    private async Task<bool> KeepOriginal(IncomingFile file)
    {
        var kept = await store.KeepOriginal(file);
        if (kept == OriginalKept.Mended)
        {
            derivatives.Renew(file.Sha256);
            regions.Drop(file.Sha256);
        }

        return kept == OriginalKept.New;
    }

    private async Task Drop(List<string> digests)
    {
        await using var session = documents.QuerySession();
        foreach (var sha256 in digests)
        {
            if (!await session.Query<PictureOwner>().AnyAsync(o => o.Sha256 == sha256))
            {
                store.DropOriginal(sha256);
            }
        }
    }

    private static string Word(PictureFormat format) => format switch { PictureFormat.Jpeg => "jpeg", PictureFormat.Png => "png", _ => "webp" };

    private static JsonObject Entry(TakenPicture picture, PictureFormat format, string? caption, JsonNode? view)
    {
        var entry = new JsonObject
        {
            ["id"] = picture.Id.ToString(),
            ["sha256"] = picture.Sha256,
            ["width"] = picture.Width,
            ["height"] = picture.Height,
            ["format"] = Word(format),
        };
        if (caption is not null)
        {
            entry["caption"] = caption;
        }

        if (view is not null)
        {
            entry["view"] = view.DeepClone();
        }

        return entry;
    }

    /// <summary>The garment's pictures by digest.</summary>
    private static Dictionary<string, TakenPicture> KnownTo(Garment garment)
    {
        Dictionary<string, TakenPicture> known = [];
        foreach (var picture in (garment.Fields["pictures"] as JsonArray ?? []).OfType<JsonObject>())
        {
            var sha256 = picture["sha256"]!.GetValue<string>();
            known.TryAdd(sha256, new TakenPicture(
                Guid.Parse(picture["id"]!.GetValue<string>()), sha256, Whole(picture["width"]), Whole(picture["height"]), Already: true));
        }

        return known;
    }

    /// <summary>A whole number of the record, which holds it as it was read or as it was made.</summary>
    private static int Whole(JsonNode? number) => int.Parse(number!.ToJsonString(), CultureInfo.InvariantCulture);
}
