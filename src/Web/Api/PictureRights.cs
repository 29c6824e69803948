using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Api;

/// <summary>
/// Who may see the original of a picture: the one place that decides. An id that is hard to guess is no right. An original may
/// carry place and time of its taking.
/// </summary>
public static class PictureRights
{
    /// <summary>Whether the caller may see the original. Smaller pictures carry no place and follow the piece's page.</summary>
    /// <param name="picture">Whose original it is; also of a piece that is set aside, which still opens.</param>
    public static bool MaySeeOriginal(PictureOwner picture) =>
        picture.Sha256.Length > 0 && Viewer.Now.Sight.Originals;

    /// <summary>The picture, when its original may be seen; else the same answer as for one that is not there.</summary>
    /// <exception cref="NotFoundException">There is none, or none for this caller.</exception>
    public static PictureOwner Original(Guid pid, PictureOwner? picture) =>
        picture is not null && MaySeeOriginal(picture) ? picture : throw Missing(pid);

    /// <summary>What is said of an id that no picture has.</summary>
    public static NotFoundException Missing(Guid pid) => new($"No picture has the id {pid}.");
}
