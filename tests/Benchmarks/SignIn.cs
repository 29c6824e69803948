using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Accounts;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Benchmarks;

/// <summary>Whether the time of an answer tells which names there are: a wrong password of a known name and an unknown name, turn and turn about.</summary>
public static class SignIn
{
    /// <summary>Tries each so many times, every try from another address so that none has to wait.</summary>
    public static async Task Run(int tries)
    {
        var postgres = new PostgresServer();
        await postgres.InitializeAsync();
        await using (postgres)
        {
            await using var host = await ArchiveHost.Start(postgres, "--Archive:Access=Accounts", "--Archive:Proxies=127.0.0.1");
            await Ask(host, 0, "/api/account/first", new { code = host.Services.GetRequiredService<FirstOwner>().Code, name = "Orla", password = Household.Password });
            string[] names = ["Orla", "Nobody of this name"];
            var times = names.ToDictionary(n => n, _ => new List<double>());
            for (var i = 0; i < tries + 10; i++)
            {
                // Whoever goes first in a pair changes, and the first ten pairs only warm up.
                foreach (var name in i % 2 == 0 ? names : names.Reverse())
                {
                    var taken = await Ask(host, i + 1, "/api/account/sign-in", new { name, password = "wrong wrong wrong" });
                    if (i >= 10) times[name].Add(taken);
                }
            }

            foreach (var (name, taken) in times)
            {
                taken.Sort();
                Console.WriteLine($"{(name == "Orla" ? "known name" : "unknown name"),-14} {taken[taken.Count / 10],8:0.00} ms p10  {taken[taken.Count / 2],8:0.00} ms median  {taken[taken.Count * 9 / 10],8:0.00} ms p90");
            }

            // How often one of the known is slower than one of the unknown: 50 % where nothing can be told.
            double slower = times[names[0]].Sum(known => times[names[1]].Count(unknown => known > unknown));
            Console.WriteLine($"known slower than unknown in {slower * 100 / ((double)tries * tries):0.0} % of all pairs, of {tries} tries each");
        }
    }

    private static async Task<double> Ask(ArchiveHost host, int from, string path, object body)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = JsonContent.Create(body) };
        request.Headers.Add("X-Forwarded-Proto", "https");
        request.Headers.Add("X-Forwarded-For", string.Create(CultureInfo.InvariantCulture, $"198.18.{from / 250 % 250}.{from % 250}"));
        var start = Stopwatch.GetTimestamp();
        using var answer = await host.Client.SendAsync(request);
        var taken = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        if ((int)answer.StatusCode is not (401 or 201)) throw new InvalidOperationException($"{path}: {(int)answer.StatusCode}");
        return taken;
    }
}
