using System.Text.Json.Nodes;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests;

public class FitFaultTests
{
    private const string Yoke = """
        {"finished":"12 in","cloth":"18 in","tucks":{"from":6,"to":20},"width":{"from":"1/8 in","to":"1/8 in"},
         "space":{"from":"1/8 in","to":"1/2 in"},"ends":{"from":"1 in","to":"3 in"},"finest":"1/16 in",
         "like":{"tucks":9,"width":"1/8 in","space":"1/4 in"}}
        """;

    /// <summary>A field of the yoke, what is sent in its place (nothing: it is left out), and the fault.</summary>
    [Theory]
    [InlineData("finished", "\"12\"", "finished", FaultKind.Unreadable)]
    [InlineData("finished", null, "finished", FaultKind.Senseless)]
    [InlineData("finished", "\"0 in\"", "finished", FaultKind.Senseless)]
    [InlineData("finished", "\"-1 in\"", "finished", FaultKind.Senseless)]
    [InlineData("finished", "\"2000 m\"", "finished", FaultKind.Senseless)]
    [InlineData("cloth", "\"-1 in\"", "cloth", FaultKind.Senseless)]
    [InlineData("cloth", "18", "cloth", FaultKind.Unreadable)]
    [InlineData("tucks", null, "tucks", FaultKind.Senseless)]
    [InlineData("tucks", "9", "tucks", FaultKind.Unreadable)]
    [InlineData("tucks", "{\"from\":6}", "tucks.to", FaultKind.Senseless)]
    [InlineData("tucks", "{\"from\":6,\"to\":\"20\"}", "tucks.to", FaultKind.Unreadable)]
    [InlineData("tucks", "{\"from\":6,\"to\":20,\"step\":2}", "tucks.step", FaultKind.Unreadable)]
    [InlineData("tucks", "{\"from\":0,\"to\":20}", "tucks.from", FaultKind.Senseless)]
    [InlineData("tucks", "{\"from\":6,\"to\":1001}", "tucks.to", FaultKind.Senseless)]
    [InlineData("tucks", "{\"from\":20,\"to\":6}", "tucks", FaultKind.Senseless)]
    [InlineData("width", "\"1/8 in\"", "width", FaultKind.Unreadable)]
    [InlineData("width", "{\"from\":\"0 in\",\"to\":\"1/8 in\"}", "width.from", FaultKind.Senseless)]
    [InlineData("width", "{\"from\":\"1/32 in\",\"to\":\"1/8 in\"}", "width.from", FaultKind.Senseless)]
    [InlineData("width", "{\"from\":\"1/4 in\",\"to\":\"1/8 in\"}", "width", FaultKind.Senseless)]
    [InlineData("width", "{\"from\":\"1/8\",\"to\":\"1/8 in\"}", "width.from", FaultKind.Unreadable)]
    [InlineData("space", "{\"from\":\"-1/16 in\",\"to\":\"1/8 in\"}", "space.from", FaultKind.Senseless)]
    [InlineData("space", null, "space", FaultKind.Senseless)]
    [InlineData("ends", "{\"from\":\"-1/16 in\",\"to\":\"1/8 in\"}", "ends.from", FaultKind.Senseless)]
    [InlineData("ends", null, "ends", FaultKind.Senseless)]
    [InlineData("finest", "\"1/8 in\"", "finest", FaultKind.Senseless)]
    [InlineData("finest", "\"2 mm\"", "finest", FaultKind.Senseless)]
    [InlineData("finest", null, "finest", FaultKind.Senseless)]
    [InlineData("like", "{\"tucks\":9,\"width\":\"0 in\",\"space\":\"1/4 in\"}", "like.width", FaultKind.Senseless)]
    [InlineData("like", "{\"tucks\":0,\"width\":\"1/8 in\",\"space\":\"1/4 in\"}", "like.tucks", FaultKind.Senseless)]
    [InlineData("like", "{\"tucks\":9,\"width\":\"1/8 in\"}", "like.space", FaultKind.Senseless)]
    [InlineData("like", "{\"tucks\":9,\"width\":\"1/8 in\",\"space\":\"1/4 in\",\"apart\":\"1/4 in\"}", "like.apart", FaultKind.Unreadable)]
    [InlineData("unevenEnds", "1", "unevenEnds", FaultKind.Unreadable)]
    [InlineData("testStrip", "{\"tucks\":0,\"width\":\"1/8 in\",\"flat\":\"2 in\",\"finished\":\"1 in\"}", "testStrip.tucks", FaultKind.Senseless)]
    [InlineData("lies", "\"from-centre\"", "lies", FaultKind.Unreadable)]
    [InlineData("centre", "\"1 in\"", "centre", FaultKind.Unreadable)]
    [InlineData("colour", "\"white\"", "colour", FaultKind.Unreadable)]
    public void What_is_wrong_is_named(string field, string? sent, string path, FaultKind kind)
    {
        var request = JsonNode.Parse(Yoke)!.AsObject();
        request.Remove(field);
        if (sent is not null)
        {
            request[field] = JsonNode.Parse(sent);
        }

        var fault = Assert.Single(Refused(() => Fit.Find(FitRequestJson.Read(request))));
        Assert.Equal((path, kind), (fault.Path, fault.Kind));
        Assert.Contains(fault.Message[^1], ".?");
    }

    [Theory]
    [InlineData("""{"lies":"towards-end","centre":"1 in"}""", "onto.centre")]
    [InlineData("""{"centre":"1 in"}""", "onto.centre")]
    [InlineData("""{"lies":"from-centre","centre":"-1 in"}""", "onto.centre")]
    [InlineData("""{"lies":"from-centre","unevenEnds":true}""", "onto.unevenEnds")]
    [InlineData("""{"lies":"downwards"}""", "onto.lies")]
    public void A_worksheets_request_is_held_to_its_lie(string more, string path)
    {
        var request = JsonNode.Parse(Yoke)!.AsObject();
        foreach (var (name, value) in JsonNode.Parse(more)!.AsObject())
        {
            request[name] = value?.DeepClone();
        }

        var fault = Assert.Single(Refused(() => Fit.Find(FitRequestJson.Read(request, "onto", onto: true))));
        Assert.Equal((path, FaultKind.Senseless), (fault.Path, fault.Kind));
    }
}
