using DotNet.Testcontainers.Builders;
using JasperFx;
using Marten;
using Testcontainers.PostgreSql;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>The record on a PostgreSQL that is not ours: the stock image, where a Docker engine has it.</summary>
public sealed class ContainerTests
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact] public async Task The_record_is_kept_by_a_stock_PostgreSQL_too()
    {
        await using var server = await Start();
        await using var store = DocumentStore.For(o =>
        {
            o.Connection(server.GetConnectionString());
            o.AutoCreateSchemaObjects = AutoCreate.CreateOrUpdate;
            CatalogueStore.Configure(o);
        });
        await store.Storage.ApplyAllConfiguredChangesToDatabaseAsync();
        var archive = new Archive(store, TimeProvider.System);

        var entered = await archive.Enter(ArchiveFixture.Json("""{"number":"C-001","name":"Cambric petticoat","techniques":[{"kind":"tucks","tuckKind":"growth"}]}"""), "teacher", Ct);
        var found = await archive.Find(entered.Garment.Id, Ct);

        Assert.Equal(entered.Garment.State().ToJsonString(), found!.State().ToJsonString());
        await Assert.ThrowsAsync<TakenException>(() => archive.Enter(ArchiveFixture.Json("""{"number":"c-001","name":"Another"}"""), "teacher", Ct));
    }

    private static async Task<PostgreSqlContainer> Start()
    {
        try
        {
            var server = new PostgreSqlBuilder("postgres:18").Build();
            await server.StartAsync(Ct);
            return server;
        }
        catch (Exception e) when (e is DockerUnavailableException or Docker.DotNet.DockerApiException)
        {
            Assert.Skip($"No Docker engine with the image postgres:18: {e.Message.Split('\n')[0]}");
            throw;
        }
    }
}
