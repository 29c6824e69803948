namespace HeirloomArchive.Catalogue;

/// <summary>Which garment, or which worksheet as it came out, an uploaded picture belongs to; stays when the picture is taken out of the record, for its history. Never changed once it is stored.</summary>
public sealed class PictureOwner
{
    /// <summary>The picture's id.</summary>
    public Guid Id { get; set; }

    /// <summary>The garment's id; or the worksheet's.</summary>
    public Guid Garment { get; init; }

    /// <summary>The original's digest, in lower case hexadecimal.</summary>
    public string Sha256 { get; init; } = "";

    /// <summary>What the original is: <c>jpeg, png, webp</c>.</summary>
    public string Format { get; init; } = "";
}
