using System.Net;
using System.Net.Http.Json;
using HeirloomArchive.Support;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;

namespace HeirloomArchive.Web.Tests.Access;

/// <summary>How often one may ask of a shared archive, and how long one request may take.</summary>
public sealed class LimitsTests(PostgresServer postgres, ArchiveHost alone) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Who_asks_too_often_is_told_when_to_come_back_and_everybody_else_is_answered()
    {
        await using var house = new Household(postgres);
        await house.InitializeAsync();
        var answered = await UntilRefused(() => house.As("pupil").GetAsync("/api/suggest?q=t", Stop));
        Assert.True(answered >= 240, $"only {answered} questions a minute");
        // Another person from the same place, and what else she does.
        Assert.Equal(HttpStatusCode.OK, (await house.As("keeper").GetAsync("/api/suggest?q=t", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await house.As("pupil").GetAsync("/api/garments", Stop)).StatusCode);
    }

    [Fact]
    public async Task Ways_in_are_counted_by_address_and_who_is_in_goes_on()
    {
        await using var house = new Household(postgres);
        await house.InitializeAsync();
        using var client = house.New();
        var answered = await UntilRefused(() => client.PostAsJsonAsync("/api/account/join", new { code = "abcd-efgh", name = "Some", password = Household.Password }, Stop));
        Assert.True(answered >= 20, $"only {answered} tries a minute");
        Assert.Equal(HttpStatusCode.TooManyRequests, (await house.As("pupil").PostAsJsonAsync("/api/account/sign-in", new { name = "Polly", password = Household.Password }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await house.As("pupil").GetAsync("/api/account", Stop)).StatusCode);
    }

    [Fact]
    public async Task One_person_on_her_own_machine_is_not_limited()
    {
        Assert.Null(alone.Services.GetRequiredService<IOptions<RateLimiterOptions>>().Value.GlobalLimiter);
        for (var i = 0; i < 260; i++) Assert.Equal(HttpStatusCode.OK, (await alone.Client.GetAsync("/api/suggest?q=t", Stop)).StatusCode);
    }

    [Fact]
    public async Task A_request_that_takes_longer_than_it_may_is_given_up()
    {
        // A minute passes in ten seconds.
        await using var house = new Household(postgres) { Instead = services => services.AddSingleton<TimeProvider>(new FastClock(6)) };
        await house.InitializeAsync();
        using var body = new Dribbling();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/garments") { Content = body };
        var sent = house.As("keeper").SendAsync(request, Stop);
        // She may take a minute, which is ten seconds here; the drops would come for two.
        try
        {
            using var answer = await sent.WaitAsync(TimeSpan.FromSeconds(100), Stop);
            Assert.False(answer.IsSuccessStatusCode);
        }
        catch (HttpRequestException)
        {
            // Or the connection is cut.
        }

        Assert.Equal(HttpStatusCode.OK, (await house.As("keeper").GetAsync("/api/garments", Stop)).StatusCode);
    }

    /// <summary>Asks until it is refused; how many were answered before.</summary>
    private static async Task<int> UntilRefused(Func<Task<HttpResponseMessage>> ask)
    {
        for (var answered = 0; answered < 3000; answered++)
        {
            using var answer = await ask();
            if (answer.StatusCode != HttpStatusCode.TooManyRequests) continue;
            Assert.True(answer.Headers.RetryAfter?.Delta > TimeSpan.Zero);
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
            return answered;
        }

        Assert.Fail("It was never refused.");
        return 0;
    }

    private sealed class FastClock(int times) : TimeProvider
    {
        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
            base.CreateTimer(callback, state, dueTime > TimeSpan.Zero ? dueTime / times : dueTime, period > TimeSpan.Zero ? period / times : period);
    }

    /// <summary>A body above Kestrel's least rate, without end for two minutes.</summary>
    private sealed class Dribbling : HttpContent
    {
        public Dribbling() => Headers.ContentType = new("application/json");

        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            for (var i = 0; i < 240; i++)
            {
                await stream.WriteAsync(new byte[1024].AsMemory());
                await stream.FlushAsync();
                await Task.Delay(500);
            }
        }

        protected override bool TryComputeLength(out long length)
        {
            length = 0;
            return false;
        }
    }
}
