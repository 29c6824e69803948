using System.Diagnostics;
using System.Net;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Support;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Hostile.Tests;

/// <summary>Every worker is killed while it comes up.</summary>
[Collection("one after another")] // It kills the workers of this process, whosesoever.
public sealed class NoWorkerTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>However often it tries, no worker comes up: that is no fault of the picture's, and later it is taken.</summary>
    [Fact]
    public async Task While_no_worker_comes_up_an_upload_is_told_to_wait_and_nothing_is_kept()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Children are looked for in /proc.");
        var garment = (await host.Services.GetRequiredService<Archive>().Enter(new JsonObject { ["name"] = "A blouse to photograph" }, "owner", Cancel)).Garment.Id;
        var before = Files();
        var file = Made.Png(90, 70, alpha: 7);
        using var stop = new CancellationTokenSource();
        var killing = new Thread(() =>
        {
            while (!stop.IsCancellationRequested)
            {
                Process.GetProcesses().Where(KillTests.IsWorker).ToList().ForEach(w => w.Kill());
            }
        });
        killing.Start();
        JsonNode told;
        HttpResponseMessage answer;
        var tries = 0;
        try
        {
            do
            {
                // One may just have come up when it is killed: then it had the picture, which is refused.
                answer = await Send(garment, file);
                told = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!;
            }
            while (++tries < 100 && answer.StatusCode == HttpStatusCode.UnprocessableEntity && told["errors"]!["file[0]"]![0]!.ToString().Contains("ended without an answer", StringComparison.Ordinal));
        }
        finally
        {
            await stop.CancelAsync();
            killing.Join();
        }

        Assert.Equal((HttpStatusCode.ServiceUnavailable, "application/problem+json"), (answer.StatusCode, answer.Content.Headers.ContentType!.MediaType));
        Assert.True(answer.Headers.RetryAfter!.Delta > TimeSpan.Zero);
        Assert.DoesNotContain(PictureWorker.Verb, told.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal(before, Files());
        Assert.Null((await host.Services.GetRequiredService<Archive>().Find(garment, Cancel))!.Fields["pictures"]);
        using var again = await Send(garment, file);
        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        answer.Dispose();

        List<string> Files() => [.. new DirectoryInfo(Path.Combine(host.Folder, "pictures")).EnumerateFiles("*", SearchOption.AllDirectories).Select(f => f.FullName).Order()];
    }

    private async Task<HttpResponseMessage> Send(Guid garment, byte[] file)
    {
        using var form = new MultipartFormDataContent { { new ByteArrayContent(file), "file", "picture.png" } };
        return await host.Client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), form, Cancel);
    }
}
