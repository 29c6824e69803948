using HeirloomArchive.Web.Access;
using JasperFx.Metadata;
using Microsoft.AspNetCore.Identity;

namespace HeirloomArchive.Web.Accounts;

/// <summary>Somebody who signs in.</summary>
public sealed class Person : IVersioned
{
    public Guid Id { get; set; }

    /// <summary>By which she signs in, and which the history shows. It stays hers for good, also when she has left.</summary>
    public string Name { get; set; } = "";

    /// <summary>The name as it is compared.</summary>
    public string NormalizedName { get; set; } = "";

    public Role Role { get; set; }

    /// <summary>As the hasher made it; null for who signs in by a passkey alone.</summary>
    public string? PasswordHash { get; set; }

    /// <summary>Another one ends all sessions.</summary>
    public string Stamp { get; set; } = "";

    public DateTimeOffset Since { get; set; }

    /// <summary>When she was taken off; null while she may come in.</summary>
    public DateTimeOffset? Left { get; set; }

    public List<Passkey> Passkeys { get; set; } = [];

    /// <summary>Digests of the recovery codes that have not been used.</summary>
    public List<string> RecoveryCodes { get; set; } = [];

    /// <summary>Of the document: what two changed at once is saved once.</summary>
    public Guid Version { get; set; }
}

/// <summary>A passkey as it is kept.</summary>
public sealed class Passkey
{
    /// <summary>The credential's id, in base64url.</summary>
    public string Id { get; set; } = "";

    public byte[] PublicKey { get; set; } = [];

    /// <summary>What she calls it.</summary>
    public string Name { get; set; } = "";

    public DateTimeOffset Made { get; set; }

    public uint SignCount { get; set; }

    public string[] Transports { get; set; } = [];

    public bool IsUserVerified { get; set; }

    public bool IsBackupEligible { get; set; }

    public bool IsBackedUp { get; set; }

    public byte[] AttestationObject { get; set; } = [];

    public byte[] ClientDataJson { get; set; } = [];

    internal static string Key(byte[] credential) => System.Buffers.Text.Base64Url.EncodeToString(credential);

    internal static Passkey Of(UserPasskeyInfo key) => new()
    {
        Id = Key(key.CredentialId), PublicKey = key.PublicKey, Name = key.Name ?? "", Made = key.CreatedAt, SignCount = key.SignCount,
        Transports = key.Transports ?? [], IsUserVerified = key.IsUserVerified, IsBackupEligible = key.IsBackupEligible, IsBackedUp = key.IsBackedUp,
        AttestationObject = key.AttestationObject, ClientDataJson = key.ClientDataJson,
    };

    internal UserPasskeyInfo ToInfo() => new(
        System.Buffers.Text.Base64Url.DecodeFromChars(Id), PublicKey, Made, SignCount, Transports, IsUserVerified, IsBackupEligible, IsBackedUp, AttestationObject, ClientDataJson)
    {
        Name = Name,
    };
}
