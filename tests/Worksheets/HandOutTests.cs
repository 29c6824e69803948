using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using UglyToad.PdfPig;

namespace HeirloomArchive.Worksheets.Tests;

/// <summary>A lesson on paper: every entry with its words, its picture and its run, the same bytes each time.</summary>
public sealed class HandOutTests
{
    [Theory]
    [InlineData("A4", 595.3, 841.9)]
    [InlineData("letter", 612, 792)]
    public void All_of_it_is_on_the_paper_and_two_prints_are_the_same_bytes(string paper, double width, double height)
    {
        var file = Made(3).Print(paper);
        Assert.Equal(file, Made(3).Print(paper));
        using var print = PdfDocument.Open(file);
        var text = string.Concat(print.GetPages().Select(p => p.Text));
        foreach (var said in (string[])["Pin tucks by hand", "Two evenings", "You need", "Batiste", "Entry 1", "Entry 3", "Sewn by: Hand", "Look for the knots.", "2 1/8 in of cloth", "Bare hands."])
        {
            Assert.Contains(said.Replace(" ", "", StringComparison.Ordinal), text.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        }

        Assert.Equal(3, print.GetPages().Sum(p => p.GetImages().Count()));
        Assert.All(print.GetPages(), p => Assert.True(Math.Abs(p.Width - width) < 0.5 && Math.Abs(p.Height - height) < 0.5));

        // Nothing is drawn beyond the paper's margins.
        Assert.All(print.GetPages().SelectMany(p => p.Letters), l => Assert.InRange(l.StartBaseLine.X, 40, width - 40));
    }

    [Fact]
    public void A_lesson_of_many_entries_goes_over_pages_and_one_of_none_is_still_a_print()
    {
        using var many = PdfDocument.Open(Made(40).Print("A4"));
        Assert.True(many.NumberOfPages > 10);
        Assert.Contains($"of{many.NumberOfPages}", many.GetPage(1).Text.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        using var none = PdfDocument.Open(Made(0).Print("A4"));
        Assert.Equal(1, none.NumberOfPages);
    }

    [Fact]
    public void Another_paper_is_refused_and_a_picture_that_is_none_is_left_out()
    {
        Assert.Equal("paper", Assert.Single(Assert.Throws<FaultException>(() => Made(1).Print("A3")).Faults).Path);
        var made = Made(1);
        using var print = PdfDocument.Open((made with { Entries = [made.Entries[0] with { Picture = [1, 2, 3] }] }).Print("A4"));
        Assert.Empty(print.GetPage(1).GetImages());
    }

    /// <summary>Titles of one line to five, so that the pictures come to stand at many heights.</summary>
    [Fact]
    public void A_picture_is_never_drawn_into_the_foot_of_the_page()
    {
        var made = Made(40);
        using var print = PdfDocument.Open((made with { Entries = [.. made.Entries.Select((e, i) => e with { Plan = null, Title = string.Join(' ', Enumerable.Repeat("a long name of a run of tucks", 1 + (i % 9))) })] }).Print("A4"));
        Assert.All(print.GetPages().SelectMany(p => p.GetImages()), image => Assert.True(image.BoundingBox.Bottom >= (22 * 72 / 25.4) - 0.5, $"{image.BoundingBox.Bottom}"));
    }

    [Fact]
    public void Letters_that_the_print_does_not_have_are_told_at_its_end()
    {
        var made = Made(1);
        Assert.DoesNotContain("nolettersforthem", Text(made), StringComparison.Ordinal);
        var text = Text(made with { EachNeeds = "Batiste שמלה", Entries = [made.Entries[0] with { Note = "絹" }] });
        Assert.Contains("(U+05E9)", text, StringComparison.Ordinal);
        Assert.Contains("nolettersforthem", text, StringComparison.Ordinal);

        static string Text(HandOut handOut)
        {
            using var print = PdfDocument.Open(handOut.Print("A4"));
            return string.Concat(print.GetPages().Select(p => p.Text)).Replace(" ", "", StringComparison.Ordinal);
        }
    }

    private static HandOut Made(int entries)
    {
        var plan = TuckPlan.Make(TuckRunJson.Read(JsonNode.Parse("""{"groups":[{"tucks":6,"width":"1/16 in","space":"3/16 in"}],"lead":"1/16 in"}""")!.AsObject()));
        return new(new("0199a1b2-0000-7000-8000-000000000001"), "Pin tucks by hand", new(2026, 3, 2, 10, 0, 0, TimeSpan.Zero), "Two evenings", "Batiste, torn on the thread",
            [.. Enumerable.Range(1, entries).Select(n => new HandOutEntry($"Entry {n}", "H-002, baby dress, about 1908", [("Sewn by", "Hand"), ("Stitches to the inch", "9")], "Look for the knots.") { Plan = plan, Picture = PrintPictures.Jpeg, Alt = "The yoke" })],
            [("Bare hands.", "Fingers feel weak places.")]);
    }
}
