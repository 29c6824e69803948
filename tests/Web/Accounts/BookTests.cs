using System.Net;
using System.Net.Http.Json;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Accounts;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Accounts;

/// <summary>The book is only ever added to, whoever asks and by whichever way.</summary>
public sealed class BookTests(Household house) : IClassFixture<Household>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("DELETE FROM archive.mt_doc_account_book")]
    [InlineData("UPDATE archive.mt_doc_account_book SET data = data || '{\"Who\": \"Somebody\"}'")]
    [InlineData("TRUNCATE archive.mt_doc_account_book")]
    public async Task The_database_refuses_to_change_or_remove_a_line(string statement)
    {
        var book = house.Host.Services.GetRequiredService<Book>();
        var before = (await book.Page(1, 1, Stop)).Total;
        Assert.True(before > 0);
        await using var source = NpgsqlDataSource.Create(house.Host.ConnectionString);
        await using var command = source.CreateCommand(statement);
        var refused = await Assert.ThrowsAsync<PostgresException>(() => command.ExecuteNonQueryAsync(Stop));
        Assert.Equal("The book is only ever added to.", refused.MessageText);
        Assert.True((await book.Page(1, 1, Stop)).Total >= before);
    }

    [Fact]
    public async Task No_route_does_anything_but_read_it_and_only_the_owner_may()
    {
        Assert.All(Matrix.Rows.Where(r => r.Route.Contains("book", StringComparison.Ordinal)), r => Assert.True(r is { Method: "GET", Least: Role.Owner }, r.ToString()));
        foreach (var method in new[] { HttpMethod.Delete, HttpMethod.Put, HttpMethod.Post, HttpMethod.Patch })
        {
            using var answer = await house.As("owner").SendAsync(new(method, "/api/account/book"), Stop);
            Assert.Equal(HttpStatusCode.MethodNotAllowed, answer.StatusCode);
        }
    }

    [Fact]
    public async Task What_was_refused_and_who_failed_to_come_in_stand_in_it_with_when_and_from_where()
    {
        using var pupil = await house.Join("pupil", "Pegeen");
        Assert.Equal(HttpStatusCode.Forbidden, (await pupil.PostAsJsonAsync("/api/garments", new { name = "x" }, Stop)).StatusCode);
        using var nobody = house.New();
        await nobody.PostAsJsonAsync("/api/account/sign-in", new { name = "Nobody\nSomebody signed in", password = "wrong wrong wrong" }, Stop);
        var lines = (await house.Host.Services.GetRequiredService<Book>().Page(1, 100, Stop)).Lines;
        var refused = lines.Single(l => l is { Who: "Pegeen", What: Deeds.Refused });
        Assert.Equal(("POST /api/garments", "127.0.0.1", TimeSpan.Zero), (refused.About, refused.From, refused.When.Offset));
        // A name with a line break in it is one line of the book all the same.
        Assert.Single(lines, l => l.What == Deeds.Failed && l.Who.StartsWith("Nobody\n", StringComparison.Ordinal));
        Assert.DoesNotContain("wrong wrong wrong", string.Join(' ', lines.Select(l => l.Who + l.About)), StringComparison.Ordinal);
    }
}
