using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Api;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>A page with a form over the record: reads it, saves it or says what is wrong, and never loses what was typed.</summary>
public abstract class FormPage(Archive archive, IndexFollower index) : PageModel
{
    protected Archive Archive => archive;

    /// <summary>The form as it stands.</summary>
    public Form Form { get; protected set; } = new([]);

    /// <summary>Where the record and the form went apart: somebody saved in between. Null if they did not.</summary>
    public JsonArray? Differs { get; private set; }

    /// <summary>The version that a save from this form replaces.</summary>
    public long Version { get; protected set; }

    /// <summary>What was posted, by the shape asked for. With true she only adds a row, takes one out, takes an offer or asks what was understood: nothing is saved.</summary>
    protected bool Rearranges(RecordType shape, JsonObject? garment = null)
    {
        var posted = Request.Form;
        var (add, remove, use) = (posted["add"].ToString(), posted["remove"].ToString(), posted["use"].ToString());
        var rearranges = add.Length + remove.Length + use.Length + posted["show"].ToString().Length > 0;
        Version = long.TryParse(posted["version"], out var version) ? version : 0;
        Form = new(FormReader.Read(posted, shape, keepBlankRows: rearranges)) { Garment = garment };
        if (!rearranges)
        {
            Form.DropProposals();
        }

        if (add.Length > 0)
        {
            Form.Add(add);
        }

        if (remove.Length > 0)
        {
            Form.Remove(remove);
        }

        if (use.Split('=', 2) is [var path, var value])
        {
            if (path == "dated" && Form.Text("datedText").Length == 0)
            {
                Form.Put("datedText", Form.Text(path));
            }

            Form.Put(path, value);
        }

        return rearranges;
    }

    /// <summary>Saves; false when it was refused, and then the page shows the form with what is wrong.</summary>
    protected async Task<bool> Save(Func<Task<(Guid Garment, long Position)>> write)
    {
        try
        {
            var (garment, position) = await write();
            await index.Refresh(garment, position);
            return true;
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
        catch (TakenException e)
        {
            Form.Faults = [new("number", T($"{e.Number} is the number of “{e.Name}”. Two pieces can't have one number."))];
            Response.StatusCode = StatusCodes.Status409Conflict;
        }
        catch (SetAsideException)
        {
            Form.Faults = [new("", T("The piece is set aside. Bring it back before you change it."))];
            Response.StatusCode = StatusCodes.Status409Conflict;
        }
        catch (StaleException e)
        {
            (Differs, Version) = (e.Differs, e.Version);
            Response.StatusCode = StatusCodes.Status412PreconditionFailed;
        }

        return false;
    }

    /// <summary>Who saves, as the history says.</summary>
    protected static string Who => Versions.Who;

    /// <summary>After a save: the piece's page, at the place that was changed.</summary>
    protected RedirectResult ToPiece(Guid id, string? place = null) => Redirect($"/pieces/{id}{(place is null ? "" : "#" + place)}");
}
