using System.Reflection;
using System.Runtime.CompilerServices;
using HeirloomArchive.Pictures.Checking;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Pictures;

/// <summary>Registers the room.</summary>
public static class PicturesRoom
{
    /// <summary>
    /// The room over a folder. The calling program must answer the verb <see cref="PictureWorker.Verb"/> with
    /// <see cref="PictureWorker.Run"/>: it is started again as the worker.
    /// </summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static IServiceCollection AddPictures(this IServiceCollection services, string folder, int checkHour = 3)
    {
        var program = WorkerProgram.Of(Assembly.GetCallingAssembly());
        return services
            .AddSingleton(new PictureLimits())
            .AddSingleton(program)
            .AddSingleton(s => new PictureStore(folder, s.GetRequiredService<PictureLimits>()))
            .AddSingleton<Workshop>()
            .AddSingleton<Derivatives>()
            .AddSingleton<PartedUploads>()
            .AddSingleton<Regions.RegionKeeping>()
            .AddSingleton(s => new RegionCache(Path.Combine(folder, "regions"), s.GetRequiredService<PictureLimits>().RegionCacheBytes))
            .AddSingleton<Tiles>()
            .AddSingleton<MakingAgain>()
            .AddHostedService(s => s.GetRequiredService<MakingAgain>())
            .AddSingleton(new CheckHour(checkHour))
            .AddSingleton<OriginalsCheck>()
            .AddHostedService<PictureKeeping>()
            .AddSingleton<Uploads>();
    }
}
