using System.Buffers.Binary;

namespace HeirloomArchive.Pictures.Soundness;

/// <summary>Reads a file forwards through a small buffer; running out of it means the file is cut off.</summary>
internal sealed class FileReader(Stream file, string kind)
{
    private readonly byte[] buffer = new byte[64 * 1024];
    private int at;
    private int filled;
    private long before;

    /// <summary>Bytes read so far.</summary>
    public long Position => before + at;

    public byte Byte() => at < filled || Fill() ? buffer[at++] : throw CutOff();

    public int TwoBytes() => (Byte() << 8) | Byte();

    public void Read(Span<byte> into)
    {
        for (var i = 0; i < into.Length; i++)
        {
            into[i] = Byte();
        }
    }

    public uint BigEndian()
    {
        Span<byte> four = stackalloc byte[4];
        Read(four);
        return BinaryPrimitives.ReadUInt32BigEndian(four);
    }

    public uint LittleEndian()
    {
        Span<byte> four = stackalloc byte[4];
        Read(four);
        return BinaryPrimitives.ReadUInt32LittleEndian(four);
    }

    /// <summary>The next bytes as they lie in the buffer, at most <paramref name="most"/>, never none; they count as read.</summary>
    public ReadOnlySpan<byte> Some(long most)
    {
        if (at == filled && !Fill())
        {
            throw CutOff();
        }

        var length = (int)Math.Min(most, filled - at);
        at += length;
        return buffer.AsSpan(at - length, length);
    }

    public void Skip(long count)
    {
        while (count > 0)
        {
            count -= Some(count).Length;
        }
    }

    /// <summary>Reads on until just behind the next such byte.</summary>
    public void SkipPast(byte mark)
    {
        while (at < filled || Fill())
        {
            var found = buffer.AsSpan(at, filled - at).IndexOf(mark);
            if (found >= 0)
            {
                at += found + 1;
                return;
            }

            at = filled;
        }

        throw CutOff();
    }

    private UnsoundException CutOff() => new(() => T($"The {kind} file is cut off: its end is missing. Copy or send it again."));

    private bool Fill()
    {
        before += filled;
        at = 0;
        filled = file.Read(buffer);
        return filled > 0;
    }
}
