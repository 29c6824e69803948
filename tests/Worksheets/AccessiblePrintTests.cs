using System.Text;
using System.Xml.Linq;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Graphics.Operations;
using UglyToad.PdfPig.Graphics.Operations.InlineImages;
using UglyToad.PdfPig.Graphics.Operations.MarkedContent;
using UglyToad.PdfPig.Graphics.Operations.PathPainting;
using UglyToad.PdfPig.Graphics.Operations.TextShowing;
using UglyToad.PdfPig.Tokens;

namespace HeirloomArchive.Worksheets.Tests;

/// <summary>
/// Points of PDF/UA-1 (ISO 14289-1:2014) that a program can check, each test named for its clause. It is no certificate: whether
/// the reading order and the alternative texts make sense is for a person to say.
/// </summary>
public class AccessiblePrintTests
{
    private static readonly HashSet<string> Standard =
        ["Document", "P", "H1", "H2", "L", "LI", "Lbl", "LBody", "Table", "TR", "TH", "TD", "Figure", "Span"];

    private static readonly Dictionary<string, byte[]> Prints = Made();

    public static TheoryData<string> Names => [.. Prints.Keys];

    private static Dictionary<string, byte[]> Made()
    {
        const string pin = """{"plan":{"groups":[{"tucks":3,"width":"1/16 in","space":"1/4 in"}],"lead":"1/2 in","trail":"1/2 in"} }""";
        var garment = Examples.Garment();
        garment["techniques"]![0]!["pictures"] = new System.Text.Json.Nodes.JsonArray("0199a1b2-0000-7000-8000-00000000aaaa");
        var five = WorksheetMaker.Make(
            Examples.Five($$"""{"title":"Five <& more>","garment":"{{Examples.GarmentId}}","techniques":["pin","lace"],"trims":[{"technique":"lace","edge":"9 in"}],"notes":"a\nb"}"""),
            garment, Examples.Noon);
        var front = Examples.Made($$"""{"sections":[{{pin}},{"insertion":{"width":"1 in"} },{{pin}}],"mirrored":true,"paper":"letter","landscape":true,"allow":{"bottom":"1 in"} }""");
        var long60 = Examples.Made("""{"plan":{"groups":[{"tucks":60,"width":"1/4 in","space":"1/4 in"},{"tucks":1,"width":"4 in"}],"between":["0 in"]}}""");
        return new()
        {
            ["five tucks"] = WorksheetPdf.Render(five, null, PrintPictures.Jpeg),
            ["a mirrored front"] = WorksheetPdf.Render(front),
            ["sixty tucks over many pages"] = WorksheetPdf.Render(long60),
            ["a hand-out"] = WorksheetPdf.Teaching(front, answers: false),
            ["its answers"] = WorksheetPdf.Teaching(front, answers: true, 12),
        };
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Clause_5_it_says_that_it_is_made_to_part_1_in_metadata_that_read_as_xml(string name)
    {
        using var print = PdfDocument.Open(Prints[name]);
        Assert.True(print.TryGetXmpMetadata(out var xmp));
        var xml = XDocument.Parse(Encoding.UTF8.GetString(xmp.GetXmlBytes()).TrimStart('\uFEFF'));
        Assert.Equal("1", Assert.Single(xml.Descendants(XName.Get("part", "http://www.aiim.org/pdfua/ns/id/"))).Value);

        // 7.1: a title, and the window shows it.
        Assert.Equal(print.Information.Title, Assert.Single(xml.Descendants(XName.Get("title", "http://purl.org/dc/elements/1.1/"))).Value);
        var catalog = print.Structure.Catalog.CatalogDictionary;
        Assert.Equal("true", Dictionary(print, catalog, "ViewerPreferences").Data["DisplayDocTitle"].ToString(), ignoreCase: true);
        Assert.Equal("true", Dictionary(print, catalog, "MarkInfo").Data["Marked"].ToString(), ignoreCase: true);
        Assert.False(Dictionary(print, catalog, "MarkInfo").Data.ContainsKey("Suspects"));

        // 7.2: the language.
        Assert.Equal("en", ((StringToken)catalog.Data["Lang"]).Data);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Clause_7_1_all_that_is_drawn_is_tagged_once_or_an_artifact(string name)
    {
        using var print = PdfDocument.Open(Prints[name]);
        var tagged = Elements(print).SelectMany(e => e.Marks).ToList();
        Assert.Equal(tagged.Count, tagged.Distinct().Count());
        var seen = new HashSet<(int Page, int Mark)>();
        foreach (var page in print.GetPages())
        {
            var open = new Stack<string>();
            foreach (var operation in page.Operations)
            {
                switch (operation)
                {
                    case BeginMarkedContent b:
                        Assert.Equal("Artifact", b.Name.Data);
                        Assert.Empty(open);
                        open.Push("Artifact");
                        break;
                    case BeginMarkedContentWithProperties b:
                        Assert.Empty(open);
                        open.Push(b.Name.Data);
                        if (b.Name.Data != "Artifact")
                        {
                            Assert.True(seen.Add((page.Number, ((NumericToken)b.Properties!.Data["MCID"]).Int)));
                        }

                        break;
                    case EndMarkedContent:
                        open.Pop();
                        break;
                    default:
                        Assert.True(open.Count > 0 || !Paints(operation), $"{operation.Operator} outside any tag on page {page.Number}");
                        break;
                }
            }

            Assert.Empty(open);
            Assert.True(page.Dictionary.Data.ContainsKey("StructParents"));
            Assert.False(page.Dictionary.Data.ContainsKey("Annots"));
        }

        Assert.Subset(seen, tagged.ToHashSet());
        Assert.Subset(tagged.ToHashSet(), seen);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Clause_7_1_every_element_is_of_a_standard_kind_and_stands_where_it_may(string name)
    {
        using var print = PdfDocument.Open(Prints[name]);
        foreach (var element in Elements(print))
        {
            Assert.Contains(element.Kind, Standard);
            Assert.True(element.Kind switch
            {
                "LI" => element.Parent == "L",
                "Lbl" or "LBody" => element.Parent == "LI",
                "TR" => element.Parent == "Table",
                "TH" or "TD" => element.Parent == "TR",
                _ => true,
            }, $"{element.Kind} in {element.Parent}");
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Clause_7_3_figures_have_words_and_a_place_and_7_4_headings_skip_no_level(string name)
    {
        using var print = PdfDocument.Open(Prints[name]);
        var elements = Elements(print).ToList();
        Assert.Contains(elements, e => e.Kind == "Figure");
        Assert.All(elements.Where(e => e.Kind == "Figure"), f =>
        {
            Assert.True(((StringToken)f.Node.Data["Alt"]).Data.Length > 10);
            Assert.Contains(Attributes(print, f.Node), a => a.Data.ContainsKey("BBox"));
        });
        var headings = elements.Where(e => e.Kind is "H1" or "H2").Select(e => e.Kind).ToList();
        Assert.Equal("H1", headings[0]);
        Assert.DoesNotContain("H1", headings.Skip(1));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Clause_7_5_tables_are_even_and_their_headings_say_what_they_head(string name)
    {
        using var print = PdfDocument.Open(Prints[name]);
        var elements = Elements(print).ToList();
        Assert.All(elements.Where(e => e.Kind == "TH"), h => Assert.Contains(Attributes(print, h.Node), a => a.Data.TryGetValue("Scope", out var s) && ((NameToken)s).Data is "Column" or "Row"));
        foreach (var table in elements.Where(e => e.Kind == "Table"))
        {
            var rows = Kids(print, table.Node).Select(row => Kids(print, row).Sum(cell =>
                Attributes(print, cell).Select(a => a.Data.TryGetValue("ColSpan", out var n) ? ((NumericToken)n).Int : 1).DefaultIfEmpty(1).Max())).ToList();
            Assert.True(rows.Count > 1);
            Assert.Single(rows.Distinct());
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Clause_7_21_fonts_are_within_and_every_glyph_has_its_character(string name)
    {
        using var print = PdfDocument.Open(Prints[name]);
        var fonts = print.GetPages().SelectMany(p => Dictionary(print, Dictionary(print, p.Dictionary, "Resources"), "Font").Data.Values)
            .Select(f => (DictionaryToken)Plain(print, f)).ToList();
        Assert.NotEmpty(fonts);
        Assert.All(fonts, font =>
        {
            Assert.Equal("Type0", ((NameToken)font.Data["Subtype"]).Data);
            Assert.True(font.Data.ContainsKey("ToUnicode"));
            var descendant = (DictionaryToken)Plain(print, ((ArrayToken)Plain(print, font.Data["DescendantFonts"])).Data[0]);
            Assert.Equal("Identity", ((NameToken)descendant.Data["CIDToGIDMap"]).Data);
            Assert.True(Dictionary(print, descendant, "FontDescriptor").Data.ContainsKey("FontFile2"));
        });
    }

    private sealed record Element(string Kind, string Parent, DictionaryToken Node, IReadOnlyList<(int Page, int Mark)> Marks);

    private static IEnumerable<Element> Elements(PdfDocument print)
    {
        var pages = print.GetPages().Select((p, i) => (p, i)).ToList();
        var places = new Dictionary<string, int>();
        Pages((DictionaryToken)Plain(print, print.Structure.Catalog.CatalogDictionary.Data["Pages"]), null);
        return Walk((DictionaryToken)Plain(print, Dictionary(print, print.Structure.Catalog.CatalogDictionary, "StructTreeRoot").Data["K"]), "", -1);

        void Pages(DictionaryToken node, IToken? reference)
        {
            if (node.Data.TryGetValue("Kids", out var kids))
            {
                foreach (var kid in ((ArrayToken)Plain(print, kids)).Data)
                {
                    Pages((DictionaryToken)Plain(print, kid), kid);
                }
            }
            else
            {
                places[reference!.ToString()!] = places.Count + 1;
            }
        }

        IEnumerable<Element> Walk(DictionaryToken node, string parent, int page)
        {
            var kind = ((NameToken)node.Data["S"]).Data;
            page = node.Data.TryGetValue("Pg", out var pg) ? places[pg.ToString()!] : page;
            List<(int, int)> marks = [];
            List<Element> below = [];
            foreach (var kid in KidTokens(print, node))
            {
                var plain = Plain(print, kid);
                if (plain is NumericToken number)
                {
                    marks.Add((page, number.Int));
                }
                else if (plain is DictionaryToken d && d.Data.TryGetValue("MCID", out var mark))
                {
                    marks.Add((d.Data.TryGetValue("Pg", out var other) ? places[other.ToString()!] : page, ((NumericToken)mark).Int));
                }
                else
                {
                    below.AddRange(Walk((DictionaryToken)plain, kind, page));
                }
            }

            return [new Element(kind, parent, node, marks), .. below];
        }
    }

    private static IEnumerable<IToken> KidTokens(PdfDocument print, DictionaryToken node) =>
        !node.Data.TryGetValue("K", out var k) ? [] : Plain(print, k) is ArrayToken list ? list.Data : [k];

    private static IEnumerable<DictionaryToken> Kids(PdfDocument print, DictionaryToken node) =>
        KidTokens(print, node).Select(k => Plain(print, k)).OfType<DictionaryToken>().Where(d => d.Data.ContainsKey("S"));

    private static IEnumerable<DictionaryToken> Attributes(PdfDocument print, DictionaryToken node) =>
        !node.Data.TryGetValue("A", out var a) ? [] : Plain(print, a) is ArrayToken list
            ? list.Data.Select(t => Plain(print, t)).OfType<DictionaryToken>() : [(DictionaryToken)Plain(print, a)];

    private static DictionaryToken Dictionary(PdfDocument print, DictionaryToken node, string name) => (DictionaryToken)Plain(print, node.Data[name]);

    private static IToken Plain(PdfDocument print, IToken token) =>
        token is IndirectReferenceToken reference ? print.Structure.GetObject(reference.Data).Data : token;

    private static bool Paints(IGraphicsStateOperation operation) => operation is
        ShowText or ShowTextsWithPositioning or MoveToNextLineShowText or MoveToNextLineShowTextWithSpacing
        or StrokePath or CloseAndStrokePath or FillPathNonZeroWinding or FillPathEvenOddRule or FillPathNonZeroWindingAndStroke or FillPathEvenOddRuleAndStroke
        or CloseFillPathNonZeroWindingAndStroke or CloseFillPathEvenOddRuleAndStroke or BeginInlineImage
        || operation.Operator == "Do";
}
