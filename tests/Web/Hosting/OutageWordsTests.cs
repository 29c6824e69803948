using HeirloomArchive.Web.Hosting;

namespace HeirloomArchive.Web.Tests.Hosting;

/// <summary>What is said of a disk that is full: where the archive lies, and where its pictures are if they lie elsewhere.</summary>
public sealed class OutageWordsTests
{
    [Theory]
    [InlineData("/srv/archive/pictures", "lies (/srv/archive), then")]
    [InlineData("/srv/archive-pictures", "lies (/srv/archive; pictures: /srv/archive-pictures), then")]
    [InlineData("/mnt/large", "lies (/srv/archive; pictures: /mnt/large), then")]
    public void A_full_disk_names_both_folders_where_the_pictures_lie_elsewhere(string pictures, string named)
    {
        var outage = Outage.Of(new IOException("full", 28), new("/srv/archive", pictures, null));
        Assert.Equal(507, outage!.Status);
        Assert.Contains(named, outage.Detail, StringComparison.Ordinal);
    }
}
