using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Forms;

namespace HeirloomArchive.Web.Tests.Pages;

/// <summary>The order in which the form of a technique asks.</summary>
public class EntryViewTests
{
    private static readonly string[] Titles = ["What it is", "Where it is", "How it measures", "How it is sewn", "What shows it"];

    public static TheoryData<string> Kinds => [.. Words.In("techniques").Select(w => w.Slug)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_kind_is_asked_what_where_how_large_how_sewn_and_what_shows_it_each_field_once(string kind)
    {
        var view = View(kind);
        Assert.Equal(
            GarmentShape.Technique.FieldsOf(new JsonObject { ["kind"] = kind }).Select(f => f.Name).Order(),
            view.Steps.SelectMany(s => s.Fields).Select(f => f.Name).Order());
        Assert.Equal(Titles.Intersect(view.Steps.Select(s => s.Title!)), view.Steps.Select(s => s.Title).Where(t => t is not null));
    }

    [Theory]
    [InlineData("tucks", "tuckKind", "part", "groups", "sewn", "evidence")]
    [InlineData("lace", "lace", "part", "width", "sewn", "evidence")]
    [InlineData("seam", "seam", "part", "width", "sewn", "evidence")]
    [InlineData("embroidery", "work", "part", "sewn", "thread", "evidence")]
    [InlineData("fastening", "fastening", "part", "count", "sewn", "evidence")]
    [InlineData("smocking", "stitches", "part", "rows", "sewn", "evidence")]
    public void The_fields_follow_the_eye(string kind, params string[] order)
    {
        var names = View(kind).Steps.SelectMany(s => s.Fields).Select(f => f.Name).ToList();
        Assert.Equal(order, order.OrderBy(names.IndexOf));
    }

    [Fact]
    public void A_finding_is_one_step_without_a_name() =>
        Assert.Null(Assert.Single(new EntryView(new Form([]), GarmentShape.Finding, "").Steps).Title);

    private static EntryView View(string kind) => new(new Form(new() { ["kind"] = kind }), GarmentShape.Technique, "");
}
