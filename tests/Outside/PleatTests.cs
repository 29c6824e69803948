using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Fullness;
using static HeirloomArchive.Outside.Tests.Asking;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Pleats and smocking against solved examples.</summary>
public class PleatTests
{
    // Hapgood, School Needlework; NIMI p. 204; The New Dressmaker (1921): plaits that meet take three times the length.
    [Fact]
    [Trait("sure", "read")]
    public void Plaits_that_meet_take_three_times_the_length() =>
        Assert.Equal("60 in", Text(Of("pleats", """{"finished":"20 in","width":"1 in"}"""), "flat"));

    // Dress Making, NIMI, p. 203, example 1: 92 cm, depth 4, width 5: 18.4, taken as 18; width then 5.11 (printed 5.1); 236 cm of cloth;
    // strips from 90 cm less 2 cm: 3, each 15 cm: 45 cm.
    [Fact]
    [Trait("sure", "read")]
    public void The_solved_shallow_pleats_come_to_eighteen()
    {
        var down = Of("pleats", """{"kind":"shallow","finished":"92 cm","width":"5 cm","depth":"4 cm","loom":"90 cm","join":"1 cm","cutDepth":"15 cm"}""")["ways"]![0]!;
        Assert.Equal((18, 2360m, 3, 450m), ((int)down["count"]!, Millimetres(down, "flat"), (int)down["strips"]!, Millimetres(down, "cloth")));
        Assert.Equal(51.1m, Millimetres(down, "width"), 1);
    }

    // NIMI p. 204, example 2: 50 cm in normal pleats of 2.5 cm: 20 pleats, 150 cm, with a seam of 2 cm 152.
    [Fact]
    [Trait("sure", "read")]
    public void The_solved_normal_pleats_come_to_twenty()
    {
        var answer = Of("pleats", """{"finished":"50 cm","width":"2.5 cm","seams":"2 cm"}""");
        Assert.Equal((20, 1500m, 1520m), ((int)answer["count"]!, Millimetres(answer, "flat"), Millimetres(answer, "withSeams")));
    }

    // NIMI pp. 204-205: one box pleat 12 cm deep in 60 cm takes 108 cm; an inverted one 6.5 deep in 66 takes 92.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("box", "60 cm", "12 cm", 1080)]
    [InlineData("inverted", "66 cm", "6.5 cm", 920)]
    public void One_pleat_of_two_folds_takes_four_times_its_depth(string kind, string section, string depth, int cloth) =>
        Assert.Equal(cloth, Millimetres(Of("pleats", $$"""{"kind":"{{kind}}","finished":"{{section}}","count":1,"depth":"{{depth}}"}"""), "flat"));

    // NIMI p. 202: as deep as wide is normal and threefold, less deep shallow and below, deeper overlapping and above.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("1 in", "1 in", PleatKind.Normal, 0)]
    [InlineData("1/2 in", "1 in", PleatKind.Shallow, -1)]
    [InlineData("1 1/2 in", "1 in", PleatKind.Overlapping, 1)]
    public void Depth_against_width_names_the_pleat(string depth, string width, PleatKind kind, int againstThree)
    {
        var (deep, wide) = (Read(depth), Read(width));
        Assert.Equal(kind, Pleats.Classify(deep, wide));
        Assert.Equal(againstThree, Math.Sign(Pleats.Ratio(kind, deep, wide) - 3));
    }

    // Hapgood's plaiting model: first mark 1 in from the end, then every 1 1/2 in; the plaits come 1/2 in wide and meet.
    [Fact]
    [Trait("sure", "read")]
    public void Hapgoods_marks_stand_an_inch_and_a_half_apart()
    {
        var folds = new Pleats(PleatKind.Normal, 4, Read("2 in"), Read("1/2 in"), Length.Zero).Lines().Where(l => l.What == "fold").Select(l => l.Flat).ToList();
        Assert.All(folds.Zip(folds.Skip(1)), pair => Assert.Equal(Read("1 1/2 in"), pair.Second - pair.First));
    }

    // Baldt, Clothing for Women (1916), p. 401: side plaits take 1 1/2 to 2 1/2 times; depth 1/2 on 2, and 3/4 on 1, give her ends (derived).
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("1/2 in", "2 in", 1.5)]
    [InlineData("3/4 in", "1 in", 2.5)]
    public void Baldts_side_plaits_lie_between_her_two_figures(string depth, string width, double ratio) =>
        Assert.Equal((decimal)ratio, Pleats.Ratio(PleatKind.Shallow, Read(depth), Read(width)));

    // A modern machine instruction book: smocking takes three times its width; 5 in from 15.
    [Fact]
    [Trait("sure", "read")]
    public void A_smocked_panel_takes_three_times_its_width() =>
        Assert.Equal("15 in", Text(Of("smocking", """{"finished":"5 in","dot":"1/4 in","row":"1/4 in","rows":6}"""), "flat"));

    // Conover, A Complete Course in Dressmaking (1921-22), vol. 5, pp. 63-69: on the half, cloth 44, waist 14, hip 20, hem 27 1/2: to be pleated 30, 24, 16 1/2.
    [Fact]
    [Trait("sure", "read")]
    public void Conovers_skirt_has_thirty_inches_to_pleat_at_the_waist()
    {
        var levels = Of("kilted", """{"cloth":"44 in","pleats":8,"levels":[{"name":"waist","finished":"14 in"},{"name":"hip","finished":"20 in"},{"name":"hem","finished":"27 1/2 in"}]}""")["levels"]!.AsArray();
        Assert.Equal(["30 in", "24 in", "16 1/2 in"], levels.Select(l => Text(l!, "toPleat")));
        Assert.Equal("2 1/16 in", Text(levels[2]!, "each"));
    }

    // The same, p. 69, with 2 1/8 in set aside for the panel: 21 7/8 at the hips in 7 pleats is 3 1/8; 27 7/8 at the waist a little over 3 7/8.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("20 in", 3.125, 3.125)]
    [InlineData("14 in", 3.875, 4)]
    public void Conovers_seven_pleats_share_the_rest(string finished, double least, double most)
    {
        var each = Millimetres(Of("kilted", $$"""{"cloth":"41 7/8 in","pleats":7,"levels":[{"name":"level","finished":"{{finished}}"}]}""")["levels"]![0]!, "each") / 25.4m;
        Assert.InRange(each, (decimal)least, (decimal)most);
    }

    // The Cutter's Practical Guide (1898), p. 45: six times the waist, or 7 1/2 to 9 yards: they meet at waists of 45 and 54 in (derived).
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("45 in", "7 1/2 yd")]
    [InlineData("54 in", "9 yd")]
    public void A_kilts_two_rules_agree_only_for_large_waists(string waist, string yards) =>
        Assert.Equal(Read(yards).Millimetres, Millimetres(Of("kilted", $$"""{"cloth":"9 yd","pleats":20,"levels":[{"name":"waist","finished":"{{waist}}"}],"waist":"{{waist}}"}"""), "kiltCloth"));
}
