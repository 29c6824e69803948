using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>What was asked for is not in the archive (404).</summary>
public sealed class NotFoundException(string message) : Exception(message);

/// <summary>The record has changed since it was read (412); nothing was saved.</summary>
/// <param name="version">The version it is at now.</param>
/// <param name="differs"><c>[{"path","yours","now"}]</c>: where what was sent and the record as it is now differ.</param>
public sealed class StaleException(long version, JsonArray differs)
    : Exception(T($"The record has changed since it was read; it is at version {version} now."))
{
    /// <summary>The version it is at now.</summary>
    public long Version { get; } = version;

    /// <summary>Where the two differ.</summary>
    public JsonArray Differs { get; } = differs;
}

/// <summary>Another piece has the number (409).</summary>
/// <param name="number">The number asked for.</param>
/// <param name="garment">Who has it.</param>
/// <param name="name">That piece's name.</param>
public sealed class TakenException(string number, Guid garment, string name)
    : Exception(T($"The number {number} is taken by \"{name}\"; every piece has a number of its own."))
{
    /// <summary>The number asked for, as it was typed.</summary>
    public string Number { get; } = number;

    /// <summary>The piece that has it.</summary>
    public Guid Garment { get; } = garment;

    /// <summary>That piece's name.</summary>
    public string Name { get; } = name;
}

/// <summary>The piece is set aside and takes no change until it is brought back (409).</summary>
public sealed class SetAsideException() : Exception(T("The piece is set aside; bring it back before changing it."));
