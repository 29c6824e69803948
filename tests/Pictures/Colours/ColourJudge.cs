using System.Diagnostics;
using System.Reflection;
using System.Text.Json;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>The npm package <c>culori</c> (MIT), another's conversion of colours.</summary>
internal static class ColourJudge
{
    /// <summary>Colours of one space in another; both as it names them (<c>rgb</c> is sRGB, <c>p3</c>, <c>a98</c>), 0 to 1, not clipped.</summary>
    public static async Task<double[][]> Convert(string from, string to, IEnumerable<double[]> colours)
    {
        var cancel = TestContext.Current.CancellationToken;
        var folder = typeof(ColourJudge).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "ColoursFolder").Value!;
        using var node = Process.Start(new ProcessStartInfo("node", "judge.mjs") { WorkingDirectory = folder, RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true })!;
        var (answer, errors) = (node.StandardOutput.ReadToEndAsync(cancel), node.StandardError.ReadToEndAsync(cancel));
        await node.StandardInput.WriteAsync(JsonSerializer.Serialize(new { from, to, colours }));
        node.StandardInput.Close();
        await node.WaitForExitAsync(cancel);
        Assert.True(node.ExitCode == 0, await errors);
        return JsonSerializer.Deserialize<double[][]>(await answer)!;
    }
}
