using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Drawing;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;
using Tag = PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>Paper with a place to write next: pages, margins, wrapped and tagged text. All measures are points.</summary>
internal sealed class Sheet : IDisposable
{
    public static readonly XColor Ink = XColor.FromArgb(0x1f, 0x2d, 0x36), Quiet = XColor.FromArgb(0x4f, 0x60, 0x6a),
        Accent = XColor.FromArgb(0x2f, 0x5d, 0x73), Ground = XColor.FromArgb(0xdf, 0xe8, 0xec), Rule = XColor.FromArgb(0xb9, 0xc7, 0xce);

    /// <summary>How far below the upper edge of a line its letters stand, of the size of the face.</summary>
    public const double Baseline = 1.02;

    private const double LineSpacing = 1.36;

    private readonly PdfDocument document;
    private readonly PaperSize paper;
    private readonly string footer;
    private readonly int pagesInAll;
    private readonly Dictionary<(string Font, double Size, string Word), double> widths;
    private XGraphics? graphics;

    /// <param name="document">The document to write to.</param>
    /// <param name="paper">Its sheets.</param>
    /// <param name="footer">Stands at the foot of every page, cut short if it is long.</param>
    /// <param name="counted">The sheet of a first pass that only counted the pages; null in that pass, which writes no text.</param>
    public Sheet(PdfDocument document, PaperSize paper, string footer, Sheet? counted)
    {
        this.document = document;
        this.footer = footer;
        pagesInAll = counted?.document.PageCount ?? 0;
        widths = counted?.widths ?? [];
        this.paper = paper;
        Tags = UAManager.ForDocument(document).StructureBuilder;
        NewPage();
    }

    public StructureBuilder Tags { get; }

    public XGraphics Graphics => graphics!;

    /// <summary>Where the next thing goes, from the top edge of the paper.</summary>
    public double Y { get; set; }

    public double Left { get; } = Mm(PaperSize.Margin);

    public double Right => Mm(paper.Width - PaperSize.Margin);

    public double Width => Right - Left;

    public PaperSize Paper => paper;

    private double Top { get; } = Mm(PaperSize.Margin);

    private double Bottom => Mm(paper.Height - PaperSize.Foot);

    /// <summary>The height between the margins.</summary>
    public double Height => Bottom - Top;

    public static double Mm(double millimetres) => millimetres * 72 / 25.4;

    public void NewPage()
    {
        if (graphics is not null)
        {
            Tags.EndMarkedContentsWithId();
            graphics.Dispose();
        }

        var page = document.AddPage();
        page.Width = XUnit.FromMillimeter(paper.Width);
        page.Height = XUnit.FromMillimeter(paper.Height);
        graphics = XGraphics.FromPdfPage(page);
        Y = Top;
        Foot();
    }

    /// <summary>Starts a new page unless this height is still free; true if it did.</summary>
    public bool Need(double height)
    {
        if (Y + height <= Bottom || Y <= Top)
        {
            return false;
        }

        NewPage();
        return true;
    }

    /// <summary>Says of the heading cell just begun what it heads: <c>/Column</c> or <c>/Row</c>.</summary>
    public void Scope(string scope) => Tags.CurrentStructureElement.TableAttributes.Elements.SetName("/Scope", scope);

    public void Gap(double height) => Y += height;

    /// <summary>A heading of a section, kept with what follows it.</summary>
    public void Heading(string text, double keepWith = 60)
    {
        Gap(Y > Top ? 16 : 0);
        Need(24 + keepWith);
        Text(text, Fonts.Name(13.5), Accent, Tag.Heading2);
        Gap(3);
    }

    public void Text(string text, XFont font, XColor color, Tag tag = Tag.Paragraph, double indent = 0, double after = 0)
    {
        Tags.BeginElement(tag);
        Lines(text, font, color, Left + indent, Width - indent);
        Tags.End();
        Gap(after);
    }

    /// <summary>A list entry with its number or sign hanging before it.</summary>
    public void Entry(string sign, string text, string? small = null, double indent = 16)
    {
        var font = Fonts.Body(10);
        var lines = Wrap(text, font, Width - indent);
        Need(Math.Min(lines.Count, 2) * 10 * LineSpacing);
        Tags.BeginElement(Tag.ListItem);
        Tags.BeginElement(Tag.Label);
        Write(sign, Fonts.Bold(10), Accent, Left, Y);
        Tags.End();
        Tags.BeginElement(Tag.ListBody);
        Lines(text, font, Ink, Left + indent, Width - indent);
        if (small is { Length: > 0 })
        {
            Lines(small, Fonts.Body(8.5), Quiet, Left + indent, Width - indent);
        }

        Tags.End();
        Tags.End();
        Gap(2.5);
    }

    /// <summary>A list in two columns of like height; in one where a page does not hold it.</summary>
    public void TwoColumns(IReadOnlyList<(string Text, string Small)> entries)
    {
        var (width, indent, gap) = ((Width - 22) / 2, 11.0, 4.0);
        var heights = entries.Select(e => gap + Tall(e.Text, Fonts.Body(9.5), width - indent) + Tall(e.Small, Fonts.Body(8), width - indent)).ToList();
        var left = 0;
        while (heights.Take(left).Sum() < heights.Skip(left).Sum())
        {
            left++;
        }

        if (entries.Count < 4 || heights.Take(left).Sum() > Height - 40)
        {
            List(() =>
            {
                foreach (var (text, small) in entries)
                {
                    Entry("!", text, small);
                }
            });
            return;
        }

        Need(heights.Take(left).Sum());
        var (top, bottom) = (Y, Y);
        Tags.BeginElement(Tag.List);
        for (var i = 0; i < entries.Count; i++)
        {
            Y = i == left ? top : Y;
            var x = i < left ? Left : Left + width + 22;
            Tags.BeginElement(Tag.ListItem);
            Tags.BeginElement(Tag.Label);
            Write("!", Fonts.Bold(9.5), Accent, x, Y);
            Tags.End();
            Tags.BeginElement(Tag.ListBody);
            Lines(entries[i].Text, Fonts.Body(9.5), Ink, x + indent, width - indent);
            if (entries[i].Small.Length > 0)
            {
                Lines(entries[i].Small, Fonts.Body(8), Quiet, x + indent, width - indent);
            }

            Tags.End();
            Tags.End();
            Y += gap;
            bottom = Math.Max(bottom, Y);
        }

        Tags.End();
        Y = bottom;
    }

    public void List(Action entries)
    {
        Tags.BeginElement(Tag.List);
        entries();
        Tags.End();
    }

    /// <summary>Writes wrapped lines from here down, over as many pages as they need.</summary>
    public void Lines(string text, XFont font, XColor color, double x, double width)
    {
        foreach (var line in Wrap(text, font, width))
        {
            Need(font.Size * LineSpacing);
            Write(line, font, color, x, Y);
            Y += font.Size * LineSpacing;
        }
    }

    /// <summary>One line of text with its upper edge at y; to the right of x, or ending or centred there.</summary>
    public void Write(string text, XFont font, XColor color, double x, double y, double align = 0)
    {
        if (pagesInAll > 0 && Letters.Printable(text) is { Length: > 0 } printed)
        {
            Graphics.DrawString(printed, font, new XSolidBrush(color), x - (align * Measure(printed, font)), y + (font.Size * Baseline));
        }
    }

    public double Measure(string text, XFont font)
    {
        var key = (font.FontFamily.Name, font.Size, text);
        if (!widths.TryGetValue(key, out var width))
        {
            widths[key] = width = Graphics.MeasureString(text, font).Width;
        }

        return width;
    }

    /// <summary>How high a text is, wrapped to a width; nothing is as high as nothing.</summary>
    public double Tall(string text, XFont font, double width) => text.Length == 0 ? 0 : Wrap(text, font, width).Count * font.Size * LineSpacing;

    /// <summary>The face at this size, or so much smaller that one line of text fits a width; below 5 points nobody reads it.</summary>
    public XFont Fitting(string text, Func<double, XFont> face, double size, double width)
    {
        while (size > 5 && Measure(text, face(size)) > width)
        {
            size -= 0.5;
        }

        return face(size);
    }

    /// <summary>The text cut to what fits, with an ellipsis.</summary>
    public string Short(string text, XFont font, double width)
    {
        if (Measure(text, font) <= width)
        {
            return text;
        }

        var cut = text.Length;
        while (cut > 0 && Measure(text[..cut].TrimEnd() + "…", font) > width)
        {
            cut--;
        }

        return text[..cut].TrimEnd() + "…";
    }

    public IReadOnlyList<string> Wrap(string text, XFont font, double width)
    {
        // The faces are set without kerning, so a line is as wide as its words and the blanks between; words are measured once.
        var blank = Measure("n n", font) - Measure("nn", font);
        List<string> lines = [];
        foreach (var paragraph in text.ReplaceLineEndings("\n").Split('\n').Select(Letters.Printable))
        {
            var (line, taken) = ("", 0.0);
            foreach (var word in Unbroken.Of(paragraph).Split(' ').SelectMany(w => Pieces(w.Replace(Unbroken.Space, ' '), font, width)))
            {
                var wide = Measure(word, font);
                if (line.Length > 0 && taken + blank + wide > width)
                {
                    lines.Add(line);
                    (line, taken) = (word, wide);
                }
                else
                {
                    (line, taken) = line.Length == 0 ? (word, wide) : ($"{line} {word}", taken + blank + wide);
                }
            }

            lines.Add(line);
        }

        return lines;
    }

    /// <summary>A word that is longer than a line is broken where it must be.</summary>
    private IEnumerable<string> Pieces(string word, XFont font, double width)
    {
        while (word.Length > 1 && Measure(word, font) > width)
        {
            var cut = word.Length - 1;
            while (cut > 1 && Measure(word[..cut], font) > width)
            {
                cut--;
            }

            yield return word[..cut];
            word = word[cut..];
        }

        yield return word;
    }

    private void Foot()
    {
        var font = Fonts.Body(8.5);
        var y = Mm(paper.Height - 14) - 8;
        Tags.BeginArtifact();
        Write(Short(footer, font, Width - 80), font, Quiet, Left, y);
        Write(T($"page {document.PageCount} of {pagesInAll}"), font, Quiet, Right, y, align: 1);
        Tags.End();
    }

    public void Dispose() => graphics?.Dispose();
}
