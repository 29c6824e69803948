using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>The line that is marked first, and that every position is measured from.</summary>
/// <param name="Line"><c>centre</c>, a value of <c>measuredFrom</c>, or <c>start</c>.</param>
/// <param name="Text">"the centre front".</param>
internal sealed record Datum(string Line, string Text)
{
    public static Datum Of(Whole run, Recorded recorded) =>
        run.FromMiddle ? new("centre", T("the centre"))
        : recorded.First?["measuredFrom"].Text() is { Length: > 0 } line ? new(line, T($"the {Recorded.Plain(line)}"))
        : new("start", T($"the start of {run.Name}"));

    public Length Flat(Whole run, Length at) => Line == "centre" ? Run.FromMiddleOf(at, run.Cloth) : at;

    public Length Sewn(Whole run, Length at) => Line == "centre" ? Run.FromMiddleOf(at, run.Finished) : at;

    public JsonObject Write(Whole run, Rounding rounding)
    {
        Length Middle(Length whole) => Line == "centre" ? Length.FromNanometres(whole.Nanometres / 2) : Length.Zero;
        return new JsonObject
        {
            ["line"] = Line,
            ["text"] = Text,
            ["flat"] = rounding.Exact(Middle(run.Cloth)),
            ["finished"] = rounding.Exact(Middle(run.Finished)),
        };
    }
}
