using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.WorkItOut;

/// <summary>Any sum: its form, and what it comes to. The question is the address, so it can be kept and sent.</summary>
public sealed class SumModel : PageModel
{
    public Sum Sum { get; private set; } = null!;

    public Form Form { get; private set; } = new([]);

    public Answer? Answer { get; private set; }

    public IActionResult OnGet(string slug, string? add, string? remove)
    {
        if (AllSums.Find(slug) is not { } sum)
        {
            return NotFound();
        }

        Sum = sum;
        var rearranges = add is not null || remove is not null;
        var asked = Request.Query.Count > 0 && !rearranges;
        Form = new(SumForm.Read(Request.Query, sum, keepBlankRows: rearranges)) { About = "sum", NameOf = path => SumForm.Name(sum, path) };
        if (asked)
        {
            Work();
        }

        SumForm.Pad(Form.Values, sum.Asks);
        if (add is not null)
        {
            Form.Add(add);
        }

        if (remove is not null)
        {
            Form.Remove(remove);
        }

        return Page();
    }

    private void Work()
    {
        try
        {
            Answer = Sum.Of(Form.Values.DeepClone());
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
    }
}
