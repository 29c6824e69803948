using Marten;
using Marten.Services;
using Npgsql;

namespace HeirloomArchive.Support;

/// <summary>The commands of a store one by one, as <c>o.Logger(watch)</c> hears of them: a test may hold one up, or let it fail by throwing.</summary>
public sealed class CommandWatch : IMartenLogger, IMartenSessionLogger
{
    /// <summary>Told the SQL before it is sent.</summary>
    public Action<string> Before { get; set; } = _ => { };

    /// <summary>Told the SQL when the server has answered, and nothing of the answer is read yet.</summary>
    public Action<string> After { get; set; } = _ => { };

    public IMartenSessionLogger StartSession(IQuerySession session) => this;

    public void SchemaChange(string sql)
    {
    }

    public void OnBeforeExecute(NpgsqlCommand command) => Before(command.CommandText);

    public void OnBeforeExecute(NpgsqlBatch batch) => Before(Text(batch));

    public void LogSuccess(NpgsqlCommand command) => After(command.CommandText);

    public void LogSuccess(NpgsqlBatch batch) => After(Text(batch));

    public void LogFailure(NpgsqlCommand command, Exception ex)
    {
    }

    public void LogFailure(NpgsqlBatch batch, Exception ex)
    {
    }

    public void LogFailure(Exception ex, string message)
    {
    }

    public void RecordSavedChanges(IDocumentSession session, IChangeSet commit)
    {
    }

    private static string Text(NpgsqlBatch batch) => string.Join(';', batch.BatchCommands.OfType<NpgsqlBatchCommand>().Select(c => c.CommandText));
}
