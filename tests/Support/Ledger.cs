using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Support;

/// <summary>
/// Eight clients write, the service is killed again and again, and what it acknowledged is kept here, outside of it. A write whose answer
/// did not come is sent again as the design says: a number can be taken once, a change holds for one version only; so nothing is written twice.
/// </summary>
/// <param name="folder">The archive's folder, which is there and empty.</param>
/// <param name="seed">Of the moments of the kills and of what is written.</param>
public sealed class Ledger(string folder, int seed = 20261126)
{
    private const int Writers = 8;
    private readonly Random chance = new(seed);
    private readonly LedgerWriter[] writers = [.. Enumerable.Range(0, Writers).Select(w => new LedgerWriter(w, seed + w))];

    /// <summary>How often the host was killed, and its PostgreSQL, alone or with it.</summary>
    public (int Hosts, int Servers) Killed { get; private set; }

    /// <summary>Writes acknowledged.</summary>
    public int Acknowledged => writers.Sum(w => w.Acknowledged);

    /// <summary>Writes whose answer did not come: those found kept when they were sent again, and those that were not.</summary>
    public (int Kept, int NotKept) Doubtful => (writers.Sum(w => w.FoundKept), writers.Sum(w => w.FoundNotKept));

    /// <summary>From the start of a killed host until it was ready again, the longest.</summary>
    public TimeSpan LongestStart { get; private set; }

    /// <summary>Kills so many times; every third time PostgreSQL too, every fourth it alone before.</summary>
    /// <returns>What is not as it should be; empty when all is well.</returns>
    public async Task<IReadOnlyList<string>> Run(int kills, IProgress<int>? done = null)
    {
        for (var life = 1; life <= kills; life++)
        {
            var clock = Stopwatch.StartNew();
            await using var archive = await RunningArchive.Start(folder).Ready();
            LongestStart = clock.Elapsed > LongestStart ? clock.Elapsed : LongestStart;
            using var end = new CancellationTokenSource();
            var working = writers.Select(w => Task.Run(() => w.Write(archive.Client, end.Token))).ToArray();
            if (life % 4 == 0)
            {
                await Reach(chance.Next(8, 40), working);
                RunningArchive.Signal("KILL", archive.PostgresId);
                Killed = (Killed.Hosts, Killed.Servers + 1);
            }

            await Reach(chance.Next(16, 80), working);
            await Task.Delay(chance.Next(40));
            int[] killed = life % 3 == 0 && File.Exists(archive.PostmasterFile) ? [archive.Id, archive.PostgresId] : [archive.Id];
            RunningArchive.Signal("KILL", killed);
            Killed = (Killed.Hosts + 1, Killed.Servers + killed.Length - 1);
            await end.CancelAsync();
            await Task.WhenAll(working);
            done?.Report(life);
        }

        await using var last = await RunningArchive.Start(folder).Ready();
        return await Compare(last.Client);
    }

    // Until so many more are acknowledged; a writer that has failed says why here.
    private async Task Reach(int more, Task[] working)
    {
        var (goal, clock) = (Acknowledged + more, Stopwatch.StartNew());
        while (Acknowledged < goal)
        {
            if (working.FirstOrDefault(w => w.IsCompleted) is { } ended) await ended;
            if (clock.Elapsed > TimeSpan.FromMinutes(2)) throw new TimeoutException($"Only {Acknowledged} of {goal} writes were acknowledged.");
            await Task.Delay(2);
        }
    }

    private async Task<IReadOnlyList<string>> Compare(HttpClient client)
    {
        var wrong = new List<string>();
        foreach (var writer in writers) await writer.Settle(client);
        foreach (var writer in writers) await writer.Compare(client, wrong);
        var (pieces, listed) = (writers.Sum(w => w.Pieces), JsonNode.Parse(await client.GetStringAsync("/api/garments?page=1&size=1"))!["total"]!.GetValue<int>());
        if (listed != pieces) wrong.Add($"The archive has {listed} pieces, the ledger {pieces}.");

        // The index goes the same way: it comes to what the record has.
        var (found, clock) = (-1, Stopwatch.StartNew());
        while (found != pieces && clock.Elapsed < TimeSpan.FromMinutes(1))
        {
            using var answer = await client.GetAsync("/api/search?q=ledger&size=1");
            if (answer.StatusCode == HttpStatusCode.OK) found = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["total"]!.GetValue<int>();
            await Task.Delay(100);
        }

        if (found != pieces) wrong.Add($"The index finds {found} pieces, the ledger has {pieces}.");
        return wrong;
    }
}

/// <summary>One client and her part of the ledger: pieces that nobody else writes to.</summary>
internal sealed class LedgerWriter(int place, int seed)
{
    private sealed class Piece(string id, string number, string name)
    {
        public string Id => id;
        public string Number => number;
        public string Name => name;
        public long Version { get; set; } = 1;
        public string? Description { get; set; }
        public List<string> Notes { get; } = [];
    }

    private enum What
    {
        Enter,
        Describe,
        AddTechnique,
    }

    private sealed record Deed(What What, Piece? Piece, string Text);

    private readonly Random chance = new(seed);
    private readonly List<Piece> pieces = [];
    private Deed? open;
    private bool isAgain;
    private int count, acknowledged;

    public int Pieces => pieces.Count;
    public int Acknowledged => Volatile.Read(ref acknowledged);
    public int FoundKept { get; private set; }
    public int FoundNotKept { get; private set; }

    /// <summary>Writes until told to end, or until the host is gone.</summary>
    public async Task Write(HttpClient client, CancellationToken end)
    {
        try
        {
            while (!end.IsCancellationRequested)
            {
                open ??= Next();
                if (await Send(client, open)) open = null;
                else await Task.Delay(50, CancellationToken.None);
            }
        }
        catch (HttpRequestException)
        {
            // Killed, as meant: whether the last one was kept shows when it is sent again.
            isAgain = true;
        }
    }

    /// <summary>Sends what is still open.</summary>
    public async Task Settle(HttpClient client)
    {
        for (var tries = 0; open is not null; tries++)
        {
            if (await Send(client, open)) open = null;
            else if (tries == 100) throw new InvalidOperationException($"{open} is never taken.");
            else await Task.Delay(100);
        }
    }

    /// <summary>Tells what the archive has otherwise than the ledger.</summary>
    public async Task Compare(HttpClient client, List<string> wrong)
    {
        foreach (var piece in pieces)
        {
            using var answer = await client.GetAsync("/api/garments/" + piece.Id);
            if (answer.StatusCode != HttpStatusCode.OK)
            {
                wrong.Add($"{piece.Number} is not there: {(int)answer.StatusCode}.");
                continue;
            }

            var state = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
            void Same(string what, string? wanted, string? found)
            {
                if (wanted != found) wrong.Add($"{piece.Number}: {what} is {found ?? "missing"}, acknowledged was {wanted ?? "nothing"}.");
            }

            Same("the number", piece.Number, state["number"]?.ToString());
            Same("the name", piece.Name, state["name"]?.ToString());
            Same("the description", piece.Description, state["description"]?.ToString());
            Same("the version", Text(piece.Version), state["version"]?.ToString());
            Same("the techniques", string.Join(", ", piece.Notes), string.Join(", ", Notes(state)));
            var history = JsonNode.Parse(await client.GetStringAsync($"/api/garments/{piece.Id}/history?page=1&size=1"))!;
            Same("the number of events", Text(piece.Version), history["total"]?.ToString());
        }
    }

    private Deed Next()
    {
        var piece = pieces.Count > 0 && chance.Next(3) > 0 ? pieces[chance.Next(Math.Max(0, pieces.Count - 5), pieces.Count)] : null;
        var text = $"{Text(place)}-{Text(++count)}";
        isAgain = false;
        return new(piece is null ? What.Enter : chance.Next(2) == 0 ? What.Describe : What.AddTechnique, piece, text);
    }

    // True once it is acknowledged, now or by what is found when it is sent again.
    private async Task<bool> Send(HttpClient client, Deed deed)
    {
        using var request = Request(deed);
        using var answer = await client.SendAsync(request);
        var text = await answer.Content.ReadAsStringAsync();
        var kept = (deed.What, answer.StatusCode) switch
        {
            (_, HttpStatusCode.Created or HttpStatusCode.OK) => true,
            (_, HttpStatusCode.ServiceUnavailable) => false,
            (What.Enter, HttpStatusCode.Conflict) or (_, HttpStatusCode.PreconditionFailed) when isAgain => true,
            _ => throw new InvalidOperationException($"{deed.What} {deed.Text}{(isAgain ? " again" : "")}: {(int)answer.StatusCode} {text}"),
        };
        if (!kept)
        {
            isAgain = true;
            return false;
        }

        Note(deed, JsonNode.Parse(text)!, (int)answer.StatusCode < 300);
        Interlocked.Increment(ref acknowledged);
        return true;
    }

    private void Note(Deed deed, JsonNode answer, bool now)
    {
        FoundKept += now ? 0 : 1;
        FoundNotKept += now && isAgain ? 1 : 0;
        if (deed.Piece is not { } piece)
        {
            pieces.Add(new((now ? answer["id"] : answer["garment"])!.ToString(), Number(deed), Name(deed)));
            return;
        }

        if (!now && answer["version"]!.GetValue<long>() != piece.Version + 1) throw new InvalidOperationException($"{deed.Text} was sent again, and {piece.Number} is at {answer}: it was written twice, or by another.");
        piece.Version++;
        if (deed.What == What.Describe) piece.Description = deed.Text;
        else piece.Notes.Add(deed.Text);
    }

    private HttpRequestMessage Request(Deed deed)
    {
        var (method, path, body) = deed.What switch
        {
            What.Enter => (HttpMethod.Post, "/api/garments", new JsonObject { ["number"] = Number(deed), ["name"] = Name(deed) }),
            What.Describe => (HttpMethod.Patch, $"/api/garments/{deed.Piece!.Id}", new() { ["description"] = deed.Text }),
            _ => (HttpMethod.Post, $"/api/garments/{deed.Piece!.Id}/techniques", new() { ["kind"] = "tucks", ["note"] = deed.Text }),
        };
        var request = new HttpRequestMessage(method, path) { Content = new StringContent(body.ToJsonString(), Encoding.UTF8, method == HttpMethod.Patch ? "application/merge-patch+json" : "application/json") };
        if (deed.Piece is { } piece) request.Headers.IfMatch.Add(new($"\"{Text(piece.Version)}\""));
        return request;
    }

    private static string Number(Deed deed) => "LG-" + deed.Text;

    private static string Name(Deed deed) => "Slip of the ledger " + deed.Text;

    private static IEnumerable<string> Notes(JsonNode state) => (state["techniques"] as JsonArray ?? []).Select(t => t!["note"]!.ToString());

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
