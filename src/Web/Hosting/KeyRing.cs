using System.Xml.Linq;
using Marten;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Microsoft.Extensions.Options;

namespace HeirloomArchive.Web.Hosting;

/// <summary>The keys that sign forms and cookies, kept in the archive's own PostgreSQL: they survive a restart, and several nodes share them.</summary>
public sealed class KeyRing(IDocumentStore store) : IXmlRepository
{
    public sealed record Key(string Id, string Xml);

    public static void Configure(StoreOptions options) => options.Schema.For<Key>().Identity(k => k.Id).DocumentAlias("form_keys");

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

    /// <summary>Makes data protection keep its keys here.</summary>
    public sealed class Use(IDocumentStore store) : IConfigureOptions<KeyManagementOptions>
    {
        public void Configure(KeyManagementOptions options) => options.XmlRepository = new KeyRing(store);
    }
}
