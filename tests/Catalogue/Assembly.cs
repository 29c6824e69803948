using HeirloomArchive.Support;

[assembly: AssemblyFixture(typeof(PostgresServer))]
