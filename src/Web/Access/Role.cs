using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Access;

/// <summary>What somebody is to the archive. Each may do what the ones before her may.</summary>
public enum Role
{
    /// <summary>Whoever comes: has not said who she is, or needs not.</summary>
    Anyone,

    /// <summary>Has not signed in, where visitors are let in: sees what is shown to them.</summary>
    Visitor,

    /// <summary>Reads, works sums out.</summary>
    Pupil,

    /// <summary>Adds pictures, and drafts of what others will enter.</summary>
    Helper,

    /// <summary>Enters and changes pieces, lessons, worksheets, words.</summary>
    Keeper,

    /// <summary>Decides who may come in and what is shown.</summary>
    Owner,
}

/// <summary>What follows from a role.</summary>
public static class Roles
{
    /// <summary>What may be given to a person.</summary>
    public static IReadOnlyList<Role> ForPeople { get; } = [Role.Pupil, Role.Helper, Role.Keeper, Role.Owner];

    /// <summary>What of the record is seen.</summary>
    public static Sight Sight(this Role role) => role switch
    {
        Role.Owner or Role.Keeper => Catalogue.Sight.Everything,
        Role.Helper => Catalogue.Sight.WithPlace,
        Role.Pupil => Catalogue.Sight.Pieces,
        Role.Visitor => Catalogue.Sight.Shown,
        _ => Catalogue.Sight.Nothing,
    };

    /// <summary>As it is written in JSON, claims and forms: <c>keeper</c>.</summary>
    public static string Slug(this Role role) => role.ToString().ToLowerInvariant();

    /// <summary>As a person reads it, in mid-sentence.</summary>
    public static string InWords(this Role role) => role switch
    {
        Role.Owner => T("owner"),
        Role.Keeper => T("keeper"),
        Role.Helper => T("helper"),
        Role.Pupil => T("pupil"),
        Role.Visitor => T("visitor"),
        _ => T("nobody"),
    };

    /// <summary>What a person's role is called in JSON and forms; null if it is none.</summary>
    public static Role? Read(string? slug) => ForPeople.Where(r => r.Slug() == slug).Select(r => (Role?)r).FirstOrDefault();
}
