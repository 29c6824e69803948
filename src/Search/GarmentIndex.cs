using System.Text.Json.Nodes;
using HeirloomArchive.Search.Alike;

namespace HeirloomArchive.Search;

/// <summary>The index of the garments, a view of the record that can be thrown away and built again. One process owns its folder.</summary>
public sealed class GarmentIndex : IDisposable
{
    private const string Prefix = "garments-";

    private readonly string folder;
    private readonly TimeProvider clock;
    private readonly ReaderWriterLockSlim swapping = new();
    private readonly HashSet<Guid> putMeanwhile = [];
    private FileStream? owner;
    private IndexFolder? current;
    private IndexFolder? building;
    private bool isDistrusted;
    private bool isDisposed;

    private GarmentIndex(string folder, TimeProvider clock)
    {
        this.folder = folder;
        this.clock = clock;
    }

    /// <summary>How far the building of a new index has come; null when none is being built.</summary>
    public BuildProgress? Progress { get; private set; }

    /// <summary>Whether there is an index that can be asked.</summary>
    public bool IsReady => current is not null;

    /// <summary>Whether a new one must be built: there is none, or it was made with other words or from another record.</summary>
    public bool NeedsBuilding => isDistrusted || current is not { KnowsTodaysWords: true };

    /// <summary>The position in the record up to which all is kept on disk.</summary>
    public long Position => current?.Position ?? 0;

    /// <summary>Opens the index of a folder, making the folder if need be. A damaged one counts as missing.</summary>
    /// <exception cref="IOException">Another process has it open.</exception>
    public static GarmentIndex Open(string folder, TimeProvider? clock = null)
    {
        var index = new GarmentIndex(folder, clock ?? TimeProvider.System);
        index.Take();
        return index;
    }

    /// <summary>Says that the index is not of this record: it answers until a new one is built.</summary>
    public void Distrust() => isDistrusted = true;

    /// <summary>Closes and opens the folder again, after a failure on disk: back to what was last committed.</summary>
    public void Reopen()
    {
        ObjectDisposedException.ThrowIf(isDisposed, this);
        Leave();
        Take();
    }

    /// <summary>Puts a garment in as it now is, or takes it out when it is set aside. Every search from now on knows.</summary>
    public void Put(Guid id, long version, JsonObject state)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(version, 1);
        current?.Put(id, state);
        if (building is not null)
        {
            building.Put(id, state);
            putMeanwhile.Add(id);
        }
    }

    /// <summary>Keeps on disk what was put so far, which is the record up to this position at least.</summary>
    public void Commit(long position) => current?.Commit(position);

    /// <summary>Begins a new index beside the one in use. From now on what is put goes into both.</summary>
    /// <exception cref="InvalidOperationException">The folder is not this process's: it was left and could not be opened again.</exception>
    public void BeginBuilding(long garments)
    {
        if (owner is null)
        {
            throw new InvalidOperationException($"The index in {folder} was left; it is opened again before a new one is built.");
        }

        building?.Dispose();
        var next = Indexes().Select(i => i.Number).DefaultIfEmpty(0).Max() + 1;
        building = IndexFolder.Create(PathOf(next));
        putMeanwhile.Clear();
        Progress = new BuildProgress(0, garments);
    }

    /// <summary>Puts garments into the new index alone, each once; what was put since the building began is newer and stays.</summary>
    public void Build(IReadOnlyCollection<(Guid Id, JsonObject State)> garments)
    {
        building!.Add([.. garments.Where(g => !putMeanwhile.Contains(g.Id))]);
        var done = Progress!.Done + garments.Count;
        Progress = Progress with { Done = done, Total = Math.Max(Progress.Total, done) };
    }

    /// <summary>The new index is whole up to this position: it takes the old one's place, and the old one is removed.</summary>
    public void Adopt(long position)
    {
        building!.Commit(position);
        building.Warm();
        isDistrusted = false;
        IndexFolder? old;
        swapping.EnterWriteLock();
        try
        {
            (old, current, building, Progress) = (current, building, null, null);
        }
        finally
        {
            swapping.ExitWriteLock();
        }

        old?.Dispose();
        RemoveAllBut(current!.FolderPath);
    }

    /// <summary>Answers a request, in the shape the API shows.</summary>
    /// <exception cref="IndexNotReadyException">There is no usable index yet.</exception>
    public JsonObject Search(SearchRequest request) =>
        Ask(index => index.Ask(searcher => Answer.To(request, searcher, clock.GetUtcNow().Year / 10)));

    /// <summary>The techniques made most like one of a garment: <c>{"items":[{"id","technique","name","distance","why"}]}</c>, nearest first.</summary>
    /// <param name="garment">Whose technique it is; its others are left out.</param>
    /// <param name="technique">The technique as the record has it.</param>
    /// <param name="anySize">Only those of another size, with the same proportions as far as can be.</param>
    /// <param name="size">How many at most.</param>
    /// <exception cref="IndexNotReadyException">There is no usable index yet.</exception>
    public JsonObject LikeTechnique(Guid garment, JsonObject technique, bool anySize, int size) =>
        new() { ["items"] = Ask(index => index.Ask(searcher => Likeness.ToTechnique(technique, garment, searcher, anySize, size))) };

    /// <summary>The pieces most like one, by techniques, kind and words; in the shape of <see cref="LikeTechnique"/>, <c>technique</c> null.</summary>
    /// <exception cref="IndexNotReadyException">There is no usable index yet.</exception>
    public JsonObject LikeGarment(Guid garment, JsonObject state, int size) =>
        new() { ["items"] = Ask(index => index.Ask(searcher => Likeness.ToGarment(garment, state, searcher, size))) };

    /// <summary>What a half-typed sentence may mean: what is understood of it, then the words its end may become.</summary>
    public JsonArray Suggest(string q) => Answer.ToJson(Suggestions.For(q, Has));

    /// <summary>The words of one's own that stand in the garments and are no words of the thesaurus, the most used first.</summary>
    /// <exception cref="IndexNotReadyException">There is no usable index yet.</exception>
    public IReadOnlyList<OwnText> OwnTexts() => Ask(index => index.Ask(OwnText.In));

    /// <summary>Garments in the index.</summary>
    public int Count => Ask(index => index.Count);

    public void Dispose()
    {
        isDisposed = true;
        Leave();
    }

    private bool Has(Suggestion word) => IsReady
        && Ask(index => index.Ask(searcher => searcher.IndexReader.DocFreq(new Lucene.Net.Index.Term(word.Parameter, word.Value)) > 0));

    private T Ask<T>(Func<IndexFolder, T> question)
    {
        swapping.EnterReadLock();
        try
        {
            return question(current ?? throw new IndexNotReadyException(Progress ?? new BuildProgress(0, 0)));
        }
        finally
        {
            swapping.ExitReadLock();
        }
    }

    private void Take()
    {
        Directory.CreateDirectory(folder);
        try
        {
            // Held by the operating system for as long as the process lives, however it ends.
            owner = new FileStream(Path.Combine(folder, "owner.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException e)
        {
            throw new IOException($"The index in {folder} is in use by another process.", e);
        }

        // The newest that is whole; one whose building was cut short never got a first commit.
        var found = Indexes().OrderByDescending(i => i.Number).Select(i => IndexFolder.OpenSound(i.Path)).FirstOrDefault(i => i is not null);
        swapping.EnterWriteLock();
        current = found;
        swapping.ExitWriteLock();
        RemoveAllBut(current?.FolderPath);
    }

    private void Leave()
    {
        swapping.EnterWriteLock();
        try
        {
            current?.Dispose();
            building?.Dispose();
            (current, building, Progress) = (null, null, null);
            owner?.Dispose();
            owner = null;
        }
        finally
        {
            swapping.ExitWriteLock();
        }
    }

    private void RemoveAllBut(string? kept)
    {
        foreach (var (_, path) in Indexes().Where(i => i.Path != kept))
        {
            Directory.Delete(path, recursive: true);
        }
    }

    private IEnumerable<(int Number, string Path)> Indexes() =>
        from path in Directory.GetDirectories(folder, Prefix + "*")
        let number = Path.GetFileName(path)[Prefix.Length..]
        where int.TryParse(number, out _)
        select (int.Parse(number, System.Globalization.CultureInfo.InvariantCulture), path);

    private string PathOf(int number) => Path.Combine(folder, FormattableString.Invariant($"{Prefix}{number}"));
}
