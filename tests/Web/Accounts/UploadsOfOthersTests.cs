using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Accounts;

/// <summary>An upload in parts is there for the one who began it, whoever else knows its id.</summary>
public sealed class UploadsOfOthersTests(Household house) : IClassFixture<Household>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Nobody_else_sees_it_sends_to_it_or_ends_it()
    {
        var (file, garment) = (Made.Png(60, 50), (await Household.Post(house.As("keeper"), "/api/garments", new JsonObject { ["name"] = "A chemise to photograph" }))["id"]!.ToString());
        var metadata = ("Upload-Metadata", "garment " + Convert.ToBase64String(Encoding.UTF8.GetBytes(garment)));
        using var begun = await Send("helper", "POST", "/api/uploads", null, ("Upload-Length", file.Length.ToString(System.Globalization.CultureInfo.InvariantCulture)), metadata);
        Assert.Equal(HttpStatusCode.Created, begun.StatusCode);
        var upload = begun.Headers.Location!.ToString();
        using var part = await Send("helper", "PATCH", upload, file[..100], ("Upload-Offset", "0"));
        Assert.Equal(HttpStatusCode.NoContent, part.StatusCode);
        foreach (var who in new[] { "keeper", "owner" })
        {
            foreach (var (method, body) in new[] { ("HEAD", null), ("GET", null), ("PATCH", file[100..]), ("DELETE", null) })
            {
                using var answer = await Send(who, method, upload, body, ("Upload-Offset", "100"));
                Assert.True(answer.StatusCode == HttpStatusCode.NotFound, $"{who} {method}: {answer.StatusCode}");
            }
        }

        using var stands = await Send("helper", "HEAD", upload, null);
        Assert.Equal("100", stands.Headers.GetValues("Upload-Offset").Single());
        using var rest = await Send("helper", "PATCH", upload, file[100..], ("Upload-Offset", "100"));
        Assert.Equal(HttpStatusCode.NoContent, rest.StatusCode);
        var told = JsonNode.Parse(await house.As("helper").GetStringAsync(new Uri(upload, UriKind.Relative), Stop))!;
        Assert.NotNull(told["picture"]);
    }

    private async Task<HttpResponseMessage> Send(string who, string method, string path, byte[]? body, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), path);
        request.Headers.TryAddWithoutValidation("Tus-Resumable", "1.0.0");
        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        if (body is not null)
        {
            request.Content = new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/offset+octet-stream") } };
        }

        return await house.As(who).SendAsync(request, Stop);
    }
}
