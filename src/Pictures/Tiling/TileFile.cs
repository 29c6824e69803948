using System.Buffers.Binary;

namespace HeirloomArchive.Pictures;

/// <summary>
/// All tiles of a picture in one file: eight bytes of name, width and height (4 each), then for each tile where it ends
/// (8 bytes), then the tiles as JPEG, in the order of <see cref="TileLevels"/>. Little-endian.
/// </summary>
internal sealed class TileFile : IDisposable
{
    private const int Head = 16, Entry = 8;

    private readonly FileStream file;

    private TileFile(FileStream file, int width, int height)
    {
        this.file = file;
        Width = width;
        Height = height;
        Levels = TileLevels.Of(width, height);
    }

    public int Width { get; }

    public int Height { get; }

    public IReadOnlyList<TileLevel> Levels { get; }

    private static ReadOnlySpan<byte> Name => "HATiles1"u8;

    private int Count => Levels[^1].First + 1;

    /// <summary>Reads the head; the file is disposed with what comes back.</summary>
    public static TileFile Open(FileStream file)
    {
        Span<byte> head = stackalloc byte[Head];
        file.ReadExactly(head);
        return head.StartsWith(Name)
            ? new TileFile(file, BinaryPrimitives.ReadInt32LittleEndian(head[8..]), BinaryPrimitives.ReadInt32LittleEndian(head[12..]))
            : throw new InvalidDataException($"{file.Name} is no file of tiles.");
    }

    public async Task<byte[]> Read(int tile, CancellationToken cancel)
    {
        var ends = new byte[2 * Entry];
        // The one before the first ends where the entries do.
        await RandomAccess.ReadAsync(file.SafeFileHandle, tile == 0 ? ends.AsMemory(Entry) : ends, Head + (Entry * Math.Max(tile - 1, 0)), cancel);
        var start = tile == 0 ? Head + (Entry * Count) : BinaryPrimitives.ReadInt64LittleEndian(ends);
        var bytes = new byte[BinaryPrimitives.ReadInt64LittleEndian(ends.AsSpan(Entry)) - start];
        await RandomAccess.ReadAsync(file.SafeFileHandle, bytes, start, cancel);
        return bytes;
    }

    public void Dispose() => file.Dispose();

    /// <summary>Writes one, tile after tile; whole once it has as many as the picture's size asks for.</summary>
    internal sealed class Writer(FileStream file, int width, int height)
    {
        private readonly byte[] front = new byte[Head + (Entry * (TileLevels.Of(width, height)[^1].First + 1))];
        private int written;
        private long end;

        public async ValueTask Add(byte[] tile)
        {
            if (written == 0)
            {
                Name.CopyTo(front);
                BinaryPrimitives.WriteInt32LittleEndian(front.AsSpan(8), width);
                BinaryPrimitives.WriteInt32LittleEndian(front.AsSpan(12), height);
                end = file.Position = front.Length;
            }

            await file.WriteAsync(tile);
            end += tile.Length;
            BinaryPrimitives.WriteInt64LittleEndian(front.AsSpan(Head + (Entry * written++)), end);
            if (Head + (Entry * written) == front.Length)
            {
                file.Position = 0;
                await file.WriteAsync(front);
            }
        }
    }
}
