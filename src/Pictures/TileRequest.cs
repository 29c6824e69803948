namespace HeirloomArchive.Pictures;

/// <summary>A picture's size the right way up, and how its tiles are cut.</summary>
/// <param name="Width">Pixels.</param>
/// <param name="Height">Pixels.</param>
/// <param name="ScaleFactors">1, 2, 4, …: at each of these the picture is cut into tiles of <see cref="Tiles.Side"/> pixels.</param>
public sealed record PictureSize(int Width, int Height, IReadOnlyList<int> ScaleFactors);

/// <summary>A region of a picture at a size, as asked for; all pixels count in the picture the right way up.</summary>
/// <param name="X">Left edge, from 0.</param>
/// <param name="Y">Upper edge, from 0.</param>
/// <param name="Width">Pixels of the picture, at least 1; the region lies within the picture.</param>
/// <param name="Height">Pixels of the picture, at least 1.</param>
/// <param name="OutWidth">Pixels to come out before the turn, at least 1; <see cref="OutWidth"/> × <see cref="OutHeight"/> is at most <see cref="Tiles.LargestOut"/>.</param>
/// <param name="OutHeight">Pixels to come out before the turn, at least 1.</param>
public sealed record TileRequest(int X, int Y, int Width, int Height, int OutWidth, int OutHeight)
{
    /// <summary>Degrees clockwise: 0, 90, 180 or 270.</summary>
    public int Rotation { get; init; }

    /// <summary>Mirrored left to right before the turn.</summary>
    public bool Mirrored { get; init; }

    /// <summary>In shades of grey.</summary>
    public bool Grey { get; init; }

    /// <summary>What kind of file is to come out.</summary>
    public PictureFormat Format { get; init; } = PictureFormat.Jpeg;
}
