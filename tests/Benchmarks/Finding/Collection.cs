using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Benchmarks.Finding;

/// <summary>An invented collection of any size, skewed as collections are: a few kinds, parts and laces make up most of it. The same in every run.</summary>
internal static class Collection
{
    public static readonly string[] Kinds =
    [
        "petticoat", "chemise", "drawers", "baby-dress", "christening-gown", "nightgown", "corset-cover", "camisole", "blouse", "lingerie-dress", "combinations",
        "childs-dress", "bonnet", "cap", "apron", "slip", "pinafore", "handkerchief", "collar", "tea-gown", "guimpe", "gertrude", "sacque", "bib", "fichu", "sampler",
    ];

    public static readonly string[] Parts =
    [
        "hem", "yoke", "skirt", "sleeve", "neck", "bodice-front", "flounce", "cuff", "front-panel", "leg-edge", "bodice-back", "armhole", "waistband", "collar",
        "yoke-back", "strap", "opening", "crown", "strings", "sash",
    ];

    public static readonly string[] Tucks = ["pin", "plain", "growth", "graduated", "blind", "nuns", "release", "shell", "corded", "crossed", "whipped", "tapered"];

    public static readonly string[] Sewn =
        ["machine-lockstitch", "hand", "machine", "not-determined", "machine-chainstitch", "both", "machine-hemstitch", "machine-embroidery", "machine-zigzag"];

    public static readonly string[] Laces =
    [
        "valenciennes", "torchon", "crochet", "cluny", "tatting", "irish-crochet", "leavers", "chemical", "filet", "bobbin", "knitted", "tape", "maltese", "honiton",
        "bucks-point", "mechlin", "hairpin", "teneriffe", "limerick", "carrickmacross",
    ];

    public static readonly string[] Cloth = ["lawn", "longcloth", "nainsook", "muslin", "batiste", "cambric", "linen", "flannel", "organdie", "dimity", "mull", "swiss", "pique", "net"];

    public static readonly string[] Findings = ["yellowing", "stain", "tear", "worn-thin", "foxing", "seam-open", "hole", "lace-come-away", "fastening-missing", "rust-mark", "tide-line", "scorch", "brittle"];

    private static readonly string[] Works = ["broderie-anglaise", "padded-satin", "shadow-work", "ayrshire", "pulled-work", "madeira", "richelieu", "hedebo", "mountmellick"];
    private static readonly string[] Repairs = ["darn", "patch", "reseamed", "lace-replaced", "button-replaced", "net-darn", "hem-refaced", "stitch-darn"];
    private static readonly string[] Overall = ["fair", "sound", "weak", "fragile"];
    private static readonly string[] Handling = ["handle-in-class", "show-flat", "teacher-only", "photograph-only", "keep-apart"];
    private static readonly string[] Forms = ["edging", "insertion", "beading", "flouncing", "galloon", "medallion"];
    private static readonly string[] Made = ["machine", "hand", "not-determined", "part-hand"];
    private static readonly string[] Tags = [.. Enumerable.Range(0, 400).Select(i => $"{(i % 3 == 0 ? "class" : i % 3 == 1 ? "box" : "loan")} {i}")];

    // Half a thousand words that sentences are made of, the first far commoner than the last.
    private static readonly string[] Said =
    [
        .. "white worked narrow fine front back side little edge made with thread cotton seam laid neat band button loop waist full drawn fold row short long old family mother daughter summer church wedding trunk attic village teacher school".Split(' '),
        .. Enumerable.Range(0, 460).Select(i => $"{"bcdfglmnprst"[i % 12]}{"aeiou"[i / 12 % 5]}{"rlnmst"[i / 60 % 6]}{"aeio"[i / 7 % 4]}{"lthnk"[i % 5]}{i % 9}"),
    ];

    /// <summary>Piece <paramref name="i"/> as the record keeps it, of three techniques.</summary>
    public static Garment Make(int i)
    {
        var random = new Random(i * 7 + 1);
        var kind = Of(random, Kinds);
        var year = 1840 + (int)(90 * Math.Sqrt(random.NextDouble()));
        var fields = new JsonObject
        {
            ["number"] = string.Create(CultureInfo.InvariantCulture, $"S-{i:0000000}"),
            ["name"] = $"{Words.Label("cloth", Of(random, Cloth))} {Words.Label("kinds", kind).ToLowerInvariant()} with {Of(random, Said)} {Of(random, Said)}",
            ["kind"] = kind,
            ["description"] = Sentence(random, 14),
            ["overall"] = Of(random, Overall),
            ["handling"] = Of(random, Handling),
            ["whereabouts"] = new JsonObject { ["is"] = random.Next(20) == 0 ? "lent" : "here" },
            ["materials"] = new JsonArray(new JsonObject { ["word"] = Of(random, Cloth) }),
            ["techniques"] = new JsonArray(Tuck(random), random.Next(3) == 0 ? Tuck(random) : Work(random), Lace(random)),
        };
        if (random.Next(10) > 0)
        {
            fields["dated"] = random.Next(3) switch { 0 => $"{year}", 1 => $"{year}~", _ => $"{year}/{year + random.Next(2, 15)}" };
        }

        if (random.Next(3) == 0)
        {
            fields["tags"] = new JsonArray(Of(random, Tags));
        }

        if (random.Next(2) == 0)
        {
            fields["condition"] = new JsonArray(new JsonObject
            {
                ["id"] = Id(random), ["what"] = Of(random, Findings), ["part"] = Of(random, Parts), ["severity"] = Of(random, ["slight", "moderate", "severe"]),
                ["attention"] = Of(random, ["none", "watch", "soon", "before-handling"]), ["note"] = Sentence(random, 5),
            });
        }

        if (random.Next(4) == 0)
        {
            fields["repairs"] = new JsonArray(new JsonObject { ["id"] = Id(random), ["method"] = Of(random, Repairs), ["sewn"] = Of(random, Sewn), ["part"] = Of(random, Parts) });
        }

        return new Garment { Id = IdOf(i), Version = 1, Position = 0, Fields = fields };
    }

    /// <summary>The id of piece <paramref name="i"/>; they rise with it.</summary>
    public static Guid IdOf(int i) => Guid.Parse(string.Create(CultureInfo.InvariantCulture, $"019a0000-0000-7000-8000-{i:D12}"));

    private static JsonObject Tuck(Random random)
    {
        var sixteenths = 1 + (int)(10 * Math.Pow(random.NextDouble(), 2));
        return new JsonObject
        {
            ["id"] = Id(random), ["kind"] = "tucks", ["tuckKind"] = Of(random, Tucks), ["part"] = Of(random, Parts), ["sewn"] = Of(random, Sewn),
            ["groups"] = new JsonArray(new JsonObject { ["tucks"] = random.Next(3, 12), ["width"] = Inches(sixteenths), ["space"] = Inches(random.Next(1, 9)) }),
            ["note"] = Sentence(random, 4),
        };
    }

    private static JsonObject Lace(Random random) => new()
    {
        ["id"] = Id(random), ["kind"] = random.Next(4) == 0 ? "insertion" : "lace", ["lace"] = Of(random, Laces), ["part"] = Of(random, Parts), ["form"] = Of(random, Forms),
        ["laceMade"] = Of(random, Made), ["width"] = Inches(random.Next(4, 40)), ["sewn"] = Of(random, Sewn),
    };

    private static JsonObject Work(Random random) => new()
    {
        ["id"] = Id(random), ["kind"] = random.Next(2) == 0 ? "whitework" : "hemstitching", ["work"] = Of(random, Works), ["part"] = Of(random, Parts), ["sewn"] = Of(random, Sewn),
    };

    private static JsonObject Inches(int sixteenths) => new() { ["mm"] = sixteenths * 1.5875m, ["text"] = $"{sixteenths}/16 in" };

    private static string Sentence(Random random, int words) => string.Join(' ', Enumerable.Range(0, words).Select(_ => Of(random, Said)));

    // The chance of each falls with its place: about four in ten are of the first tenth.
    private static string Of(Random random, string[] words) => words[(int)(words.Length * Math.Pow(random.NextDouble(), 2.5))];

    private static string Id(Random random)
    {
        Span<byte> bytes = stackalloc byte[16];
        random.NextBytes(bytes);
        return new Guid(bytes).ToString();
    }
}
