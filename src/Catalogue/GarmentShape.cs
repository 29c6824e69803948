using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>
/// The one table of the record: every field of a garment, what it may hold, in the order it is shown. Everything sent is
/// read by it, everything shown is put in order by it, pages list their fields from it. A new field is one row here.
/// </summary>
public static class GarmentShape
{
    /// <summary>The most entries of all four lists together that one garment may hold.</summary>
    public const int MostEntries = 2_000;

    /// <summary>The four lists whose entries have an id.</summary>
    public static IReadOnlyList<string> EntryLists { get; } = ["examinations", "condition", "repairs", "techniques"];

    // Texts: a line is what fits on a label or a row of a form; lines are a page or so. More belongs in a file of its own.
    private static readonly TextType Line = new(300, lines: false);
    private static readonly TextType Lines = new(20_000, lines: true);
    private static readonly FlagType YesOrNo = new();
    private static readonly MeasureType Measure = new(Sign.AboveZero);
    private static readonly MeasureType Plain = new(Sign.ZeroOrMore);
    private static readonly NumberType Things = new(1, 100_000, whole: true);
    private static readonly NumberType Reading = new(0, 100_000, whole: false);
    private static readonly DateType Day = new(span: false);
    private static readonly ChoiceType Sure = OneOf("certain / likely / perhaps");
    private static readonly ChoiceType Side = OneOf("left / right / both / centre");
    private static readonly ChoiceType Face = OneOf("outside / inside");
    private static readonly ChoiceType State = OneOf("sound / fair / weak / fragile");
    private static readonly ChoiceType Maker = OneOf("hand / machine / part-hand / not-determined");

    private static readonly ChoiceType Sewn = OneOf(
        "hand / machine / machine-lockstitch / machine-chainstitch / machine-double-chainstitch / machine-zigzag / machine-hemstitch / machine-embroidery / overlock / both / not-determined");

    private static readonly RecordType Told = new([new("text", Lines), new("sure", Sure)]);
    private static readonly RecordType Threads = new([new("warp", Reading), new("weft", Reading)]);

    private static readonly Field[] Entry =
        [new("id", new IdType("")), new("part", Word("parts")), new("side", Side), new("face", Face), new("at", Line)];

    private static readonly Field[] EntryEnd = [new("note", Lines), new("pictures", List(new IdType("pictures"), 200))];

    /// <summary>One entry of <c>examinations</c>.</summary>
    public static RecordType Examination { get; } = new(
    [
        .. Entry.Where(f => f.Name != "part"), new("date", Day), new("by", Line),
        new("why", OneOf("arrival / before-class / after-class / before-loan / yearly / other")),
        new("light", OneOf("daylight / raking / from-behind")), new("overall", State), .. EntryEnd,
    ]);

    /// <summary>One entry of <c>condition</c>: a finding.</summary>
    public static RecordType Finding { get; } = new(
    [
        .. Entry, new("date", Day), new("what", Word("findings")), new("extent", Line),
        new("severity", OneOf("slight / moderate / severe")), new("attention", OneOf("none / watch / soon / before-handling")),
        new("trend", OneOf("stable / getting-worse")), new("examination", new IdType("examinations")), new("continues", new IdType("condition")),
        new("ended", new RecordType([new("date", Day), new("repair", new IdType("repairs"))])), .. EntryEnd,
    ]);

    /// <summary>One entry of <c>repairs</c>.</summary>
    public static RecordType Repair { get; } = new(
    [
        .. Entry, new("method", Word("repairs")), new("sewn", Sewn), new("handStitch", Word("stitches")),
        new("when", OneOf("in-period / later / modern / unknown")), new("why", OneOf("mend / make-over / restore-look / conserve")),
        new("holds", OneOf("holds / pulls-the-cloth / failed")), new("thread", Line), new("by", Line),
        new("answers", new IdType("condition")), .. EntryEnd,
    ]);

    private static readonly Field[] TechniqueOfAnyKind =
    [
        .. Entry, new("kind", Word("techniques")), new("sewn", Sewn), new("handStitch", Word("stitches")),
        new("evidence", new RecordType(
            [
                new("stitchesPerInch", Reading), new("stitchesPerCm", Reading), new("countedOver", Measure), new("reverseSeen", YesOrNo),
                new("needleHoles", YesOrNo), new("knots", YesOrNo), new("regularity", Line), new("note", Lines),
            ],
            OnlyOneOf("stitchesPerInch", "stitchesPerCm"))),
        new("sure", Sure), new("remains", OneOf("whole / part / let-out / traces-only")),
        new("traces", List(OneOf("needle-holes / crease / unfaded-line"), 10)),
        new("repeats", List(new RecordType([new("part", Word("parts")), new("side", Side), new("mirrored", YesOrNo)]), 100)),
        .. EntryEnd,
    ];

    private static readonly Field[] Tucks =
    [
        new("tuckKind", Word("tucks")),
        new("groups", List(new RecordType(
            [new("tucks", new NumberType(1, 1_000, whole: true)), new("width", Measure), .. SpacingType.Meanings]), 50)),
        new("between", List(new SpacingType(), 49)),
        new("centre", new MeasureType(Sign.Any)), new("lead", Plain), new("trail", Plain),
        new("runs", OneOf("down / across / around / along-edge / slanting")),
        new("measuredFrom", OneOf("centre-front / centre-back / front-edge / shoulder / neck / waist / hem / edge / sleeve-edge / seam")),
        new("turned", OneOf("down / up / to-centre / to-sides / wearers-left / wearers-right / to-edge / from-edge / standing / not-determined")),
        new("lies", OneOf("towards-end / towards-start / from-centre / towards-centre")) { Computed = t => TuckRules.Lies(t) },
        new("sewnLength", Measure),
        new("over", new RecordType([new("run", Measure), new("widthLeast", Measure), new("widthMost", Measure), new("tucks", Things)])),
        new("needleGap", Measure), new("cord", Measure), new("depthAtPoint", Measure), new("depthAtHollow", Plain),
        new("widthAtStart", Plain), new("widthAtEnd", Plain), new("shells", Things), new("depthLost", Plain), new("drawnIn", Plain),
        new("under", new IdType("techniques")), new("crosses", new IdType("techniques")),
    ];

    private static readonly Field[] Trimming =
    [
        new("lace", Word("laces")), new("trim", Word("trims")), new("laceMade", Maker),
        new("form", OneOf("edging / insertion / beading / galloon / flouncing / allover / medallion / tape")),
        new("width", Measure), new("ground", Line), new("repeat", Measure),
        new("set", List(OneOf("flat / gathered / eased / pleated / mitred / shaped"), 10)),
        new("joined", OneOf("rolled-and-whipped / whipped-edge-to-edge / laid-on-cut-behind / let-in-seamed / through-entredeux / turned-under-and-stitched / hemstitched-on")),
        new("ribbon", OneOf("original / later")),
    ];

    private static readonly Field[] Stitching =
        [new("work", Word("whitework")), new("stitches", List(Word("stitches"), 30)), new("motif", Word("motifs")), new("thread", Line)];

    private static readonly Field[] Seam = [new("seam", Word("seams")), new("width", Measure)];
    private static readonly Field[] Hem = [new("hemKind", Word("hems")), new("depth", Measure)];

    private static readonly Field[] Fastening =
        [new("fastening", Word("fastenings")), new("count", Things), new("size", Measure), new("space", Measure), new("original", YesOrNo)];

    private static readonly Field[] Fullness =
        [new("depth", Measure), new("flat", Measure), new("finished", Measure), new("cut", OneOf("straight / bias")), new("rows", Things)];

    private static readonly Field[] Smocking =
        [new("rows", Things), new("rowSpace", Measure), new("dotSpace", Measure), new("stitches", List(Word("stitches"), 30))];

    private static readonly Field[] Entredeux = [new("width", Measure), new("holesPerInch", Reading)];
    private static readonly Field[] Others = [new("width", Measure), new("depth", Measure)];

    /// <summary>One entry of <c>techniques</c>; its further fields hang on its <c>kind</c>.</summary>
    public static KindedType Technique { get; } = new(
        TechniqueOfAnyKind,
        Rows(
            ("tucks", Tucks), ("lace / insertion / edging / embroidered-trim", Trimming),
            ("embroidery / whitework / drawn-thread / hemstitching / cutwork / applique", Stitching), ("seam / faggoting", Seam),
            ("hem / false-hem", Hem), ("fastening / buttonholes", Fastening),
            ("gathers / shirring / puffing / ruching / ruffle / pleats", Fullness), ("smocking", Smocking), ("entredeux", Entredeux)),
        TuckRules.Check, OnlyOneOf("lace", "trim"));

    /// <summary>One of the garment's <c>pictures</c>; what the upload found out is never sent.</summary>
    public static RecordType Picture { get; } = new(
    [
        new("id", new IdType("")), new("sha256", Line), new("width", Things), new("height", Things),
        new("caption", Lines), new("view", Word("views")), new("tags", List(Line, 100)),
    ]);

    /// <summary>The garment itself; <c>id</c>, <c>version</c> and <c>setAside</c> stand beside it.</summary>
    public static RecordType Garment { get; } = new(
    [
        new("number", new TextType(100, lines: false)), new("name", Line), new("kind", Word("kinds")), new("dated", new DateType(span: true)),
        new("datedText", Line), new("where", Told), new("maker", Told), new("wornBy", Told), new("occasion", Told), new("story", Told),
        new("made", OneOf("home / dressmaker / ready-made / outwork / not-determined")), new("description", Lines),
        new("materials", List(new RecordType(
            [
                new("word", Word("cloth")), new("fibre", Line), new("weave", Line), new("use", Line), new("threadsPerInch", Threads),
                new("threadsPerCm", Threads), new("weight", OneOf("sheer / light / medium / heavy")), new("note", Lines),
            ],
            OnlyOneOf("threadsPerInch", "threadsPerCm")), 100)),
        new("measures", List(new RecordType(
            [
                new("name", Word("measures")), new("length", Measure),
                new("taken", OneOf("flat-width / whole-round / along / drawn-up / let-out / gathered-as-it-lies")), new("byEye", YesOrNo),
            ]), 200)),
        new("marks", List(new RecordType([new("text", Lines), new("part", Word("parts")), new("side", Side), new("face", Face)]), 100)),
        new("alterations", List(new RecordType([new("what", Lines), new("when", Line), new("evidence", Lines)]), 100)),
        new("belongsWith", List(new IdType("garments"), 200)), new("overall", State),
        new("handling", OneOf("handle-in-class / teacher-only / show-flat / photograph-only / keep-apart")),
        new("whereabouts", new RecordType(
            [
                new("is", OneOf("here / lent / borrowed / sold / given / returned / lost")), new("since", Day), new("dueBack", Day),
                new("to", Line) { Private = true },
            ])),
        new("shown", List(new RecordType([new("from", Day), new("to", Day), new("where", Line), new("hoursOfLight", Reading)]), 500)),
        new("tags", List(Line, 100)), new("examinations", List(Examination, MostEntries)), new("condition", List(Finding, MostEntries)),
        new("repairs", List(Repair, MostEntries)), new("techniques", List(Technique, MostEntries)), new("pictures", List(Picture, MostEntries)),
        new("acquired", new RecordType(
            [new("when", Line), new("from", Line), new("price", Line), new("insuredFor", Line), new("papers", Lines)])) { Private = true },
        new("place", new RecordType([new("shelf", Line), new("box", Line)])) { Private = true },
    ]);

    /// <summary>The shape of one entry of a list: <c>techniques</c>, <c>pictures</c> …</summary>
    /// <exception cref="ArgumentException">No list of entries has this name.</exception>
    public static RecordType EntryOf(string list) =>
        EntryLists.Contains(list) || list == "pictures"
            ? (RecordType)((ListType)Garment.Fields.Single(f => f.Name == list).Type).Item
            : throw new ArgumentException($"\"{list}\" is no list of entries; the lists are {string.Join(", ", EntryLists)}, pictures.", nameof(list));

    private static WordType Word(string facet) => new(facet);

    private static ChoiceType OneOf(string values) => new(values.Split(" / "));

    private static ListType List(FieldType item, int most) => new(item, most);

    private static Dictionary<string, IReadOnlyList<Field>> Rows(params (string Kinds, Field[] Fields)[] rows)
    {
        var named = rows.SelectMany(r => r.Kinds.Split(" / "), (r, kind) => (kind, r.Fields)).ToDictionary(r => r.kind, r => (IReadOnlyList<Field>)r.Fields);
        foreach (var word in Thesaurus.OfTrade.In("techniques").Where(w => !named.ContainsKey(w.Slug)))
        {
            named[word.Slug] = Others;
        }

        return named;
    }

    private static Rule OnlyOneOf(string one, string other) => (JsonObject read, string path, ICollection<Fault> faults) =>
    {
        if (read[one] is not null && read[other] is not null)
        {
            faults.Senseless(RecordType.At(path, other), T($"Both {one} and {other} are there; send the one that was found."));
        }
    };
}
