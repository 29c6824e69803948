using System.ComponentModel;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>The shelves on which the sums stand, in the order of the work.</summary>
public enum Shelf
{
    /// <summary>Tucks of every kind.</summary>
    Tucks,

    /// <summary>From an antique's measures to a new size.</summary>
    Sizes,

    /// <summary>Breadths, joins, flare.</summary>
    Cloth,

    /// <summary>Lace, insertion, entredeux.</summary>
    Lace,

    /// <summary>Gathers, ruffles, puffing, smocking, pleats.</summary>
    Fullness,

    /// <summary>Needle, thread, stitches.</summary>
    Thread,
}

/// <summary>One kind of work: what it asks and how it is worked out. It has a route of its own and a page of its own.</summary>
public sealed record Sum
{
    /// <summary>Its name in addresses: <c>POST /api/plans/{slug}</c>, page <c>/work-it-out/{slug}</c>.</summary>
    public required string Slug { get; init; }

    /// <summary>Where it stands.</summary>
    public required Shelf Shelf { get; init; }

    /// <summary>Its heading, in English: <c>A ruffle and its strips</c>.</summary>
    [Localizable(true)]
    public required string Title { get; init; }

    /// <summary>What it tells, in a sentence; in English.</summary>
    [Localizable(true)]
    public required string Lead { get; init; }

    /// <summary>What it asks, in the order of the page.</summary>
    public required IReadOnlyList<Ask> Asks { get; init; }

    /// <summary>A request that works, tried by a test and offered on the page.</summary>
    public required string Example { get; init; }

    /// <summary>Works it out; throws a <see cref="FaultException"/> for what makes no sense.</summary>
    public required Func<Asked, Answer> Work { get; init; }

    /// <summary>Reads what was sent and works it out.</summary>
    /// <param name="sent">The object sent.</param>
    /// <exception cref="FaultException">It can't be read, or makes no sense: every fault found, by its path.</exception>
    public Answer Of(JsonNode? sent)
    {
        var asked = AskedJson.Read(sent, Asks);
        var answer = Work(asked);
        asked.Throw();
        return answer;
    }
}
