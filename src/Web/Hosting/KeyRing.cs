using System.Xml.Linq;
using Marten;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Microsoft.Extensions.Options;

namespace HeirloomArchive.Web.Hosting;

/// <summary>
/// The keys that sign forms, and the cookie between a passkey's question and its answer. They survive a restart: in the archive's folder,
/// for its owner's eyes only; or, with a PostgreSQL that is a server of its own, there, so that several nodes share them.
/// </summary>
public sealed class KeyRing(IDocumentStore store) : IXmlRepository
{
    public sealed record Key(string Id, string Xml);

    public static void Configure(StoreOptions options) => options.Schema.For<Key>().Identity(k => k.Id).DocumentAlias("form_keys");

    /// <summary>Where they lie in an archive's folder (0700, the files 0600).</summary>
    public static string Folder(string archive) => Path.Combine(archive, "keys");

    public static void Add(IServiceCollection services, ArchiveSettings settings)
    {
        var protection = services.AddDataProtection().SetApplicationName("HeirloomArchive");
        if (settings.KeysInFolder) protection.PersistKeysToFileSystem(new DirectoryInfo(Folder(settings.Folder)));
        else services.AddSingleton<IConfigureOptions<KeyManagementOptions>, Use>();
    }

    // The interface knows no waiting; it is asked once at the start and once in three months.
    public IReadOnlyCollection<XElement> GetAllElements() => Task.Run(async () =>
    {
        await using var session = store.QuerySession();
        return (await session.Query<Key>().ToListAsync()).Select(k => XElement.Parse(k.Xml)).ToList();
    }).GetAwaiter().GetResult();

    public void StoreElement(XElement element, string friendlyName) => Task.Run(async () =>
    {
        await using var session = store.LightweightSession();
        session.Store(new Key(friendlyName, element.ToString(SaveOptions.DisableFormatting)));
        await session.SaveChangesAsync();
    }).GetAwaiter().GetResult();

    // Makes data protection keep its keys in PostgreSQL.
    private sealed class Use(IDocumentStore store) : IConfigureOptions<KeyManagementOptions>
    {
        public void Configure(KeyManagementOptions options) => options.XmlRepository = new KeyRing(store);
    }
}
