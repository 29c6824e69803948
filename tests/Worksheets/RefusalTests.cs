using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Tests;

public class RefusalTests
{
    [Theory]
    [InlineData("""{"wibble":1}""", "wibble")]
    [InlineData("""{"allow":{"left":"1 in"}}""", "allow.left")]
    [InlineData("""{"allow":{"start":"1"}}""", "allow.start")]
    [InlineData("""{"cloth":{"width":5}}""", "cloth.width")]
    [InlineData("""{"cloth":"lawn"}""", "cloth")]
    [InlineData("""{"landscape":"yes"}""", "landscape")]
    [InlineData("""{"alike":"three"}""", "alike")]
    [InlineData("""{"trims":{}}""", "trims")]
    [InlineData("""{"trims":[{"edge":"1 in","width":1}]}""", "trims[0].width")]
    [InlineData("""{"techniques":[7]}""", "techniques[0]")]
    [InlineData("""{"garment":"not an id"}""", "garment")]
    [InlineData("""{"title":5}""", "title")]
    [InlineData("""{"plan":{"groups":[{"tucks":2,"width":"1/8"}]}}""", "plan.groups[0].width")]
    public void What_cannot_be_read_is_named(string more, string path) => Refused(more, path, unreadable: true);

    [Theory]
    [InlineData("""{"paper":"A5"}""", "paper")]
    [InlineData("""{"unit":"cm"}""", "unit")]
    [InlineData("""{"alike":0}""", "alike")]
    [InlineData("""{"allow":{"top":"-1 in"}}""", "allow.top")]
    [InlineData("""{"cloth":{"width":"0 in"}}""", "cloth.width")]
    [InlineData("""{"trims":[{"width":"1 in"}]}""", "trims[0].edge")]
    [InlineData("""{"trims":[{"edge":"9 in","corners":4}]}""", "trims[0].width")]
    [InlineData("""{"trims":[{"edge":"9 in","fullness":0.5}]}""", "trims[0].fullness")]
    [InlineData("""{"technique":"pin"}""", "technique")]
    [InlineData("""{"garment":"018f3c3e-0000-7000-8000-000000000014","techniques":["pin","nothing"]}""", "techniques[1]")]
    [InlineData("""{"garment":"018f3c3e-0000-7000-8000-000000000014","techniques":["pin","pin"]}""", "techniques[1]")]
    [InlineData("""{"plan":{"groups":[{"tucks":2,"width":"-1/8 in","space":"1 in"}]}}""", "plan.groups[0].width")]
    [InlineData("""{"plan":null}""", "onto")]
    [InlineData("""{"onto":{"finished":"9 in","tucks":{"from":1,"to":1},"width":{"from":"1 in","to":"1 in"},"ends":{"from":"0 in","to":"9 in"},"finest":"1/16 in"}}""", "plan")]
    [InlineData("""{"plan":null,"onto":{"tucks":{"from":1,"to":1},"width":{"from":"1 in","to":"1 in"},"ends":{"from":"0 in","to":"9 in"},"finest":"1/16 in"}}""", "onto.finished")]
    [InlineData("""{"title":"a bell \u0007"}""", "title")]
    public void What_makes_no_sense_is_named(string more, string path) => Refused(more, path, unreadable: false);

    [Fact] public void All_faults_come_at_once()
    {
        var e = Assert.Throws<FaultException>(() => Examples.Made(Examples.Five("""{"wibble":1,"paper":"A5","cloth":{"width":"0 in"},"trims":[{}]}""")));
        Assert.Equal(["cloth.width", "paper", "trims[0].edge", "wibble"], e.Faults.Select(f => f.Path).Order(StringComparer.Ordinal));
    }

    private static void Refused(string more, string path, bool unreadable)
    {
        var e = Assert.Throws<FaultException>(() => Examples.Made(Examples.Five(more)));
        var fault = Assert.Single(e.Faults);
        Assert.Equal(path, fault.Path);
        Assert.Equal(unreadable, e.Unreadable);
    }
}
