using System.Text.RegularExpressions;
using Lucene.Net.Analysis;
using Lucene.Net.Analysis.TokenAttributes;

namespace HeirloomArchive.Search;

/// <summary>Writes American spellings the British way, so that either finds the other, and remembers each word before it is stemmed.</summary>
internal sealed partial class Spelling : TokenFilter
{
    // Where the beginning alone tells; what is lost by a wrong guess is nothing, for both sides are written the same way.
    private static readonly (string American, string British)[] Beginnings =
    [
        ("color", "colour"), ("discolor", "discolour"), ("gray", "grey"), ("mold", "mould"), ("favor", "favour"), ("honor", "honour"), ("labor", "labour"),
        ("neighbor", "neighbour"), ("harbor", "harbour"), ("odor", "odour"), ("vapor", "vapour"), ("jewelry", "jewellery"), ("plow", "plough"),
        ("pajama", "pyjama"), ("woolen", "woollen"), ("sulfur", "sulphur"), ("artifact", "artefact"), ("selvage", "selvedge"), ("aluminum", "aluminium"),
        ("catalog", "catalogue"), ("mustache", "moustache"), ("smolder", "smoulder"), ("molt", "moult"), ("skillful", "skilful"), ("gage", "gauge"),
        ("paneled", "panelled"), ("paneling", "panelling"), ("tasseled", "tasselled"), ("enameled", "enamelled"), ("labeled", "labelled"),
        ("labeling", "labelling"), ("jeweled", "jewelled"), ("toweling", "towelling"), ("channeled", "channelled"), ("leveled", "levelled"),
        ("beveled", "bevelled"), ("unraveled", "unravelled"), ("raveled", "ravelled"), ("raveling", "ravelling"), ("traveled", "travelled"),
        ("traveling", "travelling"), ("modeled", "modelled"), ("canceled", "cancelled"),
    ];

    private static readonly Dictionary<string, string> Whole = new()
    {
        ["fiber"] = "fibre", ["fibers"] = "fibres", ["center"] = "centre", ["centers"] = "centres", ["centered"] = "centred", ["centering"] = "centring",
        ["meter"] = "metre", ["meters"] = "metres", ["centimeter"] = "centimetre", ["centimeters"] = "centimetres", ["millimeter"] = "millimetre",
        ["millimeters"] = "millimetres", ["somber"] = "sombre", ["luster"] = "lustre", ["theater"] = "theatre", ["defense"] = "defence",
        ["aging"] = "ageing", ["practise"] = "practice", ["practised"] = "practiced",
    };

    private static readonly ILookup<char, (string American, string British)> ByLetter = Beginnings.ToLookup(b => b.American[0]);

    private readonly ICharTermAttribute term;

    public Spelling(TokenStream words) : base(words) => term = AddAttribute<ICharTermAttribute>();

    /// <summary>The word last read, as it is before its stem is taken.</summary>
    public string Word { get; private set; } = "";

    /// <summary>A word, lower case, in its British spelling.</summary>
    public static string British(string word)
    {
        if (word.Length < 3 || !char.IsAsciiLetterLower(word[0]))
        {
            return word;
        }

        if (Whole.TryGetValue(word, out var whole))
        {
            return whole;
        }

        foreach (var (american, british) in ByLetter[word[0]])
        {
            if (word.StartsWith(american, StringComparison.Ordinal) && !word.StartsWith(british, StringComparison.Ordinal))
            {
                return british + word[american.Length..];
            }
        }

        return word.Length >= 7 && word.Contains('z', StringComparison.Ordinal) ? Ize().Replace(word, "${stem}s${end}") : word;
    }

    public override bool IncrementToken()
    {
        if (!m_input.IncrementToken())
        {
            return false;
        }

        var typed = term.ToString();
        Word = British(typed);
        if (!ReferenceEquals(Word, typed))
        {
            term.SetEmpty().Append(Word);
        }

        return true;
    }

    [GeneratedRegex("^(?<stem>.{3,}[iy])z(?<end>e|es|ed|ing|er|ers|ation|ations)$", RegexOptions.CultureInvariant)]
    private static partial Regex Ize();
}
