using HeirloomArchive.Support;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>How long uploads in parts wait, and how many may.</summary>
public sealed class PartedUploadsTests : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly Clock clock = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task One_that_waits_seven_days_is_thrown_away_and_a_part_in_between_begins_them_anew()
    {
        var uploads = Open();
        var (left, tended) = (Begin(uploads), Begin(uploads));
        clock.Now = clock.Now.AddDays(4);
        await uploads.Append(tended.Id, Guid.Empty, 0, new MemoryStream([1, 2, 3]), null, (_, _) => Task.FromResult<TakenPicture?>(null), TestContext.Current.CancellationToken);
        clock.Now = clock.Now.AddDays(4);
        Assert.Null(uploads.Find(left.Id, Guid.Empty));
        Assert.Equal(3, uploads.Find(tended.Id, Guid.Empty)!.Offset);
        Assert.Equal(1, uploads.Sweep());
        Assert.Equal(2, Files().Count); // what was said of the other one, and its three bytes
    }

    [Fact]
    public async Task A_part_that_is_cut_off_begins_the_days_anew_too()
    {
        var uploads = Open();
        var begun = Begin(uploads);
        clock.Now = clock.Now.AddDays(4);
        await Assert.ThrowsAsync<IOException>(() => uploads.Append(begun.Id, Guid.Empty, 0, new Breaking(), null, (_, _) => Task.FromResult<TakenPicture?>(null), TestContext.Current.CancellationToken));
        clock.Now = clock.Now.AddDays(4);
        Assert.Equal(10, uploads.Find(begun.Id, Guid.Empty)!.Offset);
    }

    [Fact]
    public void What_a_killed_host_left_half_begun_is_swept_at_the_next_start_but_not_what_is_just_begun()
    {
        var begun = Begin(Open());
        var unfinished = Path.Combine(folder.Path, "unfinished");
        foreach (var (name, age) in new[] { (Guid.NewGuid().ToString("N"), 2), (begun.Id.ToString("N") + ".json.x.new", 2), (Guid.NewGuid().ToString("N"), 0) })
        {
            File.WriteAllText(Path.Combine(unfinished, name), "half");
            File.SetLastWriteTimeUtc(Path.Combine(unfinished, name), clock.Now.UtcDateTime.AddHours(-age));
        }

        Open();
        Assert.Equal(2, Files().Count); // the one begun, and what is too new to be left behind
    }

    [Fact]
    public void No_more_wait_than_may_and_one_that_goes_makes_room()
    {
        var uploads = Open(new PictureLimits { Unfinished = 2 });
        Begin(uploads);
        Begin(uploads);
        Assert.Throws<TooManyUploadsException>(() => Begin(uploads));
        clock.Now = clock.Now.AddDays(8);
        Begin(uploads);
    }

    private PartedUploads Open(PictureLimits? limits = null) => new(new PictureStore(folder.Path, limits ?? new()), limits ?? new(), clock);

    private static PartedUpload Begin(PartedUploads uploads) => uploads.Begin(new(Guid.CreateVersion7(), 100, "a.png", null, null, null));

    private List<FileInfo> Files() => [.. new DirectoryInfo(Path.Combine(folder.Path, "unfinished")).EnumerateFiles()];

    private sealed class Clock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = DateTimeOffset.UtcNow;

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
