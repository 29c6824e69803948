using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets;
using Marten;

namespace HeirloomArchive.Web.Api;

/// <summary>Keeps what came of a worksheet, with its picture: both or neither.</summary>
public sealed class MadeUpKeeping(IDocumentStore documents, Uploads uploads, TimeProvider clock)
{
    /// <summary>Reads, checks and stores it.</summary>
    /// <param name="worksheet">The worksheet that was sewn.</param>
    /// <param name="body">As the route takes it; blank texts count as left out.</param>
    /// <param name="files">None or one; the caller disposes it.</param>
    /// <param name="ct">Ends it.</param>
    /// <exception cref="FaultException">It can't be read, makes no sense, or names a picture that is not there.</exception>
    /// <exception cref="RefusedException">The file is no sound picture.</exception>
    public async Task<MadeUp> Keep(Worksheet worksheet, JsonObject body, IReadOnlyList<IncomingFile> files, CancellationToken ct)
    {
        var made = MadeUp.Read(body, worksheet, DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime));
        if (files.Count > 1)
        {
            throw new FaultException("file", $"{files.Count} files came; one picture goes with each time it was made up.");
        }

        if (files.Count == 1)
        {
            await uploads.TakeFor(files, worksheet.Id, (session, picture) =>
            {
                made.Picture = picture;
                session.Insert(made);
            }, ct);
            return made;
        }

        await using var session = documents.LightweightSession();
        if (made.Picture is { } named && await session.LoadAsync<PictureOwner>(named, ct) is null)
        {
            throw new FaultException("picture", $"No picture has the id {named}.");
        }

        session.Insert(made);
        await session.SaveChangesAsync(ct);
        return made;
    }
}
