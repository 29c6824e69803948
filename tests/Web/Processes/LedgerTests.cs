using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Processes;

[Collection("Processes")]
public sealed class LedgerTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Killed_ten_times_while_eight_write_every_acknowledged_write_is_there_and_none_twice()
    {
        var ledger = new Ledger(folder.Path);
        Assert.Empty(await ledger.Run(kills: 10));
        Assert.Equal(10, ledger.Killed.Hosts);
        Assert.True(ledger.Acknowledged > 100, $"Only {ledger.Acknowledged} writes were acknowledged.");
        TestContext.Current.SendDiagnosticMessage($"{ledger.Acknowledged} acknowledged; without an answer {ledger.Doubtful}.");
    }
}
