using System.Globalization;
using HeirloomArchive.Sewing.Language;
using HeirloomArchive.Support;

namespace HeirloomArchive.Search.Tests;

public sealed class TypedTests : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly GarmentIndex index;

    public TypedTests() => index = Indexes.Of(folder.Path,
        Indexes.Garment(1, """
            {"number":"G-014","name":"Nainsook baby dress","kind":"baby-dress","dated":"1908~","description":"A café scene worked in white, the edge 3/8 inch deep",
             "techniques":[
              {"id":"t1","kind":"tucks","tuckKind":"pin","part":"yoke","sewn":"hand","groups":[{"tucks":6,"width":{"mm":3.175,"text":"1/8 in"}}]},
              {"id":"t2","kind":"lace","lace":"torchon","part":"hem","laceMade":"hand","width":{"mm":19.05,"text":"3/4 in"}}]}
            """),
        Indexes.Garment(2, """
            {"number":"G-2","name":"Petticoat","kind":"petticoat","dated":"1921","techniques":[
              {"id":"t3","kind":"tucks","tuckKind":"pin","part":"skirt","sewn":"machine-chainstitch","groups":[{"tucks":6,"width":{"mm":6.35,"text":"1/4 in"}}]},
              {"id":"t4","kind":"lace","lace":"torchon","part":"yoke","laceMade":"machine"}],
             "description":"A grey colour, mercerised",
             "condition":[{"what":"foxing","part":"hem"},{"what":"tear","part":"yoke"}]}
            """),
        Indexes.Garment(3, """
            {"number":"G-10","name":"Christening robe & <i>sash</i>","story":{"text":"The pin tucks were made by hand on the yoke, torchon at the neck","sure":"likely"},
             "acquired":{"papers":"secretpaper"},"tags":["first lesson"]}
            """));

    public void Dispose()
    {
        index.Dispose();
        folder.Dispose();
    }

    [Theory]
    [InlineData("torchon on the yoke", "lace=torchon lacePart=yoke")]
    [InlineData("pin tucks by hand on a yoke, with torchon", "tuckKind=pin sewn=hand part=yoke lace=torchon")]
    [InlineData("Pin tucks by hand on a yoke, on a piece with torchon lace, before 1910", "tuckKind=pin sewn=hand part=yoke lace=torchon to=1909")]
    [InlineData("pintucks 1/8\"", "tuckKind=pin widthFrom=1/8 in widthTo=1/8 in")]
    [InlineData("torchon 3/4 in wide", "lace=torchon laceWidthFrom=3/4 in laceWidthTo=3/4 in")]
    [InlineData("handmade torchon insertion", "laceMade=hand lace=torchon laceForm=insertion")]
    [InlineData("foxing on the hem", "condition=foxing conditionPart=hem")]
    [InlineData("darn on a sleeve by hand", "repair=darn repairPart=sleeve repairSewn=hand")]
    [InlineData("christening gowns 1890-1900", "kind=christening-gown from=1890 to=1900")]
    [InlineData("1900s after 1902", "decade=1900s from=1903")]
    [InlineData("a quiet afternoon", "")]
    [InlineData("late 19th century petticoat", "from=1800 to=1899 kind=petticoat")]
    [InlineData("early 1900s", "decade=1900s")]
    [InlineData("petticoat -torchon", "kind=petticoat q=without torchon")]
    [InlineData("pin tucks without torchon on the yoke, by hand", "tuckKind=pin sewn=hand q=without torchon on the yoke")]
    [InlineData("1900s dress not by machine or torchon", "decade=1900s kind=dress q=without by machine q=without torchon")]
    public void What_is_typed_becomes_the_parameters_that_say_it(string typed, string said)
    {
        var understood = index.Ask("q=" + Uri.EscapeDataString(typed))["understood"]!.AsArray();
        Assert.Equal(said, string.Join(' ', understood.Select(u => $"{u!["parameter"]}={u["value"]}")));
        Assert.All(understood, u => Assert.Contains(u!["text"]!.GetValue<string>(), typed, StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_left_out_is_told_in_English_to_every_reader_for_it_can_be_typed_again()
    {
        var reader = CultureInfo.CurrentUICulture;
        CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(Languages.MadeUp);
        try
        {
            Assert.Equal("without torchon", index.Ask("q=petticoat -torchon")["understood"]!.AsArray()[^1]!["value"]!.GetValue<string>());
        }
        finally
        {
            CultureInfo.CurrentUICulture = reader;
        }
    }

    [Theory]
    [InlineData("pin tucks by hand on a yoke, with torchon", "G-014 G-10")]
    [InlineData("torchon on the yoke", "G-2 G-10")]
    [InlineData("pin tucks by hand on a yoke, on a piece with torchon lace, before 1910", "G-014")]
    [InlineData("machine tucks", "G-2")]
    [InlineData("foxing on the hem", "G-2")]
    [InlineData("tear on the hem", "")]
    public void Words_that_belong_together_hold_on_one_entry_or_are_told_of_the_piece(string typed, string numbers) =>
        Assert.Equal(numbers.Split(' ', StringSplitOptions.RemoveEmptyEntries).Order(), Numbers(typed).Order());

    [Theory]
    [InlineData("torch", "G-014 G-2 G-10")]
    [InlineData("christ", "G-10")]
    [InlineData("cafe", "G-014")]
    [InlineData("CAFÉS", "G-014")]
    [InlineData("baptismal gown", "G-10")]
    [InlineData("beggar's lace", "G-014 G-2 G-10")]
    [InlineData("\"worked in white\"", "G-014")]
    [InlineData("\"white in worked\"", "")]
    [InlineData("3/8\u2033 deep", "G-014")]
    [InlineData("9.525 mm", "G-014")]
    [InlineData("g-014", "G-014")]
    [InlineData("first lesson", "G-10")]
    [InlineData("secretpaper", "")]
    [InlineData("the", "G-014 G-10")]
    [InlineData("🎀", "")]
    [InlineData("-torchon", "")]
    [InlineData("pin tucks -torchon", "")]
    [InlineData("torchon -machine", "G-014 G-10")]
    [InlineData("torchon without foxing", "G-014 G-10")]
    [InlineData("pin tucks not by hand", "G-2")]
    [InlineData("torchon, no pin tucks on a skirt", "G-014 G-10")]
    [InlineData("torchon without pin tucks or foxing", "")]
    [InlineData("without \"worked in white\"", "G-2 G-10")]
    [InlineData("-\"worked in white\" -petticoat", "G-10")]
    [InlineData("mercerized gray color", "G-2")]
    [InlineData("mercerised grey colour", "G-2")]
    public void Half_words_accents_plurals_synonyms_phrases_and_measures_are_found(string typed, string numbers) =>
        Assert.Equal(numbers.Split(' ', StringSplitOptions.RemoveEmptyEntries).Order(), Numbers(typed).Order());

    [Fact]
    public void A_tolerance_widens_measures_that_were_typed()
    {
        Assert.Equal(["Nainsook baby dress"], index.Names("q=1/8 in tucks"));
        Assert.Equal(["Nainsook baby dress", "Petticoat"], index.Names("q=1/8 in tucks&tolerance=1/8 in&sort=name"));
    }

    [Fact]
    public void The_techniques_that_were_meant_are_named()
    {
        var item = index.Ask("q=torchon on the yoke")["items"]!.AsArray().Single(i => i!["number"]!.GetValue<string>() == "G-2")!;
        Assert.Equal(["t4"], item["techniques"]!.AsArray().Select(t => t!.GetValue<string>()));
    }

    [Fact]
    public void A_piece_with_the_chosen_words_stands_before_one_that_only_tells_of_them() =>
        Assert.Equal(["G-014", "G-10"], Numbers("pin tucks by hand on a yoke"));

    // The example that docs/finding.md explains.
    [Fact]
    public void Chosen_words_and_the_name_stand_before_what_is_only_told()
    {
        index.Put(Indexes.Garment(31, """{"name":"Petticoat","story":{"text":"made over from a christening robe, the torchon is new"}}"""), 1);
        index.Put(Indexes.Garment(32, """{"name":"Robe","techniques":[{"kind":"lace","lace":"torchon","part":"hem"}]}"""), 1);
        index.Put(Indexes.Garment(33, """{"name":"Christening robe with torchon","techniques":[{"kind":"lace","lace":"torchon","part":"hem"}]}"""), 1);
        Assert.Equal(["Christening robe with torchon", "Petticoat"], index.Names("q=torchon christening").Where(n => !n.Contains('<', StringComparison.Ordinal)));
    }

    [Fact]
    public void A_number_typed_whole_comes_first() => Assert.Equal("G-2", Numbers("G-2")[0]);

    [Fact]
    public void A_parameter_means_the_same_beside_typed_words()
    {
        Assert.Equal(["Petticoat"], index.Names("q=torchon&part=skirt"));
        Assert.Equal(["Petticoat"], index.Names("q=torchon&lacePart=yoke"));
    }

    [Theory]
    [InlineData("+ - && || ! ( ) { } [ ] ^ \" ~ * ? : \\ /")]
    [InlineData("title:foo AND (bar OR")]
    [InlineData("'; drop table garments; --")]
    [InlineData("\u202Eطرز \u200F שלום 刺繡")]
    [InlineData("\0\u0001\u001F\uFFFF")]
    [InlineData("\uD83C torchon \uDC00")]
    [InlineData("\"\"\"\"")]
    [InlineData("1/0 in 99999999999999999999 mm 1/8/8 in")]
    [InlineData("before 1000 before 0 0000s")]
    [InlineData("<script>alert(1)</script>")]
    public void Whatever_is_typed_gets_an_answer(string typed)
    {
        var answer = index.Ask("q=" + typed.Replace("&", "%26", StringComparison.Ordinal));
        Assert.InRange(answer["total"]!.GetValue<int>(), 0, 3);
        Assert.Equal(22, answer["facets"]!.AsObject().Count);
        Assert.NotNull(index.Suggest(typed));
    }

    [Theory]
    [InlineData("torchn", "G-014 G-2 G-10", "torchn>torchon")]
    [InlineData("torhcon on the yoke", "G-2 G-10", "torhcon>torchon yoke>yoke")]
    [InlineData("nainsok dress", "G-014", "nainsok>nainsook dress>dress")]
    [InlineData("petticote", "G-2", "petticote>petticoat")]
    [InlineData("qqqqqqq", "", "")]
    [InlineData("torchn qqqqqqq", "", "")]
    public void A_slip_of_the_key_is_put_right_when_nothing_is_found_and_that_is_said(string typed, string numbers, string said)
    {
        Assert.Equal(numbers.Split(' ', StringSplitOptions.RemoveEmptyEntries).Order(), Numbers(typed).Order());
        var understood = index.Ask("q=" + typed)["understood"]!.AsArray();
        Assert.All(understood, u => Assert.Contains(u!["text"]!.GetValue<string>(), typed, StringComparison.Ordinal));
        Assert.Equal(said.Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(s => s.Split('>')[0] != s.Split('>')[1]),
            understood.Where(u => u!["parameter"]!.GetValue<string>() == "q").Select(u => $"{u!["text"]}>{u["value"]}"));
    }

    [Theory]
    [InlineData("torchon")]
    [InlineData("\"worked in white\"")]
    [InlineData("hand")]
    [InlineData("dress")]
    [InlineData("nothing of the kind")]
    public void What_a_word_finds_is_what_leaving_it_out_leaves_out(string word)
    {
        var (all, with, without) = (Numbers(""), Numbers(word), Numbers($"-{word}"));
        Assert.True(word.Contains(' ', StringComparison.Ordinal) && word[0] != '"' || with.Length + without.Length == all.Length);
        Assert.Empty(with.Intersect(without));
    }

    [Fact]
    public void Two_thousand_characters_are_searched_and_one_more_is_refused()
    {
        Assert.Equal(0, index.Ask("q=" + string.Join(' ', Enumerable.Range(0, 400).Select(i => $"w{i:D3}")))["total"]!.GetValue<int>());
        var refused = Assert.Throws<Sewing.FaultException>(() => index.Ask("q=" + new string('x', 2_001)));
        Assert.Equal("q", refused.Faults.Single().Path);
    }

    [Fact]
    public void A_snippet_marks_what_was_asked_and_lets_no_markup_through()
    {
        var hostile = Indexes.Garment(9, """{"name":"Apron","description":"<script>alert('torchon')</script> & \"torchon\" lace"}""");
        index.Put(hostile, 1);
        var snippet = index.Ask("q=torchon alert script")["items"]!.AsArray().Single()!["snippet"]!.GetValue<string>();
        Assert.Contains("<mark>torchon</mark>", snippet, StringComparison.Ordinal);
        Assert.Contains("&lt;<mark>script</mark>&gt;", snippet, StringComparison.Ordinal);
        Assert.DoesNotContain('<', snippet.Replace("<mark>", "", StringComparison.Ordinal).Replace("</mark>", "", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("hiddenshop")]
    [InlineData("hiddenprice")]
    [InlineData("hiddenpaper")]
    [InlineData("hiddenshelf")]
    [InlineData("hiddenbox")]
    [InlineData("hiddenborrower")]
    public void What_is_private_makes_no_hit_no_snippet_no_count_no_suggestion_and_mends_no_slip(string secret)
    {
        index.Put(Indexes.Garment(20, """
            {"name":"Bib","acquired":{"from":"hiddenshop","price":"hiddenprice","papers":"hiddenpaper"},"place":{"shelf":"hiddenshelf","box":"hiddenbox"},
             "whereabouts":{"is":"lent","to":"hiddenborrower"}}
            """), 1);
        Assert.Empty(index.Ask($"q={secret}")["items"]!.AsArray());
        Assert.Empty(index.Ask($"q={secret[..^1]}")["items"]!.AsArray());
        Assert.Empty(index.Ask($"q={secret[..^2]}x{secret[^1]}")["items"]!.AsArray());
        Assert.DoesNotContain("hidden", index.Ask("q=bib").ToJsonString(), StringComparison.Ordinal);
        Assert.DoesNotContain("hidden", index.Suggest(secret[..8]).ToJsonString(), StringComparison.Ordinal);
        Assert.DoesNotContain("hidden", index.LikeGarment(Guid.Empty, Indexes.Garment(21, """{"name":"Bib"}"""), 10).ToJsonString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("(a+)+$ (a|aa)+$ ([a-z]*)*x")]
    [InlineData("a* a? .* [^a]* ^.*$ ~0.0001 {1,100000}")]
    [InlineData("1/1/1/1/1/1/1/1/1/1/1/1/1/1/1 in 1.1.1.1.1.1.1.1 mm 1900-1900-1900-1900-1900")]
    public void Patterns_are_words_and_are_answered_at_any_length(string bomb)
    {
        var typed = string.Concat(Enumerable.Repeat(bomb + " ", 90))[..1_990];
        Assert.NotNull(index.Ask("q=" + Uri.EscapeDataString(typed))["total"]);
        Assert.NotNull(index.Ask("q=" + Uri.EscapeDataString("-" + typed.Replace(" ", "", StringComparison.Ordinal)))["total"]);
    }

    [Fact]
    public void Suggestions_complete_the_last_word_with_words_of_the_trade()
    {
        Assert.Contains(index.Suggest("pin tucks with torch"), s => s!["parameter"]!.GetValue<string>() == "lace" && s["value"]!.GetValue<string>() == "torchon");
        Assert.Contains(index.Suggest("irish cr"), s => s!["value"]!.GetValue<string>() == "irish-crochet");
        Assert.Empty(index.Suggest(""));
    }

    private string[] Numbers(string typed) =>
        [.. index.Ask("q=" + typed)["items"]!.AsArray().Select(i => i!["number"]!.GetValue<string>())];
}
