using HeirloomArchive.Catalogue;
using Npgsql;

namespace HeirloomArchive.Web.Accounts;

/// <summary>The database itself refuses to change or remove a line of the book, whichever code or hand asks; put there at every start.</summary>
public sealed class BookGuard(NpgsqlDataSource database) : IHostedService
{
    // Two nodes may start at once: one waits for the other.
    private const string Guard = $$"""
        SELECT pg_advisory_xact_lock(hashtext('account_book'));
        CREATE OR REPLACE FUNCTION {{CatalogueStore.Schema}}.account_book_is_only_added_to() RETURNS trigger LANGUAGE plpgsql
            AS $$ BEGIN RAISE EXCEPTION 'The book is only ever added to.'; END $$;
        CREATE OR REPLACE TRIGGER only_added_to BEFORE UPDATE OR DELETE OR TRUNCATE ON {{CatalogueStore.Schema}}.mt_doc_account_book
            FOR EACH STATEMENT EXECUTE FUNCTION {{CatalogueStore.Schema}}.account_book_is_only_added_to();
        """;

    public async Task StartAsync(CancellationToken cancellationToken)
    {
        await using var connection = await database.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        await using var command = new NpgsqlCommand(Guard, connection, transaction);
        await command.ExecuteNonQueryAsync(cancellationToken);
        await transaction.CommitAsync(cancellationToken);
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
