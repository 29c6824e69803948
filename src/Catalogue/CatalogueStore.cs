using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Catalogue.Questions;
using JasperFx.Events;
using JasperFx.Events.Projections;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Weasel.Core;

namespace HeirloomArchive.Catalogue;

/// <summary>How the record is kept in PostgreSQL by Marten.</summary>
public static class CatalogueStore
{
    /// <summary>The schema of documents.</summary>
    public const string Schema = "archive";

    /// <summary>The schema of events.</summary>
    public const string EventSchema = "archive_events";

    /// <summary>
    /// Sets a store up for the record. The host names the data source and applies the schema; the log category
    /// <c>Marten.IDocumentStore</c> is to be filtered there, for it tells parameter values.
    /// </summary>
    public static void Configure(StoreOptions o)
    {
        o.DatabaseSchemaName = Schema;
        o.UseSystemTextJsonForSerialization(EnumStorage.AsString, Casing.CamelCase);

        o.Events.DatabaseSchemaName = EventSchema;
        o.Events.StreamIdentity = StreamIdentity.AsGuid;
        // The quick modes leave version and sequence out of what the inline snapshot sees.
        o.Events.AppendMode = EventAppendMode.Rich;
        o.Events.UseMandatoryStreamTypeDeclaration = true;
        // One look at the snapshot for deciding and folding; nothing outside the projection changes what was fetched.
        o.Events.UseIdentityMapForAggregates = true;
        o.Events.UseListenNotifyForEventAppends = true;
        o.Events.MetadataConfig.EnableAll();
        o.Events.MetadataConfig.UserNameEnabled = true;

        // The stored names of the event types: for ever, whatever the classes are called.
        o.Events.MapEventType<GarmentEntered>("garment_entered");
        o.Events.MapEventType<GarmentChanged>("garment_changed");
        o.Events.MapEventType<EntryAdded>("entry_added");
        o.Events.MapEventType<EntryChanged>("entry_changed");
        o.Events.MapEventType<EntryRemoved>("entry_removed");
        o.Events.MapEventType<PicturesAdded>("pictures_added");
        o.Events.MapEventType<GarmentSetAside>("garment_set_aside");
        o.Events.MapEventType<GarmentBroughtBack>("garment_brought_back");
        o.Events.MapEventType<VersionPutBack>("version_put_back");
        o.Events.MapEventType<GarmentShownToVisitors>("garment_shown_to_visitors");
        o.Events.MapEventType<GarmentHiddenFromVisitors>("garment_hidden_from_visitors");

        o.Projections.Add<GarmentProjection>(ProjectionLifecycle.Inline);
        o.Schema.For<Garment>().Duplicate(g => g.IsAside).Duplicate(g => g.IsForVisitors)
            .Duplicate(g => g.Care.Urgency).Duplicate(g => g.Care.Due!).Duplicate(g => g.Care.HoursOfLight!);
        o.Schema.For<NumberReservation>().Duplicate(n => n.Pattern).Duplicate(n => n.Place).Index(n => new { n.Pattern, n.Place });
        ListedPiece.Configure(o);
        ManyStore.Configure(o);
        o.Schema.For<PictureOwner>().Index(p => p.Garment);
        o.Schema.For<OwnWord>();
        o.Schema.For<Draft>();
        o.Schema.For<Lesson>().Duplicate(l => l.IsAway).Duplicate(l => l.IsShared);
        o.Schema.For<LessonVersion>().Index(v => v.Lesson);
        o.Schema.For<Question>().Index(q => q.Owner);
    }

    /// <summary>Registers the room's door; the host adds Marten with <see cref="Configure"/>.</summary>
    public static IServiceCollection AddCatalogue(this IServiceCollection services)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.TryAddSingleton<Archive>();
        services.TryAddSingleton<Drafts>();
        services.TryAddSingleton<CareLists>();
        services.TryAddSingleton<Past>();
        services.TryAddSingleton<PieceList>();
        services.AddHostedService<ListFilling>();
        services.AddSingleton<ManyAtOnce>();
        services.AddHostedService(provider => provider.GetRequiredService<ManyAtOnce>());
        services.TryAddSingleton<LessonBook>();
        services.TryAddSingleton<QuestionBook>();
        services.AddSingleton<OwnWords>();
        return services.AddHostedService(provider => provider.GetRequiredService<OwnWords>());
    }
}
