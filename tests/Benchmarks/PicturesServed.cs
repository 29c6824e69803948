using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Hosting.Postgres;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.FileProviders;

namespace HeirloomArchive.Benchmarks;

/// <summary>The service taking 100 uploads of 5 MB, four at once, and giving originals beside a plain static file.</summary>
internal static class PicturesServed
{
    private const int Uploads = 100, AtOnce = 4;

    public static async Task Run(byte[] file, bool taken, bool given)
    {
        using var folder = new TemporaryFolder();
        await (taken ? Taken(file, Path.Combine(folder.Path, "taking")) : Task.CompletedTask);
        await (given ? Given(file, Path.Combine(folder.Path, "giving")) : Task.CompletedTask);
    }

    private static async Task Taken(byte[] file, string folder)
    {
        var port = RunningArchive.FreePort();
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{port}"), Timeout = TimeSpan.FromMinutes(5) };
        var (host, _) = await Load.Start(folder, port, client);
        using var stop = new CancellationTokenSource();
        var most = Watch(host, stop.Token);
        var garment = await Garment(client);
        var clock = Stopwatch.StartNew();
        await Parallel.ForAsync(0, Uploads, new ParallelOptions { MaxDegreeOfParallelism = AtOnce }, async (i, ct) =>
        {
            // Each another file: a comment more.
            using var answer = await client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), Form(JpegParts.With(file, 0xFE, BitConverter.GetBytes(i))), ct);
            answer.EnsureSuccessStatusCode();
        });
        var took = clock.Elapsed;
        await stop.CancelAsync();
        var memory = await most >> 20;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Uploads} uploads of {file.Length / 1e6:0.0} MB, {AtOnce} at once: {took.TotalSeconds:0.0} s, the host's memory {memory} MiB at most"));
        await Load.Stop(host);
    }

    /// <summary>The most memory a process had, looked at every 20 ms.</summary>
    private static async Task<long> Watch(Process host, CancellationToken stop)
    {
        var most = 0L;
        while (!stop.IsCancellationRequested)
        {
            host.Refresh();
            most = Math.Max(most, host.WorkingSet64);
            await Task.Delay(20, CancellationToken.None);
        }

        return most;
    }

    private static async Task Given(byte[] file, string folder)
    {
        Directory.CreateDirectory(folder);
        await using var postgres = await EmbeddedPostgres.Start(folder);
        var builder = Foundation.CreateBuilder(["--urls=http://127.0.0.1:0", $"--Archive:Folder={folder}", $"--ConnectionStrings:Archive={postgres.ConnectionString}"]);
        await using var app = Web.Program.Build(builder, ArchiveSettings.Read(builder.Configuration, demo: false));
        var plain = Directory.CreateDirectory(Path.Combine(folder, "plain"));
        await File.WriteAllBytesAsync(Path.Combine(plain.FullName, "file.jpg"), file);
        app.UseStaticFiles(new StaticFileOptions { FileProvider = new PhysicalFileProvider(plain.FullName), RequestPath = "/plain" });
        await app.StartAsync();
        app.Services.GetRequiredService<Readiness>().Reach();
        using var client = new HttpClient { BaseAddress = new Uri(app.Urls.Single()) };
        using var answer = await client.PostAsync(new Uri($"/api/garments/{await Garment(client)}/pictures", UriKind.Relative), Form(file));
        var id = JsonNode.Parse(await answer.Content.ReadAsStringAsync())![0]!["id"]!.ToString();
        foreach (var range in new[] { false, true })
        {
            var (ours, theirs) = await Speeds($"/api/pictures/{id}/original", "/plain/file.jpg", range);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"an original{(range ? ", the half of it by a range" : "")}: {ours:0} MB/s, {ours / theirs:0.00} x a plain static file"));
        }

        await app.StopAsync();

        // By turns, so that what else the machine does falls on both.
        async Task<(double, double)> Speeds(string first, string second, bool range)
        {
            var got = 0L;
            var times = await Load.Times(async i =>
            {
                using var request = new HttpRequestMessage(HttpMethod.Get, i % 2 == 0 ? first : second);
                request.Headers.Range = range ? new RangeHeaderValue(file.Length / 4, file.Length * 3 / 4) : null;
                var response = await client.SendAsync(request);
                got = response.Content.Headers.ContentLength ?? 0;
                return response;
            }, 400);
            double Speed(int turn) => got / 1e6 / (Load.Median([.. times.Where((_, i) => i % 2 == turn)]) / 1000);
            return (Speed(0), Speed(1));
        }
    }

    private static async Task<string> Garment(HttpClient client)
    {
        using var answer = await client.PostAsJsonAsync("/api/garments", new { name = "A blouse to photograph" });
        answer.EnsureSuccessStatusCode();
        return JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["id"]!.ToString();
    }

    private static MultipartFormDataContent Form(byte[] file) => new() { { new ByteArrayContent(file), "file", "picture.jpg" } };
}
