namespace HeirloomArchive.Pictures;

/// <summary>Where the stored first row and first column belong: the values of Exif's tag Orientation (CIPA DC-008, 4.6.4 A).</summary>
internal enum Orientation
{
    TopLeft = 1,
    TopRight,
    BottomRight,
    BottomLeft,
    LeftTop,
    RightTop,
    RightBottom,
    LeftBottom,
}

internal static class Orientations
{
    /// <summary>Width and height change places.</summary>
    public static bool OnItsSide(this Orientation o) => o >= Orientation.LeftTop;

    /// <summary>Stored columns run against the seen direction they belong to.</summary>
    public static bool ColumnsBackwards(this Orientation o) =>
        o is Orientation.TopRight or Orientation.BottomRight or Orientation.RightBottom or Orientation.LeftBottom;

    /// <summary>Stored rows run against the seen direction they belong to.</summary>
    public static bool RowsBackwards(this Orientation o) =>
        o is Orientation.BottomRight or Orientation.BottomLeft or Orientation.RightTop or Orientation.RightBottom;

    /// <summary>What a turn clockwise, after a mirroring left to right, is as an orientation.</summary>
    public static Orientation OfTurn(int degrees, bool mirrored) => (degrees, mirrored) switch
    {
        (90, false) => Orientation.RightTop,
        (180, false) => Orientation.BottomRight,
        (270, false) => Orientation.LeftBottom,
        (0, true) => Orientation.TopRight,
        (90, true) => Orientation.RightBottom,
        (180, true) => Orientation.BottomLeft,
        (270, true) => Orientation.LeftTop,
        _ => Orientation.TopLeft,
    };
}
