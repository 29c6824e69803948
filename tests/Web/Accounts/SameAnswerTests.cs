using System.Net;
using System.Net.Http.Json;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Accounts;
using Marten;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;

namespace HeirloomArchive.Web.Tests.Accounts;

/// <summary>
/// Nobody finds out by answer or by time which names there are. Time is what the hashing takes, so its calls are counted, not its
/// milliseconds; those are in the benchmarks (<c>sign-in</c>).
/// </summary>
public sealed class SameAnswerTests(PostgresServer postgres) : IAsyncLifetime
{
    private readonly Count count = new();
    private Household house = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        house = new Household(postgres) { Instead = services => services.AddSingleton(count).AddScoped<IPasswordHasher<Person>, Counting>() };
        await house.InitializeAsync();
    }

    public ValueTask DisposeAsync() => house.DisposeAsync();

    [Fact]
    public async Task A_wrong_password_an_unknown_name_one_without_a_password_and_one_who_left_cost_the_same_and_hear_the_same()
    {
        using var passkeyOnly = await house.Join("pupil", "Pia");
        using var gone = await house.Join("pupil", "Gwen");
        await Change("PIA", p => p.PasswordHash = null);
        await Change("GWEN", p => p.Left = DateTimeOffset.UtcNow);
        using var client = house.New();
        async Task<(HttpStatusCode, string, int, int)> Try(string name)
        {
            var (verified, hashed) = (count.Verified, count.Hashed);
            using var answer = await client.PostAsJsonAsync("/api/account/sign-in", new { name, password = "wrong wrong wrong" }, Stop);
            return (answer.StatusCode, Plain(await answer.Content.ReadAsStringAsync(Stop)), count.Verified - verified, count.Hashed - hashed);
        }

        // The very first try after a start makes the hash of nobody, whoever's it is.
        await Try("Kitty");
        var known = await Try("Kitty");
        Assert.Equal(HttpStatusCode.Unauthorized, known.Item1);
        Assert.Equal((1, 0), (known.Item3, known.Item4));
        foreach (var name in new[] { "Nobody of this name", "Pia", "Gwen" }) Assert.Equal(known, await Try(name));
    }

    [Fact]
    public async Task A_wrong_recovery_code_costs_and_hears_the_same_whether_the_name_is_known_or_not()
    {
        using var client = house.New();
        async Task<(HttpStatusCode, string, int, int)> Try(string name)
        {
            var (verified, hashed) = (count.Verified, count.Hashed);
            using var answer = await client.PostAsJsonAsync("/api/account/recover", new { name, code = "abcd-efgh", password = "a wholly new one for somebody" }, Stop);
            return (answer.StatusCode, Plain(await answer.Content.ReadAsStringAsync(Stop)), count.Verified - verified, count.Hashed - hashed);
        }

        var known = await Try("Kitty");
        Assert.Equal(HttpStatusCode.Unauthorized, known.Item1);
        Assert.Equal((0, 1), (known.Item3, known.Item4));
        Assert.Equal(known, await Try("Nobody of this name"));
    }

    [Fact]
    public void A_password_is_hashed_as_often_as_the_published_advice_asks()
    {
        // OWASP's cheat sheet on password storage: PBKDF2 with HMAC-SHA512, 210 000 rounds.
        Assert.True(house.Host.Services.GetRequiredService<IOptions<PasswordHasherOptions>>().Value.IterationCount >= 210_000);
        using var scope = house.Host.Services.CreateScope();
        var hash = Convert.FromBase64String(scope.ServiceProvider.GetRequiredService<IPasswordHasher<Person>>().HashPassword(new(), Household.Password));
        // Identity's format 3: the function (2: HMAC-SHA512) and the rounds stand in front.
        Assert.Equal((1, 2u, 210_000u), (hash[0], System.Buffers.Binary.BinaryPrimitives.ReadUInt32BigEndian(hash.AsSpan(1)), System.Buffers.Binary.BinaryPrimitives.ReadUInt32BigEndian(hash.AsSpan(5))));
    }

    private async Task Change(string name, Action<Person> change)
    {
        await using var session = house.Host.Services.GetRequiredService<IDocumentStore>().LightweightSession();
        var person = await session.Query<Person>().SingleAsync(p => p.NormalizedName == name, Stop);
        change(person);
        session.Store(person);
        await session.SaveChangesAsync(Stop);
    }

    // Every answer has a number of its own.
    private static string Plain(string problem) => System.Text.RegularExpressions.Regex.Replace(problem, "\"traceId\":\"[^\"]*\"", "");

    private sealed class Count
    {
        public int Verified, Hashed;
    }

    private sealed class Counting(IOptions<PasswordHasherOptions> options, Count count) : PasswordHasher<Person>(options)
    {
        public override string HashPassword(Person user, string password)
        {
            Interlocked.Increment(ref count.Hashed);
            return base.HashPassword(user, password);
        }

        public override PasswordVerificationResult VerifyHashedPassword(Person user, string hashedPassword, string providedPassword)
        {
            Interlocked.Increment(ref count.Verified);
            return base.VerifyHashedPassword(user, hashedPassword, providedPassword);
        }
    }
}
