using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Worksheets;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>The box for a strip's result, for <c>_Strip.cshtml</c>.</summary>
public sealed record StripView(Worksheet Sheet, Form Form, bool Open);
