using System.Net;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Api;

/// <summary>
/// Who may see the original of a picture: the one place that decides. An id that is hard to guess is no right. Until there are
/// accounts the archive has one owner, who sits at this computer; an original may carry place and time of its taking.
/// </summary>
public static class PictureRights
{
    /// <summary>Whether the caller may see the original. Smaller pictures carry no place and follow the piece's page.</summary>
    /// <param name="caller">The request.</param>
    /// <param name="picture">Whose original it is; also of a piece that is set aside, which still opens.</param>
    public static bool MaySeeOriginal(HttpContext caller, PictureOwner picture) =>
        picture.Sha256.Length > 0 && caller.Connection.RemoteIpAddress is { } from && IPAddress.IsLoopback(from);

    /// <summary>The picture, when its original may be seen; else the same answer as for one that is not there.</summary>
    /// <exception cref="NotFoundException">There is none, or none for this caller.</exception>
    public static PictureOwner Original(HttpContext caller, Guid pid, PictureOwner? picture) =>
        picture is not null && MaySeeOriginal(caller, picture) ? picture : throw Missing(pid);

    /// <summary>What is said of an id that no picture has.</summary>
    public static NotFoundException Missing(Guid pid) => new($"No picture has the id {pid}.");
}
