using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Demo;

/// <summary>Asks the service as any program would; a refusal becomes an error that names the file it came from.</summary>
internal sealed class DemoClient(HttpClient http)
{
    public async Task<JsonObject> Get(string file, string address, CancellationToken ct)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, address);
        return await Read(file, await Send(file, request, ct), ct);
    }

    /// <summary>All items of a paged list.</summary>
    public async Task<List<JsonObject>> All(string address, CancellationToken ct)
    {
        var items = new List<JsonObject>();
        for (var page = 1; ; page++)
        {
            var answer = await Get(address, $"{address}{(address.Contains('?', StringComparison.Ordinal) ? '&' : '?')}page={page}&size=100", ct);
            var part = answer["items"]!.AsArray();
            items.AddRange(part.Select(item => item!.AsObject()));
            if (part.Count < 100 || page == 100) return items;
        }
    }

    /// <summary>Sends JSON; <paramref name="version"/>, if any, goes as <c>If-Match</c>.</summary>
    public async Task<JsonObject> Write(string file, HttpMethod method, string address, JsonNode body, long? version, CancellationToken ct)
    {
        var type = method == HttpMethod.Patch ? "application/merge-patch+json" : "application/json";
        using var request = new HttpRequestMessage(method, address) { Content = new StringContent(body.ToJsonString(), Encoding.UTF8, type) };
        if (version is not null) request.Headers.TryAddWithoutValidation("If-Match", $"\"{version}\"");
        return await Read(file, await Send(file, request, ct), ct);
    }

    public async Task Delete(string file, string address, long version, CancellationToken ct)
    {
        using var request = new HttpRequestMessage(HttpMethod.Delete, address);
        request.Headers.TryAddWithoutValidation("If-Match", $"\"{version}\"");
        using var response = await Send(file, request, ct);
        if (!response.IsSuccessStatusCode) throw await Refused(file, response, ct);
    }

    public async Task Upload(string file, string address, IReadOnlyList<(string Name, byte[] Bytes)> pictures, CancellationToken ct)
    {
        using var form = new MultipartFormDataContent();
        foreach (var (name, bytes) in pictures) form.Add(new ByteArrayContent(bytes) { Headers = { ContentType = new("image/png") } }, "file", name);
        using var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = form };
        using var response = await Send(file, request, ct);
        if (!response.IsSuccessStatusCode) throw await Refused(file, response, ct);
    }

    private static async Task<JsonObject> Read(string file, HttpResponseMessage response, CancellationToken ct)
    {
        using (response)
        {
            return response.IsSuccessStatusCode
                ? (await JsonNode.ParseAsync(await response.Content.ReadAsStreamAsync(ct), cancellationToken: ct))!.AsObject()
                : throw await Refused(file, response, ct);
        }
    }

    private async Task<HttpResponseMessage> Send(string file, HttpRequestMessage request, CancellationToken ct)
    {
        try
        {
            return await http.SendAsync(request, ct);
        }
        catch (HttpRequestException e)
        {
            throw new DemoException(file, $"The service did not answer {request.Method} {request.RequestUri}: {e.Message}", e);
        }
    }

    private static async Task<DemoException> Refused(string file, HttpResponseMessage response, CancellationToken ct)
    {
        var asked = $"{response.RequestMessage!.Method} {response.RequestMessage.RequestUri!.AbsolutePath}";
        var said = await response.Content.ReadAsStringAsync(ct);
        var problem = Parse(said);
        var why = problem?["errors"] is JsonObject errors
            ? string.Join("; ", errors.Select(e => $"{e.Key}: {string.Join(" ", (e.Value as JsonArray ?? [e.Value?.DeepClone()]).Select(m => m?.ToString()))}"))
            : problem?["detail"]?.ToString() ?? problem?["title"]?.ToString() ?? said;
        return new DemoException(file, $"{asked} was refused ({(int)response.StatusCode}): {why}") { Data = { ["status"] = response.StatusCode, ["problem"] = problem } };
    }

    /// <summary>The id of the garment that has the number, when a refusal says that one has.</summary>
    public static string? TakenBy(DemoException refused) =>
        refused.Data["status"] is HttpStatusCode.Conflict && refused.Data["problem"] is JsonObject problem ? problem["garment"]?.ToString() : null;

    private static JsonObject? Parse(string text)
    {
        try
        {
            return JsonNode.Parse(text) as JsonObject;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
