using HeirloomArchive.Web.Access;
using JasperFx.Metadata;
using Marten;

namespace HeirloomArchive.Web.Accounts;

/// <summary>A browser in which somebody is signed in. Its key is in the cookie alone; here is its digest.</summary>
public sealed class Session
{
    /// <summary>The key's digest.</summary>
    public string Digest { get; set; } = "";

    /// <summary>By which it is named when it is to be ended.</summary>
    public Guid Id { get; set; }

    public Guid Person { get; set; }

    public DateTimeOffset Began { get; set; }

    public DateTimeOffset Seen { get; set; }

    public DateTimeOffset Ends { get; set; }

    /// <summary>What the browser calls itself.</summary>
    public string Browser { get; set; } = "";

    public string Address { get; set; } = "";
}

/// <summary>Lets somebody in, once: a new person, or one who has lost every way of signing in.</summary>
public sealed class Invitation : IVersioned
{
    public string Digest { get; set; } = "";

    public Guid Id { get; set; }

    /// <summary>What she will be.</summary>
    public Role Role { get; set; }

    /// <summary>For whom, in the owner's words.</summary>
    public string Note { get; set; } = "";

    /// <summary>Who is let in again; null for a new person.</summary>
    public Guid? Again { get; set; }

    public string By { get; set; } = "";

    public DateTimeOffset Made { get; set; }

    public DateTimeOffset Ends { get; set; }

    public DateTimeOffset? Used { get; set; }

    public Guid Version { get; set; }
}

/// <summary>What a program shows instead of signing in.</summary>
public sealed class AccessToken
{
    public string Digest { get; set; } = "";

    public Guid Id { get; set; }

    public Guid Person { get; set; }

    /// <summary>What it is for, in her words.</summary>
    public string Name { get; set; } = "";

    public string[] Scopes { get; set; } = [];

    public DateTimeOffset Made { get; set; }

    public DateTimeOffset Ends { get; set; }

    public DateTimeOffset? Seen { get; set; }
}

/// <summary>One line of the book of who came in, saw what is private, took copies, changed rights. It is only ever added to.</summary>
public sealed class BookLine
{
    /// <summary>Of version 7: the lines rise with the time.</summary>
    public Guid Id { get; set; }

    public DateTimeOffset When { get; set; }

    public string Who { get; set; } = "";

    /// <summary>What, as one of <see cref="Deeds"/>.</summary>
    public string What { get; set; } = "";

    public string About { get; set; } = "";

    public string From { get; set; } = "";
}

/// <summary>How all of it is kept.</summary>
public static class AccountsStore
{
    public static void Configure(StoreOptions options)
    {
        options.Schema.For<Person>().UniqueIndex(p => p.NormalizedName);
        options.Schema.For<Session>().Identity(x => x.Digest).Index(s => s.Person).DocumentAlias("account_session");
        options.Schema.For<Invitation>().Identity(x => x.Digest).DocumentAlias("account_invitation");
        options.Schema.For<AccessToken>().Identity(x => x.Digest).Index(t => t.Person).DocumentAlias("account_token");
        options.Schema.For<BookLine>().DocumentAlias("account_book");
    }
}
