namespace HeirloomArchive.Sewing;

/// <summary>The unit in which computed lengths are shown.</summary>
public enum LengthUnit
{
    /// <summary>Inches as fractions, to 1/64. Feet, yards and nails are shown in inches too.</summary>
    Inches,

    /// <summary>Millimetres, to 3 places. Centimetres and metres are shown in millimetres too.</summary>
    Millimetres,
}
