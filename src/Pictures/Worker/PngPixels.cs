using System.Buffers.Binary;
using System.IO.Compression;

namespace HeirloomArchive.Pictures;

/// <summary>
/// Whether a PNG's compressed data gives every row its header promises; the library fills in what is missing.
/// Runs in the worker, as it inflates what a stranger sent.
/// </summary>
internal static class PngPixels
{
    /// <exception cref="InvalidDataException">The data does not inflate, or the header makes no sense.</exception>
    public static bool AreAllThere(byte[] file)
    {
        using var inflated = new ZLibStream(new DataChunks(file), CompressionMode.Decompress);
        var left = Expected(file.AsSpan(16, 13));
        var buffer = new byte[64 * 1024];
        for (int read; left > 0 && (read = inflated.Read(buffer)) > 0;)
        {
            left -= read;
        }

        return left <= 0;
    }

    /// <summary>Bytes of all rows with their filter bytes (ISO/IEC 15948, clauses 7 and 8), from the header's 13 bytes.</summary>
    private static long Expected(ReadOnlySpan<byte> header)
    {
        long width = BinaryPrimitives.ReadUInt32BigEndian(header), height = BinaryPrimitives.ReadUInt32BigEndian(header[4..]);
        var samples = header[9] switch
        {
            0 or 3 => 1,
            2 => 3,
            4 => 2,
            6 => 4,
            var other => throw new InvalidDataException($"There is no colour type {other}."),
        };
        var bits = samples * header[8];
        return header[12] == 0 ? Rows(width, height) : Adam7.Sum(pass => Rows(Part(width, pass.X, pass.Across), Part(height, pass.Y, pass.Down)));

        static long Part(long length, int from, int step) => (length - from + step - 1) / step;
        long Rows(long across, long down) => across <= 0 || down <= 0 ? 0 : down * (1 + (((across * bits) + 7) / 8));
    }

    private static readonly (int X, int Y, int Across, int Down)[] Adam7 =
        [(0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2)];

    /// <summary>The contents of the IDAT chunks, one after another; their frames were checked by the host.</summary>
    private sealed class DataChunks(byte[] file) : Stream
    {
        private int at = 8;
        private int left;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override int Read(Span<byte> buffer)
        {
            while (left == 0)
            {
                if (at + 12 > file.Length)
                {
                    return 0;
                }

                var length = BinaryPrimitives.ReadInt32BigEndian(file.AsSpan(at));
                var data = file.AsSpan(at + 4, 4).SequenceEqual("IDAT"u8);
                at += 8;
                if (data)
                {
                    left = length;
                }

                at += data && length > 0 ? 0 : length + 4;
            }

            var count = Math.Min(left, buffer.Length);
            file.AsSpan(at, count).CopyTo(buffer);
            at += count;
            left -= count;
            at += left == 0 ? 4 : 0;
            return count;
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
