using System.Globalization;
using System.Text.Json.Nodes;
using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Store;

namespace HeirloomArchive.Search;

/// <summary>One index on disk with its writer. What was put is seen by every search that begins afterwards.</summary>
internal sealed class IndexFolder : IDisposable
{
    private const string Layout = "layout", Words = "words", Sequence = "sequence";

    // In megabytes; a building one writes few large segments, so that less has to be merged.
    private const double Buffer = 64, BufferWhileBuilding = 256;

    private readonly Lucene.Net.Store.Directory directory;
    private readonly IndexWriter writer;
    private readonly SearcherManager searchers;
    private readonly Warmer warmer;
    private readonly System.Threading.Lock refreshing = new();
    private readonly string wordsOf;
    private long written;
    private long shown;
    private long committed;

    private IndexFolder(string path, Lucene.Net.Store.Directory directory, IndexWriter writer)
    {
        warmer = (Warmer)writer.Config.MergedSegmentWarmer;
        FolderPath = path;
        this.directory = directory;
        this.writer = writer;
        searchers = new SearcherManager(writer, applyAllDeletes: true, null);
        var known = writer.CommitData;
        Position = known.TryGetValue(Sequence, out var sequence) ? long.Parse(sequence, CultureInfo.InvariantCulture) : 0;
        wordsOf = known.TryGetValue(Words, out var words) ? words : Vocabulary.Trade.Fingerprint;
    }

    public string FolderPath { get; }

    /// <summary>The position up to which the record is in it for certain, as of the last commit.</summary>
    public long Position { get; private set; }

    /// <summary>False when the thesaurus has changed since: it still answers, but should be built again.</summary>
    public bool KnowsTodaysWords => wordsOf == Vocabulary.Trade.Fingerprint;

    /// <summary>Garments in it.</summary>
    public int Count
    {
        get
        {
            return Ask(searcher => searcher.IndexReader.Leaves.Sum(leaf => Blocks.Of(leaf).Living(leaf.AtomicReader).Cardinality));
        }
    }

    /// <summary>An empty index in a new folder.</summary>
    public static IndexFolder Create(string path)
    {
        System.IO.Directory.CreateDirectory(path);
        var directory = Files(path);
        var settings = Settings(OpenMode.CREATE);
        settings.RAMBufferSizeMB = BufferWhileBuilding;
        // Large segments are not copied once more into one file each.
        settings.UseCompoundFile = false;
        return new IndexFolder(path, directory, new IndexWriter(directory, settings));
    }

    /// <summary>The index of a folder, every byte of it checked; null when it is damaged, unfinished or laid out otherwise.</summary>
    public static IndexFolder? OpenSound(string path)
    {
        Lucene.Net.Store.Directory? directory = null;
        IndexWriter? writer = null;
        IndexFolder? sound = null;
        try
        {
            directory = Files(path);
            using (var reader = DirectoryReader.Open(directory))
            {
                if (!reader.IndexCommit.UserData.TryGetValue(Layout, out var layout) || layout != Number(GarmentBlock.Layout))
                {
                    directory.Dispose();
                    return null;
                }

                foreach (var leaf in reader.Leaves)
                {
                    leaf.AtomicReader.CheckIntegrity();
                }
            }

            writer = new IndexWriter(directory, Settings(OpenMode.APPEND));
            sound = new IndexFolder(path, directory, writer);
            sound.Warm();
            return sound;
        }
        catch (Exception e) when (IsDamage(e))
        {
            if (sound is not null)
            {
                sound.Dispose();
                return null;
            }

            writer?.Dispose();
            directory?.Dispose();
            return null;
        }
    }

    /// <summary>Whether an error tells that the files are not what they should be.</summary>
    public static bool IsDamage(Exception e) =>
        e is IOException or ArgumentException or InvalidOperationException or IndexOutOfRangeException or FormatException or OverflowException or NullReferenceException;

    public void Put(Guid id, JsonObject state)
    {
        if (state["setAside"] is not null)
        {
            Remove(id);
            return;
        }

        writer.UpdateDocuments(Term(id), GarmentBlock.Of(id, state));
        Interlocked.Increment(ref written);
    }

    /// <summary>Puts garments in that are not in it yet, several at once.</summary>
    public void Add(IReadOnlyCollection<(Guid Id, JsonObject State)> garments)
    {
        Parallel.ForEach(garments.Where(g => g.State["setAside"] is null), new() { MaxDegreeOfParallelism = Environment.ProcessorCount }, garment => writer.AddDocuments(GarmentBlock.Of(garment.Id, garment.State)));
        Interlocked.Add(ref written, garments.Count);
    }

    public void Remove(Guid id)
    {
        writer.DeleteDocuments(Term(id));
        Interlocked.Increment(ref written);
    }

    /// <summary>From now on it is asked: what it holds is read into memory, and so is what is merged later.</summary>
    public void Warm()
    {
        warmer.IsOn = true;
        writer.Config.RAMBufferSizeMB = Buffer;
        writer.Config.UseCompoundFile = true;
        Ask(searcher =>
        {
            foreach (var leaf in searcher.IndexReader.Leaves)
            {
                warmer.Warm(leaf.AtomicReader);
            }

            return true;
        });
    }

    /// <summary>Makes what was put survive anything, and notes up to which position it goes.</summary>
    public void Commit(long position)
    {
        var upTo = Interlocked.Read(ref written);
        if (position == Position && upTo == committed && writer.CommitData.Count > 0)
        {
            return;
        }

        writer.SetCommitData(new Dictionary<string, string>
        {
            [Layout] = Number(GarmentBlock.Layout), [Words] = wordsOf, [Sequence] = Number(position),
        });
        writer.Commit();
        (Position, committed) = (position, upTo);
    }

    /// <summary>Asks the index as it is now.</summary>
    public T Ask<T>(Func<IndexSearcher, T> question)
    {
        ShowWritten();
        var searcher = searchers.Acquire();
        try
        {
            return question(searcher);
        }
        finally
        {
            searchers.Release(searcher);
        }
    }

    /// <summary>Closes it; what was put since the last commit is dropped and will be read from the record again.</summary>
    public void Dispose()
    {
        searchers.Dispose();
        try
        {
            writer.Rollback();
        }
        catch (Exception e) when (IsDamage(e))
        {
            // A folder that was taken away cannot be rolled back; it is closed all the same.
        }

        directory.Dispose();
    }

    // The reader is opened anew when somebody asks, not at each save: a burst of saves costs one.
    private void ShowWritten()
    {
        if (Interlocked.Read(ref written) == Interlocked.Read(ref shown))
        {
            return;
        }

        lock (refreshing)
        {
            var upTo = Interlocked.Read(ref written);
            if (upTo == shown)
            {
                return;
            }

            try
            {
                searchers.MaybeRefreshBlocking();
                Interlocked.Exchange(ref shown, upTo);
            }
            catch (Exception e) when (IsDamage(e))
            {
                // Its folder was taken away, or its disk is full: it answers as it stood, until whoever writes to it meets the same and puts it right.
            }
        }
    }

    // What is asked is mapped into memory; the stored texts, of which an answer shows twenty, are read as files.
    private static FileSwitchDirectory Files(string path) => new(new HashSet<string> { "fdt" }, new NIOFSDirectory(path), new MMapDirectory(path), doClose: true);

    private static Term Term(Guid id) => new(Fields.Garment, id.ToString());

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);

    // Every text comes cut into words already, so no analyzer has anything to do.
    private static IndexWriterConfig Settings(OpenMode mode) => new(Analysis.Version, new Lucene.Net.Analysis.Core.KeywordAnalyzer())
    {
        OpenMode = mode,
        RAMBufferSizeMB = Buffer,
        Similarity = new Lucene.Net.Search.Similarities.BM25Similarity(),
        MergedSegmentWarmer = new Warmer(),
        // One writer a folder is held by owner.lock, see GarmentIndex; this one keeps to itself.
        WriteLockTimeout = 1_000,
    };

    /// <summary>Reads a merged segment's blocks and columns before the first search meets it.</summary>
    private sealed class Warmer : IndexWriter.IndexReaderWarmer
    {
        /// <summary>Off while nobody asks the index: warming every merge of a building one would be thrown away.</summary>
        public bool IsOn { get; set; }

        public override void Warm(AtomicReader reader)
        {
            if (IsOn)
            {
                Blocks.Of(reader.AtomicContext).Warm(reader);
            }
        }
    }
}
