using System.Collections.Concurrent;

namespace HeirloomArchive.Catalogue;

/// <summary>Who is at the archive: her name stands in the events she makes, her sight rules what she is answered.</summary>
/// <param name="name">As the history shows it.</param>
/// <param name="sight">What she may see.</param>
public sealed class Viewer(string name, Sight sight)
{
    private static readonly AsyncLocal<Viewer?> Entered = new();

    private readonly ConcurrentDictionary<Guid, bool> saw = new();

    /// <summary>The one person who keeps an archive on her own machine; also what the archive does by itself.</summary>
    public static Viewer Owner => new("owner", Sight.Everything);

    /// <summary>Who asks now. The host names her at the beginning of every request.</summary>
    public static Viewer Now => Entered.Value ?? Owner;

    public string Name => name;

    public Sight Sight => sight;

    /// <summary>The pieces of which she was answered something private.</summary>
    public IReadOnlyCollection<Guid> SawPrivateOf => [.. saw.Keys];

    /// <summary>From here on, and in all that is awaited from here, it is this one who asks.</summary>
    public static void Enter(Viewer viewer) => Entered.Value = viewer;

    internal void Saw(Guid garment) => saw.TryAdd(garment, true);
}
