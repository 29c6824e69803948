using System.Buffers.Binary;

namespace HeirloomArchive.Pictures;

/// <summary>What a worker is asked for.</summary>
internal enum WorkKind : byte
{
    /// <summary>Screen and thumbnail as JPEG: what an upload waits for.</summary>
    First,

    /// <summary>Every tile of the pyramid in its order, then screen and thumbnail as WebP.</summary>
    Rest,

    /// <summary>A region composed of tiles.</summary>
    Region,
}

internal enum WorkerOutcome
{
    Made,
    Unreadable,
    Short,
    NoMemory,
}

/// <summary>What a worker says of one picture: its size the right way up, and the files made, in the order of what was asked.</summary>
internal sealed record WorkerAnswer(WorkerOutcome Outcome, int Width = 0, int Height = 0)
{
    /// <summary>The files; none when the order took them one by one.</summary>
    public List<byte[]> Files { get; } = [];
}

/// <summary>
/// The talk between host and worker: a byte from the worker says that it is up; then a request is what is wanted (1 byte),
/// the format (1), a length (4) and that many bytes; an answer is outcome, width and height (4 bytes each), then each file
/// with its length before it (4), then a length of 0. Little-endian.
/// </summary>
internal static class WorkerMessages
{
    /// <summary>Bytes free in the buffer behind a request, for whoever reads it.</summary>
    public const int Room = 64;

    /// <summary>The worker's first byte.</summary>
    public const byte Hello = 0x2A;

    /// <summary>The same from one that has shut itself in: it tried a file, a socket, a signal and a limit, and could not.</summary>
    public const byte HelloConfined = 0x2B;

    /// <summary>The next request; the bytes lie at the front of a buffer that is used again. Null at the end.</summary>
    public static (WorkKind Kind, PictureFormat Format, ArraySegment<byte> Bytes)? ReadRequest(Stream input, ref byte[] buffer)
    {
        Span<byte> head = stackalloc byte[6];
        if (input.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) < head.Length)
        {
            return null;
        }

        var length = BinaryPrimitives.ReadInt32LittleEndian(head[2..]);
        if (buffer.Length - Room < length)
        {
            buffer = []; // Let go of the old before the new is taken.
            buffer = GC.AllocateUninitializedArray<byte>(length + Room, pinned: true);
        }

        input.ReadExactly(buffer, 0, length);
        return ((WorkKind)head[0], (PictureFormat)head[1], new ArraySegment<byte>(buffer, 0, length));
    }

    public static void WriteHead(Stream output, WorkerAnswer answer)
    {
        Span<byte> head = stackalloc byte[12];
        BinaryPrimitives.WriteInt32LittleEndian(head, (int)answer.Outcome);
        BinaryPrimitives.WriteInt32LittleEndian(head[4..], answer.Width);
        BinaryPrimitives.WriteInt32LittleEndian(head[8..], answer.Height);
        output.Write(head);
    }

    /// <summary>One file of an answer; empty for its end.</summary>
    public static void WriteFile(Stream output, ReadOnlySpan<byte> file)
    {
        Span<byte> length = stackalloc byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, file.Length);
        output.Write(length);
        output.Write(file);
    }

    public static async Task WriteRequest(Stream output, WorkKind kind, PictureFormat format, Stream file, CancellationToken cancel)
    {
        var head = new byte[6];
        head[0] = (byte)kind;
        head[1] = (byte)format;
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(2), checked((int)file.Length));
        await output.WriteAsync(head, cancel);
        await file.CopyToAsync(output, Pipes.Width, cancel);
        await output.FlushAsync(cancel);
    }

    /// <exception cref="EndOfStreamException">The worker ended before its answer did.</exception>
    /// <exception cref="InvalidDataException">The answer is not one that a worker in its senses gives.</exception>
    public static async Task<WorkerAnswer> ReadHead(Stream input, CancellationToken cancel)
    {
        var head = new byte[12];
        await input.ReadExactlyAsync(head, cancel);
        var outcome = (WorkerOutcome)Number(head, 0);
        return Enum.IsDefined(outcome)
            ? new WorkerAnswer(outcome, Number(head, 4), Number(head, 8))
            : throw new InvalidDataException("The picture worker's answer makes no sense.");
    }

    /// <summary>The next file of an answer, null at its end.</summary>
    /// <param name="input">What the worker says.</param>
    /// <param name="longest">Bytes it may have: the host believes nothing the worker says about lengths.</param>
    /// <param name="cancel">Stops waiting.</param>
    /// <exception cref="InvalidDataException">It says it is longer than that.</exception>
    public static async Task<byte[]?> ReadFile(Stream input, int longest, CancellationToken cancel)
    {
        var head = new byte[4];
        await input.ReadExactlyAsync(head, cancel);
        var length = Number(head, 0);
        if (length < 0 || length > longest)
        {
            throw new InvalidDataException("The picture worker's answer makes no sense.");
        }

        var file = new byte[length];
        await input.ReadExactlyAsync(file, cancel);
        return length == 0 ? null : file;
    }

    private static int Number(byte[] head, int at) => BinaryPrimitives.ReadInt32LittleEndian(head.AsSpan(at));
}
