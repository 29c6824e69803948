using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.Extensions.Primitives;

namespace HeirloomArchive.Web.Tests.Pages;

/// <summary>A bare number is read in the unit that the form showed, and in no other.</summary>
public class TapeTests
{
    [Theory]
    [InlineData("3/8", "in16", "3/8 in")]
    [InlineData("1½", "in32", "1½ in")]
    [InlineData("-1/16", "in16", "-1/16 in")]
    [InlineData("12,5", "mm", "12,5 mm")]
    [InlineData("9 mm", "in16", "9 mm")]
    [InlineData("3/8\"", "mm", "3/8\"")]
    [InlineData("3/8", "", "3/8")]
    [InlineData("3/0", "in16", "3/0")]
    [InlineData("", "mm", "")]
    [InlineData("wide", "mm", "wide")]
    [InlineData("4", "furlongs", "4")]
    public void What_was_typed_gets_the_unit_shown_only_where_it_has_none(string typed, string tape, string read) =>
        Assert.Equal(read, Tape.Named(tape).Complete(typed));

    [Theory]
    [InlineData("mm", "3 mm")]
    [InlineData("in", "3 in")]
    [InlineData(null, "3")]
    public void A_form_is_read_in_the_unit_it_carries(string? tape, string width)
    {
        Dictionary<string, StringValues> posted = new() { ["kind"] = "tucks", ["groups[0].width"] = "3", ["groups[0].tucks"] = "5" };
        if (tape is not null)
        {
            posted[Tape.Field] = tape;
        }

        var group = FormReader.Read(posted, GarmentShape.Technique)["groups"]![0]!;
        Assert.Equal(width, group["width"]!.ToString());
        Assert.Equal(5, group["tucks"]!.GetValue<decimal>());
    }
}
