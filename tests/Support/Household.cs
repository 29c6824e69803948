using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Web.Accounts;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace HeirloomArchive.Support;

/// <summary>An archive with accounts: an owner, a keeper, a helper and a pupil, each signed in; visitors may look.</summary>
public sealed class Household(PostgresServer postgres) : IAsyncLifetime
{
    public const string Password = "nainsook drifts under the ninth lamp";

    private readonly Dictionary<string, HttpClient> clients = [];

    /// <summary>As the host's; before it is started.</summary>
    public Action<IServiceCollection>? Instead { get; init; }

    public ArchiveHost Host { get; private set; } = null!;

    /// <summary>Who asks: <c>owner, keeper, helper, pupil, visitor</c>; follows no redirects, keeps cookies.</summary>
    public HttpClient As(string who) => clients[who];

    public async ValueTask InitializeAsync()
    {
        Host = new ArchiveHost(postgres) { Settings = ["--Archive:Access=Accounts", "--Archive:Visitors=true"], Instead = Instead };
        await Host.InitializeAsync();
        clients["visitor"] = New();
        var code = Host.Services.GetRequiredService<FirstOwner>().Code;
        await Post(clients["owner"] = New(), "/api/account/first", new JsonObject { ["code"] = code, ["name"] = "Orla", ["password"] = Password });
        foreach (var (role, name) in new[] { ("keeper", "Kitty"), ("helper", "Hester"), ("pupil", "Polly") })
        {
            clients[role] = await Join(role, name);
        }
    }

    /// <summary>Somebody new, invited by the owner.</summary>
    public async Task<HttpClient> Join(string role, string name)
    {
        var invitation = await Post(As("owner"), "/api/account/invitations", new JsonObject { ["role"] = role });
        var client = New();
        await Post(client, "/api/account/join", new JsonObject { ["code"] = invitation["code"]!.ToString(), ["name"] = name, ["password"] = Password });
        return client;
    }

    /// <summary>A browser that has been nowhere.</summary>
    public HttpClient New() => new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = Host.Address };

    public static async Task<JsonObject> Post(HttpClient client, string path, JsonObject body)
    {
        using var answer = await client.PostAsJsonAsync(path, body);
        var text = await answer.Content.ReadAsStringAsync();
        if (!answer.IsSuccessStatusCode) throw new InvalidOperationException($"{path}: {(int)answer.StatusCode} {text}");
        return JsonNode.Parse(text)!.AsObject();
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var client in clients.Values)
        {
            client.Dispose();
        }

        await Host.DisposeAsync();
    }
}
