namespace HeirloomArchive.Catalogue;

/// <summary>Which garment, or which worksheet as it came out, an uploaded picture belongs to; stays when the picture is taken out of the record, for its history.</summary>
public sealed class PictureOwner
{
    /// <summary>The picture's id.</summary>
    public Guid Id { get; set; }

    /// <summary>The garment's id; or the worksheet's.</summary>
    public Guid Garment { get; set; }

    /// <summary>The original's digest, in lower case hexadecimal.</summary>
    public string Sha256 { get; set; } = "";

    /// <summary>What the original is: <c>jpeg, png, webp</c>.</summary>
    public string Format { get; set; } = "";
}
