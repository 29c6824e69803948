using System.Buffers.Binary;
using System.Diagnostics;
using HeirloomArchive.Pictures;
using HeirloomArchive.Pictures.Soundness;
using HeirloomArchive.Support;

namespace HeirloomArchive.Benchmarks;

/// <summary>Good files changed at random, from a seed, through the check of structure and the workers: the host must live through all.</summary>
internal static class PicturesFuzz
{
    private const int Seed = 20_261_126, Batch = 64, Told = 1024;

    /// <summary>Each file comes of its own number, so that any part of them can be run by itself.</summary>
    /// <param name="files">How many.</param>
    /// <param name="first">The number of the first.</param>
    public static async Task Run(int files, int first = 0)
    {
        var limits = new PictureLimits();
        List<byte[]> good =
        [
            Made.Jpeg(200, 150), Made.Jpeg(300, 200, orientation: 6, placed: true), JpegParts.WithProfile(Made.Jpeg(120, 90), IccProfile.DisplayP3), PlainJpeg.Of(120, 90, [255, 0, 0, 255]),
            Made.Png(120, 90), Made.Png(120, 90, alpha: 10, orientation: 3), PngParts.Stored(90, 70, 2, 16, true, (x, y, c) => (x * 700) + (y * 3) + c), PngParts.With(Made.Png(), PngParts.Profile(IccProfile.AdobeRgb)),
            Made.WebP(200, 150), Made.WebP(200, 150, lossless: true), WebPParts.With(Made.WebP(200, 150), 200, 150, ("ICCP", IccProfile.AdobeRgb), ("EXIF", Exif.Block(6, true))),
        ];
        using var workshop = new Workshop(Pictures.Program, limits);
        var clock = Stopwatch.StartNew();
        var counts = new SortedDictionary<string, int>(StringComparer.Ordinal);
        for (var done = 0; done < files; done += Batch)
        {
            List<(int Number, FirstOrder Order)> orders = [];
            for (var number = first + done; number < first + Math.Min(files, done + Batch); number++)
            {
                var random = new Random(Seed + number);
                var file = Changed(good[random.Next(good.Count)], good, random);
                try
                {
                    orders.Add((number, new FirstOrder(() => new MemoryStream(file), SoundPicture.Read(new MemoryStream(file), limits))));
                }
                catch (UnsoundException)
                {
                    Count("refused by their structure");
                }
            }

            foreach (var (made, number) in (await workshop.Make([.. orders.Select(o => o.Order)], CancellationToken.None)).Zip(orders.Select(o => o.Number)))
            {
                var died = made.Fault?.Message.Contains("ended without an answer", StringComparison.Ordinal) is true;
                if (died)
                {
                    Console.WriteLine($"file {number} took a worker along (again: fuzz 1 {number})");
                }

                Count(made.Fault is not { } fault ? "made"
                    : died ? "took a worker along, refused"
                    : fault.Message.Contains("takes", StringComparison.Ordinal) || fault.Message.Contains("was not read within", StringComparison.Ordinal) ? "over a limit, refused"
                    : "refused by a worker");
            }

            if ((done + Batch) % Told == 0)
            {
                Console.WriteLine($"{Math.Min(files, done + Batch)} of {files} in {clock.Elapsed.TotalSeconds:0} s");
            }
        }

        Console.WriteLine($"{files} files changed at random (seed {Seed}, from number {first}) in {clock.Elapsed.TotalSeconds:0} s, the host alive: {string.Join(", ", counts.Select(c => $"{c.Value} {c.Key}"))}");

        void Count(string what) => counts[what] = counts.GetValueOrDefault(what) + 1;
    }

    /// <summary>One to eight changes; in a PNG mostly with the checksums set right again, so that it comes further.</summary>
    private static byte[] Changed(byte[] from, List<byte[]> others, Random random)
    {
        var file = from.ToArray();
        for (var changes = random.Next(1, 9); changes > 0; changes--)
        {
            var at = random.Next(2, file.Length);
            switch (random.Next(7))
            {
                case 0:
                    file[at] ^= (byte)(1 << random.Next(8));
                    break;
                case 1:
                    file[at] = (byte)random.Next(256);
                    break;
                case 2:
                    file[at] = random.Next(2) == 0 ? (byte)0 : (byte)0xFF;
                    break;
                case 3 when file.Length > 100: // A piece left out.
                    file = [.. file[..at], .. file[Math.Min(file.Length, at + random.Next(1, 40))..]];
                    break;
                case 4: // A piece of another.
                    var other = others[random.Next(others.Count)];
                    var start = random.Next(other.Length);
                    file = [.. file[..at], .. other[start..Math.Min(other.Length, start + random.Next(1, 60))], .. file[at..]];
                    break;
                case 5: // A piece twice.
                    file = [.. file[..at], .. file[Math.Max(0, at - random.Next(1, 60))..]];
                    break;
                case 6 when at + 4 <= file.Length: // A number far off.
                    BinaryPrimitives.WriteInt32BigEndian(file.AsSpan(at), random.Next(3) switch { 0 => int.MaxValue, 1 => -1, _ => random.Next() });
                    break;
            }

            if (file.Length < 16)
            {
                file = from.ToArray();
            }
        }

        return PictureFormats.Of(file) == PictureFormat.Png && random.Next(5) > 0 ? WithSums(file) : file;
    }

    private static byte[] WithSums(byte[] file)
    {
        List<byte> right = [.. file[..8]];
        for (var at = 8; at + 12 <= file.Length;)
        {
            var length = BinaryPrimitives.ReadInt32BigEndian(file.AsSpan(at));
            if (length < 0 || length > file.Length - at - 12)
            {
                break;
            }

            right.AddRange(PngParts.Chunk(file.AsSpan(at + 4, 4), file.AsSpan(at + 8, length)));
            at += 12 + length;
        }

        return [.. right];
    }
}
