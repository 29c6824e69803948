using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing.Tests;

public class LengthJsonTests
{
    private static (TypedLength? Read, List<Fault> Faults) Read(string json, bool belowZero = false)
    {
        var faults = new List<Fault>();
        return (LengthJson.Read(JsonNode.Parse(json), "width", faults, belowZero), faults);
    }

    [Theory]
    [InlineData("\"3/8 in\"", 9_525_000, "3/8 in", LengthUnit.Inches)]
    [InlineData("\" 12,5 cm \"", 125_000_000, "12,5 cm", LengthUnit.Millimetres)]
    [InlineData("{\"mm\": 9.525}", 9_525_000, "9.525 mm", LengthUnit.Millimetres)]
    [InlineData("{\"mm\": 9.525, \"text\": \"3/8 in\"}", 9_525_000, "3/8 in", LengthUnit.Inches)]
    [InlineData("{\"text\": \"0.375 in\", \"mm\": 9.525000}", 9_525_000, "0.375 in", LengthUnit.Inches)]
    [InlineData("{\"mm\": 8.466667, \"text\": \"1/3 in\"}", 8_466_667, "1/3 in", LengthUnit.Inches)]
    [InlineData("{\"mm\": 9525e-3}", 9_525_000, "9.525 mm", LengthUnit.Millimetres)]
    [InlineData("{\"mm\": 16.03375, \"text\": \"≈ 5/8 in\"}", 16_033_750, "≈ 5/8 in", LengthUnit.Inches)]
    [InlineData("{\"mm\": 0}", 0, "0 mm", LengthUnit.Millimetres)]
    public void Both_shapes_are_read(string json, long nanometres, string text, LengthUnit unit)
    {
        var (read, faults) = Read(json);
        Assert.Empty(faults);
        Assert.Equal(new TypedLength(Length.FromNanometres(nanometres), text, unit), read);
    }

    [Theory]
    [InlineData("\"3/8\"", "width", FaultKind.Unreadable)]
    [InlineData("\"\"", "width", FaultKind.Unreadable)]
    [InlineData("\"\\ud800 in\"", "width", FaultKind.Unreadable)]
    [InlineData("9.525", "width", FaultKind.Unreadable)]
    [InlineData("null", "width", FaultKind.Unreadable)]
    [InlineData("true", "width", FaultKind.Unreadable)]
    [InlineData("[\"3/8 in\"]", "width", FaultKind.Unreadable)]
    [InlineData("{}", "width.mm", FaultKind.Unreadable)]
    [InlineData("{\"text\":\"3/8 in\"}", "width.mm", FaultKind.Unreadable)]
    [InlineData("{\"mm\":\"9.525\"}", "width.mm", FaultKind.Unreadable)]
    [InlineData("{\"mm\":null}", "width.mm", FaultKind.Unreadable)]
    [InlineData("{\"mm\":9.525,\"text\":3}", "width.text", FaultKind.Unreadable)]
    [InlineData("{\"mm\":9.525,\"inches\":0.375}", "width.inches", FaultKind.Unreadable)]
    [InlineData("{\"mm\":9.525,\"text\":\"1/4 in\"}", "width", FaultKind.Senseless)]
    [InlineData("{\"mm\":9.525,\"text\":\"3/8\"}", "width", FaultKind.Senseless)]
    [InlineData("{\"mm\":9.525,\"text\":\"≈ 3/8 in\"}", "width", FaultKind.Senseless)]
    [InlineData("{\"mm\":-1}", "width", FaultKind.Senseless)]
    [InlineData("\"-1/16 in\"", "width", FaultKind.Senseless)]
    [InlineData("{\"mm\":1000000.000001}", "width", FaultKind.Senseless)]
    [InlineData("{\"mm\":1e400}", "width", FaultKind.Senseless)]
    [InlineData("{\"mm\":123456789012345678901234567890}", "width", FaultKind.Senseless)]
    [InlineData("\"3000 yd\"", "width", FaultKind.Senseless)]
    public void What_is_wrong_is_named_by_its_path(string json, string path, FaultKind kind)
    {
        var (read, faults) = Read(json);
        Assert.Null(read);
        var fault = Assert.Single(faults);
        Assert.Equal((path, kind), (fault.Path, fault.Kind));
        Assert.InRange(fault.Message.Length, 20, 250);
    }

    [Fact]
    public void Below_zero_is_read_where_a_rule_allows_it() =>
        Assert.Equal(-1_587_500, Read("\"-1/16 in\"", belowZero: true).Read!.Value.Length.Nanometres);

    [Fact]
    public void What_comes_out_is_exact_to_the_nanometre_and_goes_back_in()
    {
        foreach (var nanometres in new[] { 0, 1, 9_525_000, 8_466_667, 396_875, 999_999_999_999 })
        {
            foreach (var unit in Enum.GetValues<LengthUnit>())
            {
                var length = Length.FromNanometres(nanometres);
                var written = LengthJson.Write(length, unit).ToJsonString();
                Assert.Equal(length, Read(written).Read!.Value.Length);
            }
        }

        Assert.Equal("""{"mm":9.525,"text":"3/8 in"}""", LengthJson.Write(Length.FromMillimetres(9.5250m), "3/8 in").ToJsonString());
    }
}
