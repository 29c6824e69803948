using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using JasperFx;
using Marten;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>An archive over a new database of the real PostgreSQL: one for each class of tests.</summary>
public sealed class ArchiveFixture(PostgresServer server) : IAsyncLifetime
{
    private string connection = "";

    public DocumentStore Store { get; private set; } = null!;

    public Archive Archive { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        connection = await server.NewDatabase();
        Store = Another(_ => { });
        await Store.Storage.ApplyAllConfiguredChangesToDatabaseAsync();
        Archive = new(Store, TimeProvider.System);
    }

    public async ValueTask DisposeAsync() => await Store.DisposeAsync();

    /// <summary>One more store over the same database, such as another node or one that is watched.</summary>
    public DocumentStore Another(Action<StoreOptions> watched) => DocumentStore.For(o =>
    {
        o.Connection(connection);
        o.AutoCreateSchemaObjects = AutoCreate.CreateOrUpdate;
        CatalogueStore.Configure(o);
        watched(o);
    });

    /// <summary>Enters a garment written as JSON.</summary>
    public Task<Saved> Enter(string json) => Archive.Enter(Json(json), "teacher", TestContext.Current.CancellationToken);

    public static JsonObject Json(string json) => JsonNode.Parse(json)!.AsObject();
}
