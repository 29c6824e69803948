using HeirloomArchive.Support;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Xmp;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>Read back with another's program (MetadataExtractor): nothing of place, camera or small picture is in what is shown.</summary>
[Collection(nameof(Workers))]
public class PrivacyTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_originals_tell_of_camera_and_place_and_no_derivative_does()
    {
        using var room = new Room();
        byte[][] originals = [Made.Jpeg(1700, 1200, orientation: 1, placed: true), Made.Png(1700, 1200, alpha: 10, orientation: 1), Made.WebP(1700, 1200, orientation: 1)];
        var told = originals.Select(Read).ToList();
        Assert.Contains(told[0], d => d is GpsDirectory);
        Assert.Contains(told[0], d => d is ExifThumbnailDirectory);
        Assert.Contains(told[0], d => d is XmpDirectory);
        Assert.Contains(told[0], d => d is ExifSubIfdDirectory && d.ContainsTag(ExifDirectoryBase.TagMakernote));
        Assert.Contains(told[2], d => d is GpsDirectory);
        foreach (var original in originals)
        {
            var sha256 = await room.Keep(original);
            await room.Derivatives.MakeMissing(sha256, Cancel);
            List<Stream?> shown = [];
            foreach (var derivative in Enum.GetValues<Derivative>())
            {
                shown.Add(await room.Derivatives.Open(derivative, sha256, webP: false, Cancel));
                shown.Add(await room.Derivatives.Open(derivative, sha256, webP: true, Cancel));
            }

            shown.Add(await room.Tiles.Open(sha256, new TileRequest(0, 0, 512, 512, 512, 512), Cancel));
            foreach (var format in Enum.GetValues<PictureFormat>())
            {
                shown.Add(await room.Tiles.Open(sha256, new TileRequest(3, 5, 300, 300, 200, 200) { Format = format }, Cancel));
            }

            Assert.All(shown, s =>
            {
                using var stream = s!;
                using var bytes = new MemoryStream();
                stream.CopyTo(bytes);
                Assert.DoesNotContain(Read(bytes.ToArray()), d => d.Name.StartsWith("Exif", StringComparison.Ordinal) || d.Name is "GPS" or "XMP" or "IPTC" or "ICC Profile");
                Assert.Equal(-1, bytes.ToArray().AsSpan().IndexOf("camera"u8));
            });
        }
    }

    private static IReadOnlyList<MetadataExtractor.Directory> Read(byte[] file) => ImageMetadataReader.ReadMetadata(new MemoryStream(file));
}
