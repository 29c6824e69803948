using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Access;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.RazorPages.Infrastructure;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Access;

/// <summary>
/// Every address of the running service that can be read, with and without accounts: its headers, and that its pages hold nothing inline, though every
/// text of the record tries to.
/// </summary>
public sealed partial class HeaderScanTests(ArchiveHost alone, Household house) : IClassFixture<ArchiveHost>, IClassFixture<Household>
{
    /// <summary>What a page would run if it were shown as it came.</summary>
    private const string Hostile = "\"'><script>alert(1)</script><img src=x onerror=alert(1)>";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(null)]
    [InlineData("owner")]
    [InlineData("pupil")]
    [InlineData("visitor")]
    public async Task Every_answer_carries_the_headers_and_no_page_has_anything_inline(string? who)
    {
        var (host, client) = who is null ? (alone, alone.Client) : (house.Host, house.As(who));
        var fill = await Filled(who is null ? alone.Client : house.As("keeper"));
        var (wrong, pages, others) = (new List<string>(), 0, 0);
        foreach (var address in Addresses(host).Select(fill).Append("/pieces?q=" + Uri.EscapeDataString(Hostile)).Append("/examples?q=" + Uri.EscapeDataString(Hostile)).Append("/no-such-page").Append("/api/no-such-noun"))
        {
            using var answer = await client.GetAsync(address, Stop);
            var text = await answer.Content.ReadAsStringAsync(Stop);
            wrong.AddRange(Headers(answer).Select(fault => $"{address}: {fault}"));
            if (answer.Content.Headers.ContentType?.MediaType != "text/html")
            {
                others++;
                continue;
            }

            pages++;
            wrong.AddRange(Inline(text, answer.Headers.GetValues("Content-Security-Policy").Single()).Select(fault => $"{address}: {fault}"));
            if (who is not null and not "visitor" && answer.Headers.CacheControl is not { NoStore: true }) wrong.Add($"{address}: {answer.Headers.CacheControl}, so a browser may keep it");
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Take(40)));
        Assert.True(pages >= (who is null or "owner" ? 40 : 5) && others >= 20, $"only {pages} pages and {others} other answers were looked at");
    }

    [Theory]
    [InlineData("<p onclick=\"go()\">")]
    [InlineData("<script>go()</script>")]
    [InlineData("<style>p{color:red}</style>")]
    [InlineData("<p style='color:red'>")]
    [InlineData("<a href=\"javascript:go()\">")]
    [InlineData("<script src=\"https://elsewhere.example/a.js\"></script>")]
    [InlineData("<iframe src=\"/\"></iframe>")]
    public void What_is_inline_is_seen(string html) => Assert.NotEmpty(Inline(html, "default-src 'self'"));

    [Fact]
    public async Task No_form_is_taken_without_the_page_s_own_token()
    {
        var loader = house.Host.Services.GetRequiredService<PageLoader>();
        var fill = await Filled(house.As("keeper"));
        var (taken, tried) = (new List<string>(), 0);
        foreach (var endpoint in house.Host.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>().Where(e => e.Metadata.GetMetadata<PageActionDescriptor>() is not null))
        {
            var page = await loader.LoadAsync(endpoint.Metadata.GetMetadata<PageActionDescriptor>()!, EndpointMetadataCollection.Empty);
            foreach (var handler in page.HandlerMethods.Where(h => h.HttpMethod.Equals("POST", StringComparison.OrdinalIgnoreCase)))
            {
                // The page that tells of a fault is shown for whatever was sent; it takes nothing.
                if (Matrix.RouteOf(endpoint).StartsWith("/problem", StringComparison.Ordinal)) continue;
                using var form = new FormUrlEncodedContent([new("name", "x")]);
                using var answer = await house.As("owner").PostAsync(fill(Matrix.RouteOf(endpoint)) + (handler.Name is null ? "" : "?handler=" + handler.Name), form, Stop);
                tried++;
                if ((int)answer.StatusCode != 400) taken.Add($"{Matrix.RouteOf(endpoint)} {handler.Name}: {(int)answer.StatusCode}");
            }
        }

        Assert.Empty(taken);
        Assert.True(tried > 30, $"only {tried} were tried");
    }

    private static IEnumerable<string> Headers(HttpResponseMessage answer)
    {
        string One(string name) => answer.Headers.TryGetValues(name, out var values) ? string.Join(", ", values) : answer.Content.Headers.TryGetValues(name, out values) ? string.Join(", ", values) : "";
        var policy = One("Content-Security-Policy").Split(';').Select(d => d.Trim().Split(' ', 2)).ToDictionary(d => d[0], d => d.ElementAtOrDefault(1) ?? "");
        foreach (var (directive, value) in new[] { ("object-src", "'none'"), ("base-uri", "'none'"), ("form-action", "'self'"), ("frame-ancestors", "'none'") })
        {
            if (policy.GetValueOrDefault(directive) != value) yield return $"{directive} is {policy.GetValueOrDefault(directive)}";
        }

        if (policy.GetValueOrDefault("default-src") is not ("'self'" or "'none'")) yield return $"default-src is {policy.GetValueOrDefault("default-src")}";
        if (policy.Values.Any(v => v.Contains("unsafe", StringComparison.Ordinal) || v.Contains('*', StringComparison.Ordinal) || v.Contains("http", StringComparison.Ordinal) || v.Contains("data:", StringComparison.Ordinal)))
        {
            yield return "the policy lets in more than its own";
        }

        foreach (var (name, value) in new[]
        {
            ("X-Content-Type-Options", "nosniff"), ("Referrer-Policy", "same-origin"), ("Cross-Origin-Opener-Policy", "same-origin"), ("Cross-Origin-Resource-Policy", "same-origin"),
            ("Server", ""), ("X-Powered-By", ""), ("Access-Control-Allow-Origin", ""), ("Strict-Transport-Security", ""),
        })
        {
            if (One(name) != value) yield return $"{name} is '{One(name)}'";
        }

        foreach (var feature in new[] { "camera=()", "geolocation=()", "microphone=()" })
        {
            if (!One("Permissions-Policy").Contains(feature, StringComparison.Ordinal)) yield return $"Permissions-Policy lacks {feature}";
        }

        if (answer.Content.Headers.ContentLength > 0 && answer.Content.Headers.ContentType is null) yield return "no Content-Type";
        if (answer.Content.Headers.ContentType is { MediaType: "text/html", CharSet: not "utf-8" } type) yield return $"{type} without its charset";
        if (answer.Headers.Location is { } to && to.IsAbsoluteUri && to.Scheme.StartsWith("http", StringComparison.Ordinal)) yield return $"sends elsewhere: {to}";
    }

    private static IEnumerable<string> Inline(string html, string policy)
    {
        foreach (Match script in Script().Matches(html))
        {
            if (!script.Groups[1].Value.Contains("src=\"/", StringComparison.Ordinal) || script.Groups[2].Value.Trim().Length > 0) yield return script.Value;
        }

        foreach (Match style in Style().Matches(html))
        {
            var digest = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style.Groups[1].Value)));
            if (!policy.Contains($"'sha256-{digest}'", StringComparison.Ordinal)) yield return style.Value;
        }

        foreach (Match attribute in Attribute().Matches(html)) yield return attribute.Value;
    }

    private static IEnumerable<string> Addresses(ArchiveHost host) => host.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
        .Where(e => e.Metadata.GetMetadata<PageActionDescriptor>() is not null || e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("GET") == true)
        .Select(Matrix.RouteOf).Where(r => !r.Contains("{**", StringComparison.Ordinal)).Distinct();

    /// <summary>Fills the places of a route with what is really there: a piece, a lesson and a worksheet full of hostile texts.</summary>
    private static async Task<Func<string, string>> Filled(HttpClient client)
    {
        var sure = new JsonObject { ["text"] = Hostile, ["sure"] = "perhaps" };
        var garment = await Household.Post(client, "/api/garments", new()
        {
            ["name"] = Hostile, ["kind"] = "baby-dress", ["dated"] = "1908~", ["datedText"] = Hostile, ["description"] = Hostile, ["tags"] = new JsonArray(Hostile),
            ["where"] = sure.DeepClone(), ["maker"] = sure.DeepClone(), ["wornBy"] = sure.DeepClone(), ["occasion"] = sure.DeepClone(), ["story"] = sure.DeepClone(),
            ["materials"] = new JsonArray(new JsonObject { ["word"] = new JsonObject { ["own"] = Hostile }, ["note"] = Hostile }),
            ["marks"] = new JsonArray(new JsonObject { ["text"] = Hostile }),
            ["alterations"] = new JsonArray(new JsonObject { ["what"] = Hostile, ["when"] = Hostile, ["evidence"] = Hostile }),
            ["techniques"] = JsonNode.Parse("""[{"kind":"tucks","tuckKind":"pin","part":"yoke","groups":[{"tucks":6,"width":"1/16 in","space":"3/16 in"}]}]"""),
            ["condition"] = new JsonArray(new JsonObject { ["part"] = "hem", ["what"] = "tear", ["attention"] = "soon", ["note"] = Hostile }),
            ["acquired"] = new JsonObject { ["from"] = Hostile }, ["place"] = new JsonObject { ["shelf"] = Hostile },
        });
        var lesson = await Household.Post(client, "/api/lessons", new() { ["name"] = Hostile, ["notes"] = Hostile, ["shared"] = true });
        var sheet = await Household.Post(client, "/api/worksheets", new()
        {
            ["garment"] = garment["id"]!.ToString(), ["technique"] = garment["techniques"]![0]!["id"]!.ToString(), ["title"] = Hostile,
            ["plan"] = JsonNode.Parse("""{"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}]}"""),
        });
        return route => Place().Replace(route, place => place.Value switch
        {
            var p when p.Contains(":guid", StringComparison.Ordinal) => (route.Contains("/lessons/", StringComparison.Ordinal) ? lesson : route.Contains("/worksheets/", StringComparison.Ordinal) ? sheet : garment)["id"]!.ToString(),
            var p when p.Contains("status", StringComparison.Ordinal) => "404",
            var p when p.Contains("regex", StringComparison.Ordinal) => "techniques",
            var p when p.Contains(":long", StringComparison.Ordinal) || p.Contains(":int", StringComparison.Ordinal) => "1",
            "{documentName}" => "v1",
            "{entry}" => "new",
            _ => "some",
        });
    }

    [GeneratedRegex(@"\{(?:[^{}]|\([^)]*\))*\}")]
    private static partial Regex Place();

    [GeneratedRegex("<script([^>]*)>(.*?)</script>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex Script();

    [GeneratedRegex("<style[^>]*>(.*?)</style>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex Style();

    [GeneratedRegex("""<[a-z][^<>]*\s(?:on[a-z]+|style)\s*=\s*["'][^<>]*>|(?:href|src|action)\s*=\s*["']\s*(?:javascript|data|vbscript):|<(?:iframe|object|embed|base)\b""", RegexOptions.IgnoreCase)]
    private static partial Regex Attribute();
}
