using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets;

/// <summary>From a worksheet and a strip she has sewn since to the same worksheet with the strip reckoned in.</summary>
public static partial class Correction
{
    /// <summary>The request with the strip in its plan, its fit, or in those of each of its sections; a strip that was there gives way.</summary>
    public static JsonObject Corrected(JsonObject request, JsonNode strip)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(strip);
        var corrected = request.DeepClone().AsObject();
        Put(corrected);
        foreach (var section in corrected["sections"].Each())
        {
            Put(section);
        }

        return corrected;

        void Put(JsonObject holder)
        {
            foreach (var run in ((string[])["plan", "onto"]).Select(name => holder[name]).OfType<JsonObject>())
            {
                run["testStrip"] = strip.DeepClone();
            }
        }
    }

    /// <summary>The corrected worksheet, complete and not yet stored; its faults name the strip as it was sent.</summary>
    /// <param name="worksheet">The one to correct.</param>
    /// <param name="body"><c>{"testStrip":{"tucks","width","flat","finished"}}</c>.</param>
    /// <param name="garmentState">As for <see cref="WorksheetMaker.Make"/>.</param>
    /// <param name="now">The time written on it.</param>
    /// <exception cref="FaultException">The strip can't be read, or the plan can't be sewn with it.</exception>
    public static Worksheet Make(Worksheet worksheet, JsonObject body, JsonObject? garmentState, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        List<Fault> faults = [];
        var reader = new StrictReader(body, "", faults);
        var strip = reader.Object("testStrip");
        if (strip is null && faults.Count == 0)
        {
            reader.Senseless("testStrip", T("The strip is missing: give its tucks, width, flat and finished."));
        }

        reader.RefuseTheRest();
        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }

        var request = Corrected(worksheet.Request, strip!);
        if (worksheet.Result["strip"] is null)
        {
            throw new FaultException("testStrip", T("This worksheet has no tucks for a strip to correct."));
        }

        try
        {
            var made = WorksheetMaker.Make(request, garmentState, now);
            made.CorrectedFrom = worksheet.Id;
            return made;
        }
        catch (FaultException e) when (e is not DoesNotFitException)
        {
            throw new FaultException([.. e.Faults.Select(f => f with { Path = OfStrip().Replace(f.Path, "testStrip") }).Distinct()]);
        }
    }

    [GeneratedRegex(@"^(sections\[\d+\]\.)?(plan|onto)\.testStrip")]
    private static partial Regex OfStrip();
}
