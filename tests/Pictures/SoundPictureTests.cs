using HeirloomArchive.Pictures.Soundness;
using HeirloomArchive.Support;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>What is found of a file before any of it is decoded.</summary>
public class SoundPictureTests
{
    private static readonly PictureLimits Limits = new();

    public static TheoryData<PictureFormat> Formats => [.. Enum.GetValues<PictureFormat>()];

    [Theory]
    [MemberData(nameof(Formats))]
    public void A_whole_file_is_known_by_its_content(PictureFormat format) =>
        Assert.Equal(new SoundPicture(format, 64, 48), Read(Made.Of(format)));

    [Fact]
    public void A_lossless_webp_is_known_too() =>
        Assert.Equal(new SoundPicture(PictureFormat.WebP, 61, 47), Read(Made.WebP(61, 47, lossless: true)));

    [Theory]
    [MemberData(nameof(Formats))]
    public void A_file_cut_off_anywhere_is_refused(PictureFormat format)
    {
        var whole = Made.Of(format);
        Assert.All(Enumerable.Range(0, whole.Length), length =>
            Assert.Throws<UnsoundException>(() => Read(whole[..length])));
    }

    [Theory]
    [MemberData(nameof(Formats))]
    public void A_file_cut_off_in_its_middle_says_so(PictureFormat format)
    {
        var whole = Made.Of(format);
        var fault = Refused(whole[..(whole.Length / 2)]);
        Assert.Equal(RefusalKind.Unsound, fault.Kind);
        Assert.Contains("cut off", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Formats))]
    public void What_follows_the_end_mark_is_let_be(PictureFormat format) =>
        Assert.Equal(format, Read([.. Made.Of(format), 0, 1, 2, 3]).Format);

    [Fact]
    public void Every_damaged_byte_of_a_png_is_noticed()
    {
        var whole = Made.Png(8, 8);
        for (var i = 0; i < whole.Length; i++)
        {
            var damaged = whole.ToArray();
            damaged[i] ^= 0x10;
            Assert.Throws<UnsoundException>(() => Read(damaged));
        }
    }

    [Fact]
    public void A_wrong_checksum_names_the_chunk()
    {
        var damaged = Made.Png();
        var data = damaged.AsSpan().IndexOf("IDAT"u8);
        damaged[data + 10] ^= 1;
        Assert.Contains("checksum of its chunk IDAT", Refused(damaged).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_small_picture_inside_a_jpegs_header_is_not_taken_for_its_end()
    {
        var inner = Made.Jpeg(16, 16);
        var length = inner.Length + 2;
        byte[] outer = [.. Made.Jpeg()[..2], 0xFF, 0xE5, (byte)(length >> 8), (byte)length, .. inner, .. Made.Jpeg()[2..]];
        Assert.Equal(new SoundPicture(PictureFormat.Jpeg, 64, 48), Read(outer));
        Assert.Throws<UnsoundException>(() => Read(outer[..^2]));
    }

    [Fact]
    public void A_jpeg_without_a_scan_is_no_picture()
    {
        var whole = Made.Jpeg();
        var scan = whole.AsSpan().IndexOf([(byte)0xFF, (byte)0xDA]);
        Assert.Throws<UnsoundException>(() => Read([.. whole[..scan], 0xFF, 0xD9]));
    }

    [Theory]
    [InlineData("FFD8FFDA0002FFD9")]
    [InlineData("FFD8FFDA0002FFC0000B080001000101011100FFD9")]
    public void A_jpeg_with_a_scan_before_its_frame_is_damaged(string file) =>
        Assert.Contains("a scan before its frame header", Refused(Convert.FromHexString(file)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("II*\0", "TIFF")]
    [InlineData("MM\0*", "TIFF")]
    [InlineData("GIF89a", "GIF")]
    [InlineData("BM", "BMP")]
    [InlineData("\0\0\0\u0018ftypheic", "HEIC")]
    [InlineData("\0\0\0\u0018ftypavif", "AVIF")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'>", "SVG")]
    [InlineData("hello", "something else")]
    [InlineData("", "empty")]
    public void Another_kind_of_file_is_named_and_refused(string begins, string named)
    {
        var fault = Refused([.. System.Text.Encoding.Latin1.GetBytes(begins), .. begins.Length > 0 ? new byte[100] : []]);
        Assert.Equal(RefusalKind.Foreign, fault.Kind);
        Assert.Contains(named, fault.Message, StringComparison.Ordinal);
        Assert.Contains("JPEG, PNG or WebP", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_bigtiff_of_24_bytes_is_refused_at_once()
    {
        byte[] file = [(byte)'I', (byte)'I', 43, 0, 8, 0, 0, 0, 16, 0, 0, 0, 0, 0, 0, 0, 255, 255, 255, 255, 255, 255, 255, 127];
        Assert.Equal(RefusalKind.Foreign, Refused(file).Kind);
    }

    [Theory]
    [InlineData(30_000, 30_000)]
    [InlineData(10_001, 5_000)]
    [InlineData(70_000, 1)]
    public void A_small_file_that_says_it_is_huge_is_refused_by_its_header(int width, int height)
    {
        var fault = Refused(PngParts.Saying(width, height));
        Assert.Contains($"{width} × {height}", fault.Message, StringComparison.Ordinal);
        Assert.Contains("50 megapixels", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Fifty_megapixels_are_not_too_many() =>
        Assert.Equal(10_000, Read(PngParts.Saying(10_000, 5_000)).Width);

    [Fact]
    public void A_picture_without_height_is_refused() =>
        Assert.Contains("64 × 0", Refused(PngParts.Saying(64, 0)).Message, StringComparison.Ordinal);

    [Fact]
    public void An_animated_webp_is_refused_as_such()
    {
        byte[] chunks = [.. "VP8X"u8, 10, 0, 0, 0, 2, 0, 0, 0, 63, 0, 0, 47, 0, 0, .. "ANIM"u8, 6, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        Assert.Contains("animated", Refused([.. "RIFF"u8, (byte)(chunks.Length + 4), 0, 0, 0, .. "WEBP"u8, .. chunks]).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_webp_whose_canvas_is_not_its_picture_is_refused()
    {
        var whole = Made.WebP();
        byte[] chunks = [.. "VP8X"u8, 10, 0, 0, 0, 0, 0, 0, 0, 255, 255, 0, 47, 0, 0, .. whole[12..]];
        var length = BitConverter.GetBytes(chunks.Length + 4);
        Assert.Contains("differ in size", Refused([.. "RIFF"u8, .. length, .. "WEBP"u8, .. chunks]).Message, StringComparison.Ordinal);
    }

    private static SoundPicture Read(byte[] file) => SoundPicture.Read(new MemoryStream(file), Limits);

    private static UnsoundException Refused(byte[] file) => Assert.Throws<UnsoundException>(() => Read(file));
}
