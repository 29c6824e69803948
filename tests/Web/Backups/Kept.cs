using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting.Postgres;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Backups;

/// <summary>What the tests of backups share: the verbs as she types them, and the whole record as PostgreSQL has it.</summary>
internal static class Kept
{
    /// <summary>Generous: the machine may be busy with other tests.</summary>
    public static readonly TimeSpan Soon = TimeSpan.FromSeconds(120);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <returns>The code it ended with, and what it said.</returns>
    public static async Task<(int Code, string Said)> Verb(string verb, string file, string folder, string? database = null)
    {
        await using var running = RunningArchive.Start(folder, [verb, file, "--Archive:Folder=" + folder, .. database is null ? Array.Empty<string>() : ["--ConnectionStrings:Archive=" + database]]);
        return (await running.Code(Soon), running.Said);
    }

    public static async Task Do(string verb, string file, string folder, string? database = null)
    {
        var (code, said) = await Verb(verb, file, folder, database);
        Assert.True(code == 0, said);
    }

    /// <summary>Every row of every table of the record but the running archive's own, as JSON, by table.</summary>
    public static async Task<SortedDictionary<string, string[]>> Rows(string database)
    {
        string[] ownDoing = ["mt_doc_form_keys", "mt_doc_account_session", "mt_event_progression"];
        await using var source = NpgsqlDataSource.Create(database);
        await using var connection = await source.OpenConnectionAsync(Cancel);
        var found = new SortedDictionary<string, string[]>(StringComparer.Ordinal);
        foreach (var table in await Column(connection, "SELECT format('%I.%I', schemaname, tablename) FROM pg_tables WHERE schemaname IN ('archive', 'archive_events')"))
            if (!ownDoing.Any(o => table.EndsWith("." + o, StringComparison.Ordinal)))
                found[table] = await Column(connection, $"SELECT to_jsonb(t)::text FROM {table} t ORDER BY 1");
        return found;
    }

    /// <summary>The first column of what a running archive's own PostgreSQL answers.</summary>
    public static async Task<string[]> Ask(RunningArchive archive, string sql)
    {
        await using var source = NpgsqlDataSource.Create(await File.ReadAllTextAsync(EmbeddedPostgres.ConnectionFile(archive.Folder), Cancel));
        await using var connection = await source.OpenConnectionAsync(Cancel);
        return await Column(connection, sql);
    }

    public static async Task<JsonObject> Enter(HttpClient client, object piece)
    {
        using var answer = await client.PostAsJsonAsync("/api/garments", piece, Cancel);
        return await Read(answer, HttpStatusCode.Created);
    }

    public static async Task Upload(HttpClient client, string garment, byte[] picture)
    {
        using var form = new MultipartFormDataContent { { new ByteArrayContent(picture), "file", "front.png" } };
        using var answer = await client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), form, Cancel);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, await answer.Content.ReadAsStringAsync(Cancel));
    }

    public static async Task<JsonObject> Read(HttpResponseMessage answer, HttpStatusCode expected)
    {
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(answer.StatusCode == expected, $"{answer.RequestMessage!.RequestUri}: {answer.StatusCode} {text}");
        return text.Length == 0 ? [] : JsonNode.Parse(text)!.AsObject();
    }

    /// <summary>Asks until the index, which is being built, has it.</summary>
    public static Task FindsAtLast(HttpClient client, string word, string garment) => Wait.Until(
        async () =>
        {
            using var answer = await client.GetAsync(new Uri("/api/search?q=" + word, UriKind.Relative), Cancel);
            return answer.StatusCode == HttpStatusCode.OK && (await answer.Content.ReadAsStringAsync(Cancel)).Contains(garment, StringComparison.Ordinal);
        },
        $"“{word}” finds {garment}", every: 200);

    private static async Task<string[]> Column(NpgsqlConnection connection, string sql)
    {
        var found = new List<string>();
        await using var command = new NpgsqlCommand(sql, connection);
        await using var rows = await command.ExecuteReaderAsync(Cancel);
        while (await rows.ReadAsync(Cancel)) found.Add(rows.GetValue(0).ToString()!);
        return [.. found];
    }
}
