namespace HeirloomArchive.Pictures;

/// <summary>One size of a picture in its pyramid, cut into tiles of 512 pixels from the upper left.</summary>
/// <param name="Factor">1, 2, 4, …: so many pixels of the picture to one of the level, across and down.</param>
/// <param name="Width">Pixels of the level.</param>
/// <param name="Height">Pixels of the level.</param>
/// <param name="First">The number of its first tile among all tiles of the picture.</param>
internal readonly record struct TileLevel(int Factor, int Width, int Height, int First)
{
    public int Columns => (Width + TileLevels.Side - 1) / TileLevels.Side;

    public int Rows => (Height + TileLevels.Side - 1) / TileLevels.Side;

    public int Tiles => Columns * Rows;

    /// <summary>The number of a tile among all of the picture.</summary>
    public int Number(int column, int row) => First + (row * Columns) + column;

    /// <summary>Width and height of a tile in pixels of the level; less than 512 at the right and lower edge.</summary>
    public (int Width, int Height) Size(int column, int row) =>
        (Math.Min(TileLevels.Side, Width - (column * TileLevels.Side)), Math.Min(TileLevels.Side, Height - (row * TileLevels.Side)));
}

/// <summary>The sizes of a picture's pyramid, from the whole down to the first that is a single tile.</summary>
internal static class TileLevels
{
    /// <summary>Pixels along a tile.</summary>
    public const int Side = 512;

    /// <param name="width">Pixels, the right way up.</param>
    /// <param name="height">Pixels, the right way up.</param>
    public static IReadOnlyList<TileLevel> Of(int width, int height)
    {
        List<TileLevel> levels = [];
        var next = new TileLevel(1, width, height, 0);
        while (true)
        {
            levels.Add(next);
            if (next.Tiles == 1)
            {
                return levels;
            }

            next = new TileLevel(next.Factor * 2, (next.Width + 1) / 2, (next.Height + 1) / 2, next.First + next.Tiles);
        }
    }
}
