using JasperFx.Events.Daemon;
using JasperFx.Events.Projections;
using Marten;
using Marten.Subscriptions;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Search;

/// <summary>Registers the room: the index of a folder, and the follower that keeps it.</summary>
public static class SearchRoom
{
    /// <summary>The host adds Marten with its daemon: the follower reads up to the mark that the daemon moves.</summary>
    /// <param name="services">The host's.</param>
    /// <param name="folder">The index's own; made when missing.</param>
    public static IServiceCollection AddSearch(this IServiceCollection services, string folder)
    {
        services.ConfigureMarten(o => o.Projections.Subscribe(new MarkMover(), options =>
        {
            options.Name = "search-mark";
            options.IncludeType<MarkMover.NoEvent>();
        }));
        return services
            .AddSingleton(provider => GarmentIndex.Open(folder, provider.GetService<TimeProvider>()))
            .AddSingleton<IndexFollower>()
            .AddHostedService(provider => provider.GetRequiredService<IndexFollower>());
    }

    /// <summary>Marten's daemon moves its high-water mark only while it has something to run: this asks for no event at all.</summary>
    private sealed class MarkMover : SubscriptionBase
    {
        public override Task<IChangeListener> ProcessEventsAsync(
            EventRange page, ISubscriptionController controller, IDocumentOperations operations, CancellationToken cancellationToken) =>
            Task.FromResult<IChangeListener>(NullChangeListener.Instance);

        /// <summary>An event that nobody appends.</summary>
        public sealed record NoEvent;
    }
}
