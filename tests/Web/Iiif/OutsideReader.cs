using System.Diagnostics;
using System.Reflection;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Tests.Iiif;

/// <summary>The npm package <c>@iiif/parser</c> (MIT), another's reader of IIIF documents.</summary>
internal static class OutsideReader
{
    /// <summary>What it makes of documents: see check.mjs.</summary>
    public static async Task<JsonObject> Ask(JsonObject documents)
    {
        var folder = typeof(OutsideReader).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "IiifFolder").Value!;
        var start = new ProcessStartInfo("node", "check.mjs") { WorkingDirectory = folder, RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        using var node = Process.Start(start)!;
        var (answer, errors) = (node.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), node.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
        await node.StandardInput.WriteAsync(documents.ToJsonString());
        node.StandardInput.Close();
        await node.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(node.ExitCode == 0, await errors);
        return JsonNode.Parse(await answer)!.AsObject();
    }
}
