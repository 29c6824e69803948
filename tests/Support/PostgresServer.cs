using System.Diagnostics;
using System.Globalization;
using HeirloomArchive.Web.Hosting.Postgres;
using Npgsql;
using Xunit;

namespace HeirloomArchive.Support;

/// <summary>
/// One real PostgreSQL for a run of tests, in a temporary folder:
/// <c>[assembly: AssemblyFixture(typeof(PostgresServer))]</c>, then take it in a test class's constructor.
/// </summary>
public sealed class PostgresServer : IAsyncLifetime
{
    // Longer than all the other test programs take together.
    private static readonly TimeSpan LongestTurn = TimeSpan.FromHours(3);

    private readonly TemporaryFolder folder = new();
    private EmbeddedPostgres? postgres;
    private FileStream? turn;
    private int databases;

    public async ValueTask InitializeAsync()
    {
        turn = await Turn();
        postgres = await EmbeddedPostgres.Start(folder.Path);
    }

    /// <returns>The connection string of a new, empty database.</returns>
    public async Task<string> NewDatabase()
    {
        var name = "test" + Interlocked.Increment(ref databases).ToString(CultureInfo.InvariantCulture);
        await using var connection = new NpgsqlConnection(postgres!.ConnectionString);
        await connection.OpenAsync();
        await using var create = new NpgsqlCommand($"CREATE DATABASE {name}", connection);
        await create.ExecuteNonQueryAsync();
        return new NpgsqlConnectionStringBuilder(postgres.ConnectionString) { Database = name, MaxPoolSize = 20 }.ConnectionString;
    }

    public async ValueTask DisposeAsync()
    {
        NpgsqlConnection.ClearAllPools();
        if (postgres is not null) await postgres.DisposeAsync();
        folder.Dispose();
        if (turn is not null) await turn.DisposeAsync();
    }

    // Whole services, killed programs and a browser at once would slow each other beyond the seconds they promise:
    // the test programs that have a server take turns. The system frees the lock of one that is killed.
    private static async Task<FileStream> Turn()
    {
        var path = Path.Combine(Path.GetTempPath(), $"heirloom-tests-{Environment.UserName}.turn");
        var waited = Stopwatch.StartNew();
        while (true)
        {
            try
            {
                return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException e) when (e is not DirectoryNotFoundException)
            {
                if (waited.Elapsed > LongestTurn) throw new TimeoutException($"Other test programs have held {path} for {waited.Elapsed}.", e);
                await Task.Delay(500);
            }
        }
    }
}
