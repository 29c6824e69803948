using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing.Tests;

public class FitTests
{
    private const string Yoke = """
        {"finished":"12 in","cloth":"18 in","tucks":{"from":6,"to":20},"width":{"from":"1/8 in","to":"1/8 in"},
         "space":{"from":"1/8 in","to":"1/2 in"},"ends":{"from":"1 in","to":"3 in"},"finest":"1/16 in",
         "like":{"tucks":9,"width":"1/8 in","space":"1/4 in"}}
        """;

    private static JsonObject Find(string request, bool onto = false) =>
        FitAnswerJson.Write(Fit.Find(FitRequestJson.Read(JsonNode.Parse(request), onto: onto)));

    [Fact]
    public void A_yoke_of_twelve_inches_can_be_tucked_in_24_ways_and_seventeen_keep_the_antiques_proportion()
    {
        var answer = Find(Yoke);
        Assert.True((bool)answer["fits"]!);
        Assert.Equal(24, (long)answer["count"]!);
        Assert.Equal(24, answer["arrangements"]!.AsArray().Count);
        var first = answer["arrangements"]![0]!;
        Assert.Equal(17, (int)first["tucks"]!);
        Assert.Equal(("1/8 in", "1/4 in", "2 15/16 in", "2 15/16 in", "12 in", "16 1/4 in"), (first.Text("width"), first.Text("space"), first.Text("lead"), first.Text("trail"), first.Text("finished"), first.Text("cloth")));
        Assert.Null(answer["reason"]);
        Assert.Empty(answer["nearest"]!.AsArray());
    }
}
