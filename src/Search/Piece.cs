using HeirloomArchive.Sewing;

namespace HeirloomArchive.Search;

/// <summary>A piece of what was typed, in order: a phrase of the vocabulary, a measure, years, a quotation or a plain word.</summary>
internal sealed class Piece
{
    /// <summary>As it was typed, and where.</summary>
    public required string Text { get; init; }
    public required int Start { get; init; }
    public required int End { get; init; }

    /// <summary>Its words.</summary>
    public IReadOnlyList<Token> Tokens { get; init; } = [];

    /// <summary>What it may mean, if it is a phrase of the vocabulary.</summary>
    public IReadOnlyList<Meaning> Meanings { get; init; } = [];

    /// <summary>Its length, if it is a measure.</summary>
    public Length? Length { get; init; }

    /// <summary>The measure as the form takes it: <c>1/8"</c> is "1/8 in".</summary>
    public string Written { get; init; } = "";

    /// <summary>The parameters of its years, if it is a date.</summary>
    public IReadOnlyList<(string Parameter, string Value)> Years { get; init; } = [];

    /// <summary>Whether its words must stand side by side.</summary>
    public bool Quoted { get; init; }

    /// <summary>"on the", "at", "round" stood before it: it is a place.</summary>
    public bool Placed { get; set; }

    /// <summary>Which clause it stands in; commas, "with" and "and" end one.</summary>
    public int Clause { get; set; }

    /// <summary>Which unwanted thing it belongs to ("without torchon", "-torchon"); 0 for what is wanted.</summary>
    public int Unwanted { get; set; }

    /// <summary>What it was taken to mean; null for a plain word.</summary>
    public Meaning? Chosen { get; set; }
}
