using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Fullness;

public class KiltedSkirtTests
{
    [Fact]
    public void Each_pleat_takes_its_share_at_every_level()
    {
        var answer = Of("kilted", """{"cloth":"44 in","pleats":8,"levels":[{"name":"waist","finished":"14 in"},{"name":"hem","finished":"27 1/2 in"}],"waist":"28 in"}""");
        Assert.Equal(["3 3/4 in", "2 1/16 in"], answer.Texts("levels", "each"));
        Assert.Equal(["1 7/8 in", "1 1/32 in"], answer.Texts("levels", "depth"));
        Assert.Equal(("3 3/4 in", "168 in"), (answer.Text("most"), answer.Text("kiltCloth")));
    }

    [Fact]
    public void A_level_wider_than_the_cloth_is_named_by_its_place() =>
        Refuses("kilted", """{"cloth":"44 in","pleats":8,"levels":[{"name":"waist","finished":"14 in"},{"name":"hem","finished":"45 in"}]}""", "levels[1].finished", "at most 44 in");
}
