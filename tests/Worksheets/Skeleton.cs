namespace HeirloomArchive.Worksheets.Tests;

public class Skeleton
{
    [Fact] public void Room_builds() => Assert.NotEqual("", typeof(Skeleton).Namespace);
}
