using System.Reflection;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests;

/// <summary>The arrows between the rooms: Web -> Worksheets, Search, Pictures -> Catalogue -> Sewing.</summary>
public class ArchitectureTests
{
    private static readonly Dictionary<string, string[]> MayUse = new()
    {
        ["Sewing"] = [],
        ["Catalogue"] = ["Sewing"],
        ["Pictures"] = ["Catalogue", "Sewing"],
        ["Search"] = ["Catalogue", "Sewing"],
        ["Worksheets"] = ["Catalogue", "Sewing"],
        ["Web"] = ["Worksheets", "Search", "Pictures", "Catalogue", "Sewing"],
    };

    public static TheoryData<string> Rooms => [.. MayUse.Keys];

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_room_uses_only_the_rooms_below_it(string room)
    {
        var used = References(room).Where(n => n.StartsWith("HeirloomArchive.", StringComparison.Ordinal))
            .Select(n => n["HeirloomArchive.".Length..]);
        Assert.Empty(used.Except(MayUse[room]));
    }

    [Fact]
    public void Sewing_uses_nothing_but_the_framework() =>
        Assert.All(References("Sewing"), name => Assert.True(name.StartsWith("System", StringComparison.Ordinal) || name == "netstandard", name));

    [Theory]
    [InlineData("Marten", "Catalogue", "Pictures", "Search", "Worksheets", "Web")]
    [InlineData("Lucene.Net", "Search")]
    [InlineData("SkiaSharp", "Pictures")]
    [InlineData("PdfSharp", "Worksheets")]
    public void A_library_stays_in_its_rooms(string library, params string[] rooms) =>
        Assert.Empty(MayUse.Keys.Where(r => References(r).Contains(library)).Except(rooms));

    [Fact]
    public void Every_project_of_src_is_a_room_of_the_table()
    {
        var src = Path.Combine(SourceFolder.Top, "src");
        Assert.Equal(MayUse.Keys.Order(), Directory.GetDirectories(src).Select(d => Path.GetFileName(d)!).Order());
        Assert.All(MayUse.Keys, room => Assert.True(File.Exists(Path.Combine(src, room, "README.md")), $"{room} has no README.md"));
    }

    [Fact]
    public void No_source_file_is_longer_than_400_lines() =>
        Assert.Empty(new[] { "src", "tests" }
            .SelectMany(top => Directory.EnumerateFiles(Path.Combine(SourceFolder.Top, top), "*.cs", SearchOption.AllDirectories))
            .Where(f => !f.Split(Path.DirectorySeparatorChar).Any(p => p is "obj" or "bin" or "node_modules"))
            .Where(f => File.ReadLines(f).Count() > 400)
            .Select(f => Path.GetRelativePath(SourceFolder.Top, f)));

    private static string[] References(string room) =>
        [.. Assembly.Load($"HeirloomArchive.{room}").GetReferencedAssemblies().Select(a => a.Name!)];
}
