using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>Which characters the shipped faces can print. A face draws an empty box for one that it lacks; here none ever gets that far.</summary>
internal static class Letters
{
    private static readonly Lazy<HashSet<int>> InAllFaces = new(() =>
    {
        var all = OfFace(Fonts.Faces[0]);
        foreach (var face in Fonts.Faces.Skip(1))
        {
            all.IntersectWith(OfFace(face));
        }

        return all;
    });

    /// <summary>True where it prints, or is a break or a mark that shows nothing.</summary>
    public static bool Serves(Rune rune) =>
        InAllFaces.Value.Contains(rune.Value) || Instead(rune) is not null;

    /// <summary>The characters that can't be printed, each once, in their order.</summary>
    public static IReadOnlyList<Rune> Missing(string text) => [.. text.Normalize().EnumerateRunes().Where(r => !Serves(r)).Distinct()];

    /// <summary>The text as the faces can print it: whole letters for letters with loose accents, plain signs for fine ones, nothing for marks that show nothing.</summary>
    public static string Printable(string text)
    {
        if (text.All(c => c is >= ' ' and <= '~'))
        {
            return text;
        }

        var printed = new StringBuilder(text.Length);
        foreach (var rune in text.Normalize().EnumerateRunes())
        {
            printed.Append(InAllFaces.Value.Contains(rune.Value) ? rune.ToString() : Instead(rune));
        }

        return printed.ToString();
    }

    private static string? Instead(Rune rune) => rune.Value switch
    {
        '\n' or '\r' or '\t' or 0x2028 or 0x2029 => " ",
        0x2011 => "-",
        _ => Rune.GetUnicodeCategory(rune) switch
        {
            UnicodeCategory.SpaceSeparator => " ",
            UnicodeCategory.Format => "",
            _ => null,
        },
    };

    /// <summary>The characters of a face, from the tables of its file that map them to glyphs.</summary>
    private static HashSet<int> OfFace(string face)
    {
        var file = Fonts.File(face);
        var tables = BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(4));
        var map = Enumerable.Range(0, tables).Select(i => 12 + (16 * i)).First(at => Encoding.ASCII.GetString(file, at, 4) == "cmap");
        var start = (int)BinaryPrimitives.ReadUInt32BigEndian(file.AsSpan(map + 8));
        HashSet<int> characters = [];
        for (var i = 0; i < BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(start + 2)); i++)
        {
            var table = start + (int)BinaryPrimitives.ReadUInt32BigEndian(file.AsSpan(start + 4 + (8 * i) + 4));
            if (BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(table)) == 4)
            {
                Segments(file.AsSpan(table), characters);
            }
        }

        return characters;
    }

    /// <summary>Format 4: ranges of characters in the basic plane, which is all that the page writer reaches with one unit.</summary>
    private static void Segments(ReadOnlySpan<byte> table, HashSet<int> characters)
    {
        var twice = BinaryPrimitives.ReadUInt16BigEndian(table[6..]);
        for (var i = 0; i < twice; i += 2)
        {
            var last = BinaryPrimitives.ReadUInt16BigEndian(table[(14 + i)..]);
            var first = BinaryPrimitives.ReadUInt16BigEndian(table[(16 + twice + i)..]);
            for (int c = first; c <= last && c != 0xFFFF; c++)
            {
                if (Glyph(table, twice, i, c, first) != 0)
                {
                    characters.Add(c);
                }
            }
        }
    }

    private static int Glyph(ReadOnlySpan<byte> table, int twice, int segment, int character, int first)
    {
        var delta = BinaryPrimitives.ReadInt16BigEndian(table[(16 + (2 * twice) + segment)..]);
        var place = 16 + (3 * twice) + segment;
        var offset = BinaryPrimitives.ReadUInt16BigEndian(table[place..]);
        if (offset == 0)
        {
            return (character + delta) & 0xFFFF;
        }

        var glyph = BinaryPrimitives.ReadUInt16BigEndian(table[(place + offset + (2 * (character - first)))..]);
        return glyph == 0 ? 0 : (glyph + delta) & 0xFFFF;
    }
}
