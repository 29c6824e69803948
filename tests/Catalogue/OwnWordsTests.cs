using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Support;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>Her own words, over a real database.</summary>
public sealed class OwnWordsTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>, IAsyncDisposable
{
    private readonly OwnWords own = new(fixture.Store, TimeProvider.System, NullLogger<OwnWords>.Instance);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await own.StopAsync(CancellationToken.None);
        own.Dispose();
    }

    [Fact]
    public async Task A_word_that_was_made_can_be_recorded()
    {
        var word = await Make("laces", """{"label":"Ladder lace","definition":"A lace of ladders.","synonyms":["rung lace","Rung  Lace"],"broader":"bobbin"}""");
        Assert.Equal("laces/ladder-lace", word.Id);
        Assert.Equal(["rung lace"], word.Synonyms);
        Assert.Equal("ladder-lace", Words.Meant("laces", "Rung lace"));
        var saved = await fixture.Enter("""{"name":"Collar","techniques":[{"kind":"lace","lace":"ladder-lace"}]}""");
        Assert.Equal("ladder-lace", saved.Garment.Fields["techniques"]![0]!["lace"]!.GetValue<string>());
    }

    [Fact]
    public async Task A_technique_of_her_own_has_the_fields_of_all_techniques_only()
    {
        await Make("techniques", """{"label":"Knotted hemming"}""");
        await fixture.Enter("""{"name":"Cap","techniques":[{"kind":"knotted-hemming","part":"hem"}]}""");
        var refused = await Assert.ThrowsAsync<FaultException>(() => fixture.Enter("""{"name":"Cap","techniques":[{"kind":"knotted-hemming","width":"1 in"}]}"""));
        Assert.Equal("techniques[0].width", refused.Faults.Single().Path);
    }

    [Theory]
    [InlineData("""{"label":"Torchon"}""")]
    [InlineData("""{"label":"Beggar’s lace"}""")]
    [InlineData("""{"label":"TORCHON  lace"}""")]
    [InlineData("""{"label":"Something else","synonyms":["val-lace"]}""")]
    public async Task A_name_that_means_something_already_is_refused(string sent) =>
        Assert.Contains("already", (await Assert.ThrowsAsync<WordConflictException>(() => Make("laces", sent))).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("""{}""", "label", false)]
    [InlineData("""{"label":"  "}""", "label", false)]
    [InlineData("""{"label":5}""", "label", true)]
    [InlineData("""{"label":"a","colour":"white"}""", "colour", true)]
    [InlineData("""{"label":"a b c","broader":"torchn"}""", "broader", false)]
    [InlineData("""{"label":"a\nb"}""", "label", false)]
    [InlineData("""{"label":"a","synonyms":"b"}""", "synonyms", true)]
    public async Task What_makes_no_sense_names_its_field(string sent, string path, bool unreadable)
    {
        var refused = await Assert.ThrowsAsync<FaultException>(() => Make("laces", sent));
        Assert.Equal((path, unreadable), (refused.Faults[0].Path, refused.Unreadable));
    }

    [Fact]
    public async Task A_facet_that_there_is_not_is_not_found() =>
        Assert.Contains("laces", (await Assert.ThrowsAsync<NotFoundException>(() => Make("lacs", """{"label":"a"}"""))).Message, StringComparison.Ordinal);

    [Fact]
    public async Task A_merged_word_counts_as_the_other_and_set_apart_again_as_itself()
    {
        await Make("laces", """{"label":"Spider edging","synonyms":["spidery edging"]}""");
        await Make("laces", """{"label":"Web edging"}""");
        await own.Merge("laces", "web-edging", "spider-edging", "teacher", Stop);
        await own.Merge("laces", "spider-edging", "teneriffe", "teacher", Stop);
        Assert.Equal("teneriffe", Words.Meant("laces", "web-edging"));
        Assert.Equal("teneriffe", Words.Meant("laces", "Spidery edging"));
        Assert.Equal("Web edging", Words.Label("laces", "web-edging"));
        Assert.Superset(new HashSet<string> { "Web edging", "Spider edging", "spidery edging" }, Words.Find("laces", "teneriffe")!.Synonyms.ToHashSet());
        Assert.DoesNotContain(Words.In("laces"), w => w.Slug is "web-edging" or "spider-edging");

        await own.Unmerge("laces", "spider-edging", "teacher", Stop);
        Assert.Equal("spider-edging", Words.Meant("laces", "web-edging"));
        Assert.DoesNotContain("Spider edging", Words.Find("laces", "teneriffe")!.Synonyms);
        await own.Unmerge("laces", "web-edging", "teacher", Stop);
        Assert.Equal("web-edging", Words.Meant("laces", "web-edging"));
    }

    [Fact]
    public async Task Words_are_never_merged_or_set_below_each_other_in_a_ring()
    {
        await Make("motifs", """{"label":"Upper ring"}""");
        await Make("motifs", """{"label":"Lower ring","broader":"upper-ring"}""");
        await Assert.ThrowsAsync<FaultException>(() => own.Change("motifs", "upper-ring", Json("""{"label":"Upper ring","broader":"lower-ring"}"""), "teacher", Stop));
        await own.Merge("motifs", "lower-ring", "upper-ring", "teacher", Stop);
        Assert.Equal("into", (await Assert.ThrowsAsync<FaultException>(() => own.Merge("motifs", "upper-ring", "lower-ring", "teacher", Stop))).Faults[0].Path);
        Assert.Equal("into", (await Assert.ThrowsAsync<FaultException>(() => own.Merge("motifs", "upper-ring", "upper-ring", "teacher", Stop))).Faults[0].Path);
        Assert.Null(Words.Find("motifs", "upper-ring")!.Broader);
    }

    [Fact]
    public async Task What_was_said_before_is_kept()
    {
        await Make("parts", """{"label":"Wing piece"}""");
        await own.Change("parts", "wing-piece", Json("""{"label":"Wing","definition":"Stands out at the shoulder."}"""), "teacher", Stop);
        await own.Change("parts", "wing-piece", Json("""{"label":"Wing","definition":"Stands out at the shoulder."}"""), "teacher", Stop);
        await using var session = fixture.Store.QuerySession();
        var kept = (await session.LoadAsync<OwnWord>("parts/wing-piece", Stop))!;
        Assert.Equal(("Wing", "Wing piece"), (kept.Now.Label, kept.Before.Single().Said.Label));
        Assert.Equal("Wing", Words.Label("parts", "wing-piece"));
    }

    [Fact]
    public async Task Only_a_word_that_nothing_ever_had_is_taken_away()
    {
        await Make("cloth", """{"label":"Cobweb lawn"}""");
        await Make("cloth", """{"label":"Mist lawn"}""");
        var saved = await fixture.Enter("""{"name":"Dress","materials":[{"word":"cobweb-lawn"}]}""");
        await fixture.Archive.Change(saved.Garment.Id, 1, Json("""{"materials":[{"word":"lawn"}]}"""), "teacher", Stop);
        Assert.Contains("history", (await Assert.ThrowsAsync<WordConflictException>(() => own.Remove("cloth", "cobweb-lawn", Stop))).Message, StringComparison.Ordinal);
        await own.Remove("cloth", "mist-lawn", Stop);
        Assert.Null(Words.Find("cloth", "mist-lawn"));
        await Assert.ThrowsAsync<WordConflictException>(() => own.Remove("cloth", "lawn", Stop));
        await Assert.ThrowsAsync<NotFoundException>(() => own.Remove("cloth", "fog-lawn", Stop));
    }

    [Fact]
    public async Task Of_many_who_make_the_same_word_at_once_one_does()
    {
        var made = await Task.WhenAll(Enumerable.Range(0, 16).Select(async _ =>
        {
            try
            {
                await Make("seams", """{"label":"Braided seam"}""");
                return 1;
            }
            catch (WordConflictException)
            {
                return 0;
            }
        }));
        Assert.Equal(1, made.Sum());
    }

    [Fact]
    public async Task Another_node_hears_of_a_word_by_itself()
    {
        using var other = new OwnWords(fixture.Store, TimeProvider.System, NullLogger<OwnWords>.Instance);
        await Make("views", """{"label":"Under glass"}""");
        await own.StopAsync(CancellationToken.None);
        Assert.Null(Words.Find("views", "under-glass"));
        await other.StartAsync(Stop);
        try
        {
            Assert.NotNull(Words.Find("views", "under-glass"));
            await using (var session = fixture.Store.LightweightSession())
            {
                session.Insert(new OwnWord { Id = "views/under-water", Now = new("Under water", "", [], null, null), Who = "teacher" });
                await session.SaveChangesAsync(Stop);
            }

            for (var tries = 0; tries < 100 && Words.Find("views", "under-water") is null; tries++)
            {
                await Task.Delay(100, Stop);
            }

            Assert.NotNull(Words.Find("views", "under-water"));
        }
        finally
        {
            await other.StopAsync(CancellationToken.None);
        }
    }

    [Fact]
    public async Task Whoever_gives_up_waiting_for_another_writer_leaves_no_transaction_behind()
    {
        await using (var other = fixture.Store.LightweightSession())
        {
            await other.BeginTransactionAsync(Stop);
            await other.ExecuteAsync(new NpgsqlCommand("select pg_advisory_xact_lock(hashtext('archive_own_words'))"), Stop);
            using var patience = new CancellationTokenSource(300);
            await Assert.ThrowsAnyAsync<Exception>(() => own.Add("laces", Json("""{"label":"Given up lace"}"""), "teacher", patience.Token));
        }

        for (var tries = 0; tries < 50 && await Left() > 0; tries++)
        {
            await Task.Delay(100, Stop);
        }

        Assert.Equal(0, await Left());

        async Task<int> Left()
        {
            await using var session = fixture.Store.QuerySession();
            return (await session.AdvancedSql.QueryAsync<int>("select count(*)::int from pg_stat_activity where datname = current_database() and state like 'idle in transaction%'", Stop))[0];
        }
    }

    [Fact]
    public async Task What_was_read_before_a_word_was_made_does_not_take_it_away_again()
    {
        using var reached = new ManualResetEventSlim();
        using var goOn = new ManualResetEventSlim();
        var first = 1;
        var watch = new CommandWatch();
        await using var store = fixture.Another(o => o.Logger(watch));
        using var node = new OwnWords(store, TimeProvider.System, NullLogger<OwnWords>.Instance);
        await node.Refresh(Stop);
        watch.After = sql =>
        {
            if (sql.Contains("mt_doc_ownword", StringComparison.Ordinal) && Interlocked.Exchange(ref first, 0) == 1)
            {
                reached.Set();
                goOn.Wait(TimeSpan.FromSeconds(30));
            }
        };
        var early = Task.Run(() => node.Refresh(Stop), Stop);
        Assert.True(reached.Wait(TimeSpan.FromSeconds(30), Stop));
        var made = node.Add("trims", Json("""{"label":"Late braid"}"""), "teacher", Stop);
        await Task.WhenAny(made, Task.Delay(1_000, Stop));
        goOn.Set();
        await early;
        await made;
        Assert.NotNull(Words.Find("trims", "late-braid"));
        await node.StopAsync(CancellationToken.None);
    }

    [Theory]
    [InlineData("Irish crochet, Áine's", "irish-crochet-aines")]
    [InlineData("No. 5 lace", "no-5-lace")]
    public void A_slug_is_made_of_the_letters_of_the_label(string label, string slug) => Assert.Equal(slug, OwnWord.SlugOf(label));

    [Fact]
    public void A_label_in_another_script_gets_a_slug_of_its_own() =>
        Assert.Matches("^word-[0-9a-f]{8}$", OwnWord.SlugOf("תחרה"));

    private Task<Word> Make(string facet, string json) => own.Add(facet, Json(json), "teacher", Stop);

    private static JsonObject Json(string json) => ArchiveFixture.Json(json);
}
