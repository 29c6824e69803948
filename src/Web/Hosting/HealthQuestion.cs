namespace HeirloomArchive.Web.Hosting;

/// <summary>The verb <c>health</c>: asks the service that runs on this machine whether it is ready. For a container's health check, since its image brings no program that could ask.</summary>
public static class HealthQuestion
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    /// <param name="urls">Where it listens, as its own setting says.</param>
    /// <param name="access">By which names it is asked.</param>
    /// <param name="said">Told that it is ready.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="StartException">It does not answer, or says that it is not ready.</exception>
    public static async Task Ask(string urls, AccessSettings access, IProgress<string> said, CancellationToken stop)
    {
        var address = Here(urls);
        using var client = new HttpClient(new SocketsHttpHandler { UseProxy = false, AllowAutoRedirect = false }) { Timeout = Patience };
        using var question = new HttpRequestMessage(HttpMethod.Get, new Uri(address, "/health/ready"));
        question.Headers.Host = access.Hosts is [var name, ..] ? name : null;
        try
        {
            using var answer = await client.SendAsync(question, stop);
            var text = await answer.Content.ReadAsStringAsync(stop);
            if (!answer.IsSuccessStatusCode) throw new StartException($"{address} answers {(int)answer.StatusCode}: {text}");
            said.Report(text);
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException && !stop.IsCancellationRequested)
        {
            throw new StartException($"{address} does not answer: {e.Message}");
        }
    }

    // Listening everywhere includes this machine; unencrypted is enough for that, where there is both.
    private static Uri Here(string urls)
    {
        var all = Addresses.Of(urls);
        var url = all.FirstOrDefault(u => u.StartsWith("http:", StringComparison.OrdinalIgnoreCase)) ?? all[0];
        var address = new UriBuilder(Addresses.Readable(url));
        if (address.Host is "0.0.0.0" or "[::]") address.Host = "127.0.0.1";
        return address.Uri;
    }
}
