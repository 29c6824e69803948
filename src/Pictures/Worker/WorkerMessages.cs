using System.Buffers.Binary;

namespace HeirloomArchive.Pictures;

internal enum WorkerOutcome
{
    Made,
    Unreadable,
    Short,
    NoMemory,
}

/// <summary>What a worker says of one picture: its size the right way up, and its derivatives.</summary>
internal sealed record WorkerAnswer(WorkerOutcome Outcome, int Width = 0, int Height = 0, byte[]? Screen = null, byte[]? Thumbnail = null);

/// <summary>
/// The talk between host and worker: a byte from the worker says that it is up; then a request is the format (1 byte), a length (4) and that many bytes; an answer is
/// outcome, width, height and the lengths of both derivatives (4 bytes each), then their bytes. Little-endian.
/// </summary>
internal static class WorkerMessages
{
    /// <summary>The worker's first byte.</summary>
    public const byte Hello = 0x2A;

    // The host believes nothing the worker says about lengths: both are far above what the recipe can give.
    private const int ScreenBytes = 8 << 20, ThumbnailBytes = 1 << 20;

    public static (PictureFormat Format, byte[] Bytes)? ReadRequest(BinaryReader input)
    {
        var format = input.BaseStream.ReadByte();
        if (format < 0)
        {
            return null;
        }

        var bytes = new byte[input.ReadInt32()];
        input.BaseStream.ReadExactly(bytes);
        return ((PictureFormat)format, bytes);
    }

    public static void WriteAnswer(BinaryWriter output, WorkerAnswer answer)
    {
        output.Write((int)answer.Outcome);
        output.Write(answer.Width);
        output.Write(answer.Height);
        output.Write(answer.Screen?.Length ?? 0);
        output.Write(answer.Thumbnail?.Length ?? 0);
        output.Write(answer.Screen ?? []);
        output.Write(answer.Thumbnail ?? []);
    }

    public static async Task WriteRequest(Stream output, PictureFormat format, Stream file, CancellationToken cancel)
    {
        var head = new byte[5];
        head[0] = (byte)format;
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(1), checked((int)file.Length));
        await output.WriteAsync(head, cancel);
        await file.CopyToAsync(output, cancel);
        await output.FlushAsync(cancel);
    }

    /// <exception cref="EndOfStreamException">The worker ended before its answer did.</exception>
    /// <exception cref="InvalidDataException">The answer is not one that a worker in its senses gives.</exception>
    public static async Task<WorkerAnswer> ReadAnswer(Stream input, CancellationToken cancel)
    {
        var head = new byte[20];
        await input.ReadExactlyAsync(head, cancel);
        int Number(int n) => BinaryPrimitives.ReadInt32LittleEndian(head.AsSpan(4 * n));
        var outcome = (WorkerOutcome)Number(0);
        if (!Enum.IsDefined(outcome) || Number(3) is < 0 or > ScreenBytes || Number(4) is < 0 or > ThumbnailBytes)
        {
            throw new InvalidDataException("The picture worker's answer makes no sense.");
        }

        var screen = new byte[Number(3)];
        var thumbnail = new byte[Number(4)];
        await input.ReadExactlyAsync(screen, cancel);
        await input.ReadExactlyAsync(thumbnail, cancel);
        return new WorkerAnswer(outcome, Number(1), Number(2), screen, thumbnail);
    }
}
