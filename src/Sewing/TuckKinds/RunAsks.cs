using System.ComponentModel;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>What the sums about a run ask alike, and how a plan becomes their answer.</summary>
internal static class RunAsks
{
    /// <summary>Most tucks in one sum: more than any antique has, and a drawing of them is still small.</summary>
    public const int MostTucks = 400;

    private static readonly (string Slug, string Words)[] Ways = // texts
        [("space", "The plain cloth seen"), ("stitch-to-stitch", "Stitching to stitching, sewn"), ("fold-to-fold", "Fold to fold, on the flat cloth")];

    public static Ask Tucks(string example) => Ask.Whole("tucks", "Tucks", 1, MostTucks, example);

    public static Ask Width(string example) => Ask.Above("width", "Width of a tuck", example, "From the fold to the stitching.");

    public static Ask Lead { get; } = Ask.Plain("lead", "Plain before", "1 in", "The plain cloth seen before the first tuck.");

    public static Ask Trail { get; } = Ask.Plain("trail", "Plain after", "1 in", "The plain cloth seen after the last tuck.");

    public static Ask Centre { get; } = Ask.AnyLength("centre", "Plain in the middle", "1 in", "Only for tucks that lie from or towards the centre.").Optional();

    public static Ask Way { get; } = Ask.Choice("way", "Apart means", "Books mean one of three things by it.", Ways).Optional();

    /// <summary>Which way the tucks lie; the first named is taken when it is left out.</summary>
    public static Ask LiesAsk(bool hanging) => Ask.Choice("lies", "The tucks lie", "Where each fold points.", (hanging ? Hanging : Lying)).Optional();

    private static readonly (string, string)[] Lying = // texts
        [("towards-end", "towards the end"), ("towards-start", "towards the start"), ("from-centre", "from the centre"), ("towards-centre", "towards the centre")];

    private static readonly (string, string)[] Hanging = // texts
        [("towards-start", "down towards the hem, where the run starts"), ("towards-end", "away from the start"), ("from-centre", "from the centre"), ("towards-centre", "towards the centre")];

    public static Ask Strip { get; } = Ask.Part("testStrip", "Test strip", "Tucks you have sewn in this cloth, measured after pressing or washing.",
        Ask.Whole("tucks", "Tucks in the strip", 1, TuckRun.MostInGroup, "10"),
        Ask.Above("width", "Width as marked", "1/8 in"),
        Ask.Above("sewnWidth", "Width as sewn", "1/8 in").Optional(),
        Ask.Above("flat", "Strip before", "12 in", "Before it was sewn."),
        Ask.Above("finished", "Strip after", "9 7/16 in", "Sewn, and pressed or washed as the piece will be."));

    public static Ask FinishedAtMost { get; } = Ask.Above("finishedAtMost", "Finished width there is", "12 in", "Refused with what would be possible when the run is wider.").Optional();

    public static Ask ClothAtMost { get; } = Ask.Above("clothAtMost", "Cloth there is", "18 in", "Refused with what would be possible when the run needs more.").Optional();

    public static Lies LiesOf(Asked asked, Lies otherwise) => JsonReading.Words.Lies(asked.Text("lies")) ?? otherwise;

    public static Spacing SpacingOf(Length apart, string way) => way switch
    {
        "stitch-to-stitch" => new(null, apart),
        "fold-to-fold" => new(null, null, apart),
        _ => new(apart),
    };

    /// <summary>The spacing in whichever meanings it was given.</summary>
    public static Spacing ApartOf(Asked asked) => new(asked.LengthOrNull("space"), asked.LengthOrNull("stitchToStitch"), asked.LengthOrNull("foldToFold"));

    public static TestStrip? StripOf(Asked asked) => asked.Part("testStrip") is { } strip
        ? new(strip.Whole("tucks"), strip.Length("width"), strip.Length("flat"), strip.Length("finished"), strip.LengthOrNull("sewnWidth"))
        : null;

    /// <summary>Plans a run that reads its lie, its ends and its strip from the fields every run has; faults come back under this sum's own fields.</summary>
    /// <param name="asked">What was sent.</param>
    /// <param name="otherwise">How the tucks lie when it is not said.</param>
    /// <param name="groups">The tucks.</param>
    /// <param name="between">From group to group.</param>
    /// <param name="field">From the path of a fault in the run to the field of this sum.</param>
    public static TuckPlan Plan(Asked asked, Lies otherwise, IReadOnlyList<TuckGroup> groups, IReadOnlyList<Spacing> between, Func<string, string> field) =>
        Make(asked, new()
        {
            Groups = groups,
            Between = between,
            Lead = asked.LengthOrNull("lead"),
            Trail = asked.LengthOrNull("trail"),
            Centre = asked.LengthOrNull("centre"),
            Lies = LiesOf(asked, otherwise),
            TestStrip = StripOf(asked),
            Unit = asked.Unit,
        }, field);

    /// <summary>As <see cref="TuckPlan.Make"/>, with faults under this sum's own fields.</summary>
    public static TuckPlan Make(Asked asked, TuckRun run, Func<string, string> field)
    {
        try
        {
            return TuckPlan.Make(run);
        }
        catch (FaultException refused)
        {
            throw new FaultException([.. refused.Faults.Select(f => f with { Path = asked.At(field(f.Path)) }).DistinctBy(f => f.Path)]);
        }
    }

    /// <summary>The field of a run whose groups all come from the fields <c>width</c>, <c>tucks</c> and one spacing.</summary>
    public static string Alike(string path) => !path.StartsWith('g') && !path.StartsWith('b') ? path
        : path == "groups" ? "tucks" : path.Contains('.', StringComparison.Ordinal) ? path[(path.IndexOf('.', StringComparison.Ordinal) + 1)..] : "space";

    /// <summary>The unit that shows a small length best: millimetres where no sixty-fourth of an inch is it; null for the answer's own.</summary>
    public static LengthUnit? Fine(LengthUnit unit, Length? length) => length?.ToText(unit).StartsWith('≈') == true ? LengthUnit.Millimetres : null;

    /// <summary>A small length in the unit that shows it best.</summary>
    public static string ShowFine(Asked asked, Length length) => length.ToText(Fine(asked.Unit, length) ?? asked.Unit);

    /// <summary>Cloth, finished, take-up, the table of lines, the cautions and the drawing of a plan.</summary>
    public static Answer Tell(this Answer answer, TuckPlan plan)
    {
        answer.Figure("cloth", "Cloth, flat", plan.Cloth).Figure("finished", "Finished", plan.Finished).Figure("takeUp", "Taken up", plan.TakeUp);
        if (plan.CorrectionPerTuck is { } correction)
        {
            answer.Figure("correctionPerTuck", "More for each tuck, by the strip", correction, inUnit: Fine(answer.Unit, correction));
        }

        foreach (var caution in plan.Cautions)
        {
            answer.Caution(caution.Code, caution.Text);
        }

        return answer.Lines("lines", "Where each line falls, from the start", plan);
    }

    /// <summary>The table of lines of a plan.</summary>
    public static Answer Lines(this Answer answer, string name, [Localizable(true)] string caption, TuckPlan plan) => answer.Table(name, caption,
        [
            new("tuck", "Tuck"), new("width", "Width"), new("firstStitch", "Stitching a, flat"), new("fold", "Fold, flat"), new("secondStitch", "Stitching b, flat"),
            new("finishedStitch", "Stitching, sewn"), new("finishedFold", "Fold, sewn"),
        ],
        plan.Lines.Select(l => (IReadOnlyList<object?>)[l.Tuck, l.Width, l.FirstStitch, l.Fold, l.SecondStitch, l.FinishedStitch, l.FinishedFold]));

    /// <summary>The table of spacings of a plan, each in its three meanings.</summary>
    public static Answer Spacings(this Answer answer, TuckPlan plan) => answer.Table("spacings", "How far apart, in the three meanings",
        [new("after", "After tuck"), new("space", "Plain cloth seen"), new("stitchToStitch", "Stitching to stitching, sewn"), new("foldToFold", "Fold to fold, flat")],
        plan.Spacings.Select((s, i) => (IReadOnlyList<object?>)[i + 1, s.Space, s.StitchToStitch, s.FoldToFold]));

    /// <summary>The drawing of a plan, after strips of the sum's own.</summary>
    public static Answer DrawnRun(this Answer answer, TuckPlan plan, [Localizable(true)] string before = "", params IEnumerable<Panel> first) =>
        answer.Drawn(before.Length > 0 ? $"{T(before)} {RunSketch.Words(plan)}" : RunSketch.Words(plan), [.. first, .. RunSketch.Of(plan)]);
}
