using System.ComponentModel;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>How a field is asked for: its label, a line of help, and whether it waits under "More".</summary>
/// <param name="Label">In sentence case; in English, to be translated where it is shown.</param>
/// <param name="Help">A line below the label, or null; in English too.</param>
public sealed record Ask([Localizable(true)] string Label, [Localizable(true)] string? Help = null);

/// <summary>The words of the forms, where the field's own name does not say enough.</summary>
public static class Asking
{
    private static readonly Dictionary<string, Ask> Words = new()
    {
        ["number"] = new("Number", "Yours, as on its label: G-014"),
        ["name"] = new("Name", "What you would call it in a list: Nainsook baby dress with a tucked yoke"),
        ["kind"] = new("Kind"),
        ["dated"] = new("Dated", "1905, about 1900, early 1890s, 1895 to 1905, before 1910, spring 1905, 12 May 1905"),
        ["datedText"] = new("Dated, in your words", "As you were told, or as you would say it"),
        ["made"] = new("Made by", "Who sewed this sort of piece"),
        ["overall"] = new("Overall state"),
        ["description"] = new("Description"),
        ["materials[].word"] = new("Cloth"),
        ["materials[].use"] = new("Used for", "Whole piece, lining, ruffle …"),
        ["wornBy"] = new("Worn by"),
        ["tags"] = new("Tags", "Your own words, with commas between them"),
        ["part"] = new("Where on the piece"),
        ["side"] = new("Side", "Left and right are the wearer's"),
        ["at"] = new("Exactly where", "2 in above the hem at the side seam"),
        ["tuckKind"] = new("Kind of tuck"),
        ["groups"] = new("Groups of tucks"),
        ["groups[].tucks"] = new("How many tucks"),
        ["groups[].width"] = new("Width of each", "Fold to stitching line, with its unit: 1/8 in, 3 mm"),
        ["space"] = new("Plain cloth seen", "From one tuck to the next; 0 in where they meet"),
        ["stitchToStitch"] = new("or stitching to stitching", "On the finished piece"),
        ["foldToFold"] = new("or fold to fold", "On the flat cloth"),
        ["between"] = new("From group to group"),
        ["centre"] = new("Plain cloth in the middle", "For a run worked from the middle outwards"),
        ["lead"] = new("Plain before", "Cloth seen before the first tuck"),
        ["trail"] = new("Plain after", "Cloth seen after the last tuck"),
        ["runs"] = new("Which way do the folds go?"),
        ["measuredFrom"] = new("Measured from", "Where the row of tucks starts"),
        ["turned"] = new("Which way are they turned?"),
        ["sewn"] = new("Sewn by", "Leave it empty if you have not looked yet"),
        ["handStitch"] = new("Hand stitch"),
        ["evidence"] = new("What shows it"),
        ["evidence.stitchesPerInch"] = new("Stitches to the inch", "Counted on the face, the ones seen only: of running stitch you see every other one, so a machine would have made twice as many"),
        ["evidence.stitchesPerCm"] = new("or stitches to the cm"),
        ["evidence.countedOver"] = new("Counted over", "A length: 2 in"),
        ["evidence.reverseSeen"] = new("Seen from the wrong side?"),
        ["sure"] = new("How sure"),
        ["sewnLength"] = new("Stitched for", "How far a release tuck is stitched"),
        ["over"] = new("The whole run at once", "When you measured over all of them"),
        ["over.run"] = new("Length over all", "From the first fold to the last stitching line"),
        ["over.tucks"] = new("How many tucks that takes in"),
        ["over.widthLeast"] = new("Narrowest tuck"),
        ["over.widthMost"] = new("Widest tuck"),
        ["fibre"] = new("Fibre", "Cotton, linen, silk … as far as you can tell without a test"),
        ["weave"] = new("Weave", "Plain, twill, checked, net …"),
        ["weight"] = new("Weight"),
        ["threadsPerInch"] = new("Threads to the inch", "Counted with a glass, along and across; the other unit is worked out"),
        ["threadsPerCm"] = new("or threads to the cm"),
        ["laceMade"] = new("Lace made by", "The name is a look; how it was made is another question"),
        ["form"] = new("Form"),
        ["set"] = new("How it is set"),
        ["joined"] = new("How it is joined"),
        ["repeat"] = new("Pattern repeat", "A length"),
        ["what"] = new("What is found"),
        ["extent"] = new("How much", "A length, an area or a share: 4 in, a third of the hem"),
        ["attention"] = new("Attention"),
        ["trend"] = new("Is it changing?"),
        ["continues"] = new("Continues an earlier finding"),
        ["ended"] = new("Over and done with"),
        ["date"] = new("Date", "2026-10-18, or as much of it as you know"),
        ["examination"] = new("Seen at the examination"),
        ["method"] = new("Way of mending"),
        ["when"] = new("When"),
        ["holds"] = new("Does it hold?"),
        ["answers"] = new("Mends the finding"),
        ["by"] = new("By whom"),
        ["light"] = new("Light"),
        ["taken"] = new("How it was taken"),
        ["byEye"] = new("By eye?"),
        ["whereabouts.is"] = new("Where it is"),
        ["under"] = new("What is set under it"),
        ["crosses"] = new("Crosses the run"),
        ["face"] = new("Outside or inside"),
        ["rowSpace"] = new("From row to row"),
        ["dotSpace"] = new("From dot to dot"),
        ["finished"] = new("Drawn in to", "A length, when finished"),
        ["flat"] = new("Flat length", "Before it was drawn in"),
        ["pictures"] = new("Pictures that show it"),
        ["place"] = new("Where it is kept"),
        ["acquired"] = new("How it came to you"),
        ["repeats"] = new("The same work elsewhere"),
        ["traces"] = new("Traces left"),
        ["remains"] = new("What is left of it"),
        ["view"] = new("View"),
        ["from"] = new("From"),
        ["to"] = new("To"),
        ["onto.finished"] = new("Finished width", "Of your piece, with its unit: 9 in, 230 mm"),
        ["onto.cloth"] = new("Cloth at most", "Flat, if there is a limit"),
        ["finest"] = new("Finest marking", "Every measure will be a whole number of these"),
        ["unevenEnds"] = new("May the ends differ?"),
        ["lies"] = new("Which way the tucks lie"),
        ["mirrored"] = new("Mirrored?", "Yes: what stands here is one half from the middle outwards, and its mirror image before it"),
        ["sections[].technique"] = new("As recorded"),
        ["laidOn"] = new("Laid on the cloth?", "No: let in between two edges, so that it adds its width"),
        ["twinNeedle"] = new("Twin needle?", "Raised without a fold; the width is the gap of the needles, and a strip must be sewn first"),
        ["testStrip"] = new("Test strip"),
        ["testStrip.tucks"] = new("Tucks on the strip"),
        ["testStrip.width"] = new("As marked"),
        ["testStrip.sewnWidth"] = new("As it measured when sewn"),
        ["testStrip.flat"] = new("Strip when flat"),
        ["testStrip.finished"] = new("Strip when sewn and pressed"),
        ["worksheet:finished"] = new("Finished width", "With its unit: 12 in, 300 mm"),
        ["worksheet:cloth"] = new("Cloth at most", "Flat, if there is a limit"),
        ["worksheet:sewn"] = new("Sew it by"),
        ["worksheet:centre"] = new("Plain cloth in the middle", "For tucks from or towards the centre"),
        ["paper"] = new("Paper"),
        ["landscape"] = new("Long side across?"),
        ["unit"] = new("Figures in"),
        ["marking"] = new("Way of marking"),
        ["alike"] = new("How many alike"),
        ["title"] = new("Title", "Left empty, it takes the piece's name"),
        ["allow"] = new("Added around the run"),
        ["allow.shaping"] = new("For shaping, at every edge"),
        ["cloth.word"] = new("Cloth"),
        ["cloth.width"] = new("Width of the cloth"),
        ["foldsAlong"] = new("The folds run along the"),
        ["shrunk"] = new("Shrunk already?"),
        ["trims[].technique"] = new("Like the recorded"),
        ["trims[].edge"] = new("Length of the edge", "With its unit: 48 in"),
        ["trims[].width"] = new("Width of the lace", "Left empty: as recorded"),
        ["trims[].fullness"] = new("Fullness", "1 is flat, 1.5 half as much again; left empty: as recorded, else flat"),
        ["trims[].corners"] = new("Corners to turn"),
    };

    // One row of a list, in the singular; of techniques, where the kind's own word is not what one says.
    private static readonly Dictionary<string, Ask> Rows = new()
    {
        ["techniques:tucks"] = new("run of tucks"),
        ["techniques:lace"] = new("lace"),
        ["techniques"] = new("technique"),
        ["condition"] = new("finding"),
        ["repairs"] = new("repair"),
        ["examinations"] = new("examination"),
        ["pictures"] = new("picture"),
        ["materials"] = new("cloth"),
        ["measures"] = new("measure"),
        ["marks"] = new("mark"),
        ["alterations"] = new("alteration"),
        ["groups"] = new("group of tucks"),
        ["between"] = new("space between groups"),
        ["repeats"] = new("place"),
        ["shown"] = new("time it was shown"),
        ["trims"] = new("edge to trim"),
    };

    // Asked for when she wants to say more; the first look at a piece takes ten minutes, not an hour.
    private static readonly HashSet<string> Later =
    [
        "face", "at", "between", "centre", "lead", "trail", "sewnLength", "over", "needleGap", "cord", "depthAtPoint", "depthAtHollow",
        "widthAtStart", "widthAtEnd", "shells", "depthLost", "drawnIn", "under", "crosses", "remains", "traces", "repeats", "sure",
        "evidence", "ground", "repeat", "ribbon", "joined", "examination", "continues", "ended", "by", "thread", "answers", "why", "pictures",
    ];

    /// <summary>How the field at a path is asked for: by its whole path, its last two names, or its name.</summary>
    public static Ask For(string path, Field field, string about = "")
    {
        var plain = System.Text.RegularExpressions.Regex.Replace(path, @"\[\d+\]", "[]");
        var names = plain.Split('.');
        return Words.GetValueOrDefault($"{about}:{plain}")
            ?? Words.GetValueOrDefault(plain)
            ?? (names.Length > 1 ? Words.GetValueOrDefault($"{names[^2]}.{names[^1]}") : null)
            ?? Words.GetValueOrDefault(field.Name)
            ?? new(field.Label);
    }

    /// <summary>Whether a field of an entry waits under "More".</summary>
    public static bool IsLater(Field field) => Later.Contains(field.Name);

    /// <summary>What the button says that adds a row: "Add another run of tucks", "Add an insertion", "Add whitework".</summary>
    public static string Add(string list, string? kind, bool some)
    {
        var one = One(list, kind);
        var many = kind is "whitework" or "embroidery" || list == "materials";
        return (some, many) switch
        {
            (true, true) => T($"Add more {one}"),
            (true, false) => T($"Add another {one}"),
            (false, true) => T($"Add {one}"),
            _ when BeginsWithVowel(list, kind) => T($"Add an {one}"),
            _ => T($"Add a {one}"),
        };
    }

    /// <summary>One row of a list, in the singular: "run of tucks".</summary>
    public static string One(string list, string? kind = null) => InEnglish(list, kind) is { } row ? T(row) : Reading.Say.Word(list, kind!).ToLowerInvariant();

    private static bool BeginsWithVowel(string list, string? kind) => "aeiou".Contains((InEnglish(list, kind) ?? HeirloomArchive.Catalogue.Words.Label(list, kind!).ToLowerInvariant())[0]);

    // Null for a technique that is called by its own word.
    private static string? InEnglish(string list, string? kind) =>
        Rows.TryGetValue($"{list}:{kind}", out var ofKind) ? ofKind.Label
        : list == "techniques" && kind is not null ? null
        : Rows.GetValueOrDefault(list)?.Label ?? list;
}
