namespace HeirloomArchive.Web.Iiif;

/// <summary>An image request that can't be answered: its syntax, or a size or region that there is not (400, section 7.3).</summary>
public sealed class ImageRequestException(string message) : Exception(message);
