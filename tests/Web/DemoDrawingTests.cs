using System.Text.Json.Nodes;
using HeirloomArchive.Web.Demo.Drawing;

namespace HeirloomArchive.Web.Tests;

/// <summary>The drawn pictures measured: what the record says lies where it says.</summary>
public sealed class DemoDrawingTests
{
    private const int Width = 900, Height = 1200;

    // Below the run lies the rule; the row is measured above it.
    private const int Clear = 1050;

    [Theory]
    [InlineData("down", "to-sides", 5, 6.35f, 12.7f)]
    [InlineData("down", "to-centre", 7, 3.175f, 9.525f)]
    [InlineData("around", "down", 4, 12.7f, 19.05f)]
    public void Each_fold_of_a_machine_sewn_run_throws_its_shadow_where_the_plan_says(string runs, string turned, int tucks, float width, float space)
    {
        var technique = Run(runs, turned, tucks, width, space);
        var lines = TuckLines.Of(technique);
        var profile = Profile(technique, lines.FoldsDown);
        // On the finished piece a tuck's stitching is its width and the space from the one before (the pitch w + s).
        var pitch = (width + space) * lines.Scale;
        for (var i = 0; i < tucks; i++)
        {
            Assert.Equal(lines.Lines[0].Stitching + i * pitch, lines.Lines[i].Stitching, 0.05f);
            Assert.Equal(width * lines.Scale, MathF.Abs(lines.Lines[i].Fold - lines.Lines[i].Stitching), 0.05f);
            Assert.Equal(lines.Lines[i].Fold, Edge(profile, lines.Lines[i]), 1.5f);
        }
    }

    [Fact]
    public void The_rule_beside_a_run_has_blocks_of_ten_millimetres_at_the_scale_of_the_run()
    {
        var technique = Run("down", "to-sides", 5, 6.35f, 12.7f);
        var rgb = PngReader.Decode(DemoPicture.Draw(Garment(technique), "techniques[0]"), out _, out _);
        // The dark half of the rule: along it, the places where paper turns to ink.
        var y = Height - 60 - 12;
        List<int> begins = [];
        for (var x = 1; x < Width - 60; x++)
        {
            if (Bright(rgb, x - 1, y) > 150 && Bright(rgb, x, y) <= 150) begins.Add(x);
        }

        Assert.True(begins.Count >= 2, "No blocks were found.");
        Assert.Equal(20 * TuckLines.Of(technique).Scale, begins[1] - begins[0], 1.5f);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(96)]
    public void The_cloth_close_to_has_as_many_threads_to_the_inch_as_the_record_counts(int threads)
    {
        var garment = new JsonObject { ["number"] = "X-9", ["materials"] = new JsonArray(new JsonObject { ["word"] = "nainsook", ["threadsPerInch"] = new JsonObject { ["warp"] = threads, ["weft"] = 50 } }) };
        var rgb = PngReader.Decode(DemoPicture.Draw(garment, "cloth"), out _, out _);
        var row = Enumerable.Range(0, Width).Select(x => Enumerable.Range(100, 800).Average(y => Bright(rgb, x, y))).ToArray();
        // How strongly the row swings at each count: the record's must be the strongest.
        float Swing(int count)
        {
            var turn = 2 * Math.PI * count / (25.4 * 16);
            return (float)(Math.Pow(row.Select((v, x) => v * Math.Cos(turn * x)).Sum(), 2) + Math.Pow(row.Select((v, x) => v * Math.Sin(turn * x)).Sum(), 2));
        }

        Assert.Equal(threads, Enumerable.Range(20, 120).MaxBy(Swing));
    }

    [Fact]
    public void Against_the_light_an_opening_is_brighter_than_the_cloth_and_in_raking_light_folds_are_deeper()
    {
        var technique = Run("down", "to-sides", 5, 6.35f, 12.7f);
        var (above, raking) = (Profile(technique, down: true), Profile(technique, down: true, ", raking"));
        Assert.True(Spread(raking) > 1.2 * Spread(above), $"{Spread(raking)} against {Spread(above)}");
        var lace = JsonNode.Parse("""{"kind":"lace","lace":"torchon","form":"edging","width":{"mm":19}}""")!.AsObject();
        var plain = PngReader.Decode(DemoPicture.Draw(Garment(lace), "techniques[0]"), out _, out _);
        var lit = PngReader.Decode(DemoPicture.Draw(Garment(lace), "techniques[0], from behind"), out _, out _);
        // The openings show the ground by day, and are the brightest by the light behind them.
        var day = Enumerable.Range(0, Width * Height).Select(i => Bright(plain, i % Width, i / Width)).ToArray();
        var behind = Enumerable.Range(0, Width * Height).Select(i => Bright(lit, i % Width, i / Width)).ToArray();
        var (dark, white) = (Enumerable.Range(0, day.Length).Where(i => day[i] < 110).ToList(), Enumerable.Range(0, day.Length).Where(i => day[i] > 210).ToList());
        Assert.True(dark.Count > 20_000 && white.Count > 20_000, $"{dark.Count} open, {white.Count} white: no openwork.");
        Assert.True(dark.Average(i => behind[i]) > white.Average(i => behind[i]) + 40);
    }

    private static double Spread(double[] row) => Math.Sqrt(row.Average(v => v * v) - Math.Pow(row.Average(), 2));

    // The fold is where the light on the tuck ends and its shadow begins: the steepest fall outwards.
    private static float Edge(double[] row, (float Stitching, float Fold) line)
    {
        var outwards = MathF.Sign(line.Fold - line.Stitching);
        return Enumerable.Range((int)line.Fold - 8, 17).MaxBy(u => row[u - outwards] - row[u + outwards]) + 0.5f;
    }

    // The mean brightness along the row, over the length of the folds.
    private static double[] Profile(JsonObject technique, bool down, string light = "")
    {
        var rgb = PngReader.Decode(DemoPicture.Draw(Garment(technique), "techniques[0]" + light), out _, out _);
        return down
            ? [.. Enumerable.Range(0, Width).Select(x => Enumerable.Range(0, Clear).Average(y => Bright(rgb, x, y)))]
            : [.. Enumerable.Range(0, Height).Select(y => Enumerable.Range(0, 740).Average(x => Bright(rgb, x, y)))];
    }

    private static double Bright(byte[] rgb, int x, int y) => (rgb[((y * Width) + x) * 3] + rgb[(((y * Width) + x) * 3) + 1] + rgb[(((y * Width) + x) * 3) + 2]) / 3.0;

    private static JsonObject Garment(JsonObject technique) => new() { ["number"] = "X-9", ["kind"] = "baby-dress", ["techniques"] = new JsonArray(technique.DeepClone()) };

    private static JsonObject Run(string runs, string turned, int tucks, float width, float space) => new()
    {
        ["kind"] = "tucks", ["tuckKind"] = "plain", ["sewn"] = "machine-lockstitch", ["runs"] = runs, ["turned"] = turned,
        ["groups"] = new JsonArray(new JsonObject { ["tucks"] = tucks, ["width"] = new JsonObject { ["mm"] = width }, ["space"] = new JsonObject { ["mm"] = space } }),
    };
}
