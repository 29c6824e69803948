using HeirloomArchive.Support;

namespace HeirloomArchive.Search.Tests;

public sealed class OnDiskTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void What_was_put_is_found_at_once_and_a_piece_set_aside_is_gone()
    {
        using var index = Indexes.Of(folder.Path);
        var apron = Indexes.Garment(1, """{"name":"Apron"}""");
        index.Put(apron, 1);
        Assert.Equal(["Apron"], index.Names(""));
        apron["name"] = "Bib";
        index.Put(apron, 2);
        Assert.Equal(["Bib"], index.Names(""));
        apron["setAside"] = Archives.Object(("who", "Ann"));
        index.Put(apron, 3);
        Assert.Empty(index.Names(""));
    }

    [Fact]
    public void After_a_hard_end_it_stands_as_last_committed_with_the_position_to_go_on_from()
    {
        using (var index = Indexes.Of(folder.Path, Indexes.Garment(1, """{"name":"Apron"}""")))
        {
            index.Put(Indexes.Garment(2, """{"name":"Bib"}"""), 1);
            index.Commit(7);
            index.Put(Indexes.Garment(3, """{"name":"Cap"}"""), 1);
        }

        using var again = GarmentIndex.Open(folder.Path);
        Assert.Equal(7, again.Position);
        Assert.False(again.NeedsBuilding);
        Assert.Equal(["Apron", "Bib"], again.Names("sort=name"));
    }

    [Fact]
    public void A_second_owner_is_refused()
    {
        using var index = Indexes.Of(folder.Path);
        Assert.Contains("in use", Assert.Throws<IOException>(() => GarmentIndex.Open(folder.Path)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void In_a_folder_that_could_not_be_opened_again_nothing_is_built()
    {
        using var index = Indexes.Of(folder.Path, Indexes.Garment(1, """{"name":"Apron"}"""));
        var taken = Path.Combine(folder.Path, "owner.lock");
        File.Delete(taken);
        Directory.CreateDirectory(taken);
        Assert.ThrowsAny<Exception>(index.Reopen);
        Assert.Throws<InvalidOperationException>(() => index.BeginBuilding(1));

        Directory.Delete(taken);
        index.Reopen();
        Assert.Equal(["Apron"], index.Names(""));
    }

    [Fact]
    public void With_no_usable_index_a_search_says_how_far_the_building_is()
    {
        using var index = GarmentIndex.Open(folder.Path);
        Assert.True(index.NeedsBuilding);
        index.BeginBuilding(10);
        index.Build([(Guid.CreateVersion7(), Indexes.Garment(1, """{"name":"Apron"}"""))]);
        Assert.Equal(new BuildProgress(1, 10), Assert.Throws<IndexNotReadyException>(() => index.Ask("")).Progress);
    }

    [Fact]
    public void While_a_new_one_is_built_the_old_answers_and_neither_misses_a_save()
    {
        using var index = Indexes.Of(folder.Path, Indexes.Garment(1, """{"name":"Apron"}"""));
        index.BeginBuilding(1);
        index.Put(Indexes.Garment(2, """{"name":"Bib"}"""), 1);
        Assert.Equal(["Apron", "Bib"], index.Names("sort=name"));
        index.Adopt(9);
        Assert.Equal(["Bib"], index.Names("sort=name"));
        Assert.Equal((9, true, false), (index.Position, index.IsReady, index.NeedsBuilding));
        Assert.Single(Directory.GetDirectories(folder.Path));
    }

    [Fact]
    public void A_building_that_was_cut_short_is_thrown_away_and_the_old_one_kept()
    {
        using (var index = Indexes.Of(folder.Path, Indexes.Garment(1, """{"name":"Apron"}""")))
        {
            index.BeginBuilding(1);
            index.Build([(Guid.CreateVersion7(), Indexes.Garment(2, """{"name":"Bib"}"""))]);
        }

        using var again = GarmentIndex.Open(folder.Path);
        Assert.Equal(["Apron"], again.Names(""));
        Assert.Single(Directory.GetDirectories(folder.Path));
    }

    [Theory]
    [InlineData("cut off")]
    [InlineData("one byte changed")]
    [InlineData("gone")]
    public void A_damaged_index_counts_as_missing(string how)
    {
        Indexes.Of(folder.Path, Enumerable.Range(0, 50).Select(i => Indexes.Garment(i, """{"name":"Apron","description":"white lawn"}"""))).Dispose();
        var largest = new DirectoryInfo(Directory.GetDirectories(folder.Path).Single()).GetFiles().MaxBy(f => f.Length)!;
        switch (how)
        {
            case "gone":
                largest.Delete();
                break;
            case "cut off":
                using (var file = largest.OpenWrite())
                {
                    file.SetLength(largest.Length / 2);
                }

                break;
            default:
                var bytes = File.ReadAllBytes(largest.FullName);
                bytes[bytes.Length / 2] ^= 0xFF;
                File.WriteAllBytes(largest.FullName, bytes);
                break;
        }

        using var index = GarmentIndex.Open(folder.Path);
        Assert.True(index.NeedsBuilding);
        Assert.Throws<IndexNotReadyException>(() => index.Ask(""));
        Assert.Empty(Directory.GetDirectories(folder.Path));
    }

    [Fact]
    public async Task Searches_go_on_through_saves_and_a_change_of_index()
    {
        using var index = Indexes.Of(folder.Path, Enumerable.Range(0, 20).Select(i => Indexes.Garment(i, """{"name":"Apron"}""")));
        using var stop = new CancellationTokenSource();
        var searches = Task.Run(() =>
        {
            var count = 0;
            for (; !stop.IsCancellationRequested; count++)
            {
                Assert.Equal(20, index.Ask("q=apron")["total"]!.GetValue<int>());
            }

            return count;
        }, TestContext.Current.CancellationToken);
        for (var round = 0; round < 5; round++)
        {
            index.BeginBuilding(20);
            for (var i = 0; i < 20; i++)
            {
                index.Put(Indexes.Garment(i, """{"name":"Apron"}"""), 2);
            }

            index.Adopt(round + 2);
        }

        await stop.CancelAsync();
        Assert.True(await searches > 0);
    }
}
