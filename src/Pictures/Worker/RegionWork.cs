using System.Buffers.Binary;

namespace HeirloomArchive.Pictures;

/// <summary>A region to be composed: a ground on which tiles are laid, which may stand out over its edges, the part of it that is wanted, and what is to come out.</summary>
/// <param name="GroundWidth">Pixels of the ground.</param>
/// <param name="GroundHeight">Pixels of the ground.</param>
/// <param name="X">The part's left edge on the ground; it may lie between pixels.</param>
/// <param name="Y">The part's upper edge.</param>
/// <param name="Width">The part's width.</param>
/// <param name="Height">The part's height.</param>
/// <param name="OutWidth">Pixels that come out, before the turn.</param>
/// <param name="OutHeight">Pixels that come out, before the turn.</param>
/// <param name="Rotation">Degrees clockwise: 0, 90, 180 or 270.</param>
/// <param name="Mirrored">Mirrored left to right before the turn.</param>
/// <param name="Grey">In shades of grey.</param>
/// <param name="Format">What is to come out.</param>
internal sealed record RegionWork(
    int GroundWidth, int GroundHeight, float X, float Y, float Width, float Height,
    int OutWidth, int OutHeight, int Rotation, bool Mirrored, bool Grey, PictureFormat Format)
{
    private const int Head = 52;

    /// <summary>As it is sent: the head, then each tile with its place and length (4 bytes each) before it.</summary>
    public byte[] Message(IReadOnlyList<(int Left, int Top, ArraySegment<byte> File)> tiles)
    {
        var message = new byte[Head + tiles.Sum(t => 12 + t.File.Count)];
        var at = 0;
        foreach (var number in new[] { GroundWidth, GroundHeight, Bits(X), Bits(Y), Bits(Width), Bits(Height), OutWidth, OutHeight, Rotation, Mirrored ? 1 : 0, Grey ? 1 : 0, (int)Format, tiles.Count })
        {
            Write(number);
        }

        foreach (var (left, top, file) in tiles)
        {
            Write(left);
            Write(top);
            Write(file.Count);
            file.AsSpan().CopyTo(message.AsSpan(at));
            at += file.Count;
        }

        return message;

        static int Bits(float number) => BitConverter.SingleToInt32Bits(number);
        void Write(int number)
        {
            BinaryPrimitives.WriteInt32LittleEndian(message.AsSpan(at), number);
            at += 4;
        }
    }

    /// <summary>Reads what <see cref="Message"/> wrote.</summary>
    public static RegionWork Read(ArraySegment<byte> message, out List<(int Left, int Top, ArraySegment<byte> File)> tiles)
    {
        var at = 0;
        var work = new RegionWork(
            Next(), Next(), Part(), Part(), Part(), Part(), Next(), Next(), Next(), Next() == 1, Next() == 1, (PictureFormat)Next());
        tiles = new(Next());
        for (var left = tiles.Capacity; left > 0; left--)
        {
            var (x, y, length) = (Next(), Next(), Next());
            tiles.Add((x, y, message.Slice(at, length)));
            at += length;
        }

        return work;

        float Part() => BitConverter.Int32BitsToSingle(Next());
        int Next()
        {
            at += 4;
            return BinaryPrimitives.ReadInt32LittleEndian(message.AsSpan(at - 4));
        }
    }
}
