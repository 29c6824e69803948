using System.Reflection;
using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets.Asking;
using HeirloomArchive.Worksheets.Making;

namespace HeirloomArchive.Worksheets;

/// <summary>Makes a worksheet from a request and, if it names one, the state of a garment. Nothing else is read.</summary>
public static class WorksheetMaker
{
    /// <summary>The release, as stored with each worksheet.</summary>
    public static string Engine { get; } =
        typeof(WorksheetMaker).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+')[0];

    /// <summary>The garment a request names, whose state <see cref="Make"/> needs; null if it names none.</summary>
    /// <exception cref="Sewing.FaultException">What it gives is not an id.</exception>
    public static Guid? GarmentOf(JsonObject request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return WorksheetRequestJson.GarmentOf(request);
    }

    /// <summary>The worksheet, complete and not yet stored.</summary>
    /// <param name="request">The body of <c>POST /api/worksheets</c>.</param>
    /// <param name="garmentState">What <c>GET /api/garments/{id}</c> answers; null if the request names no garment.</param>
    /// <param name="now">The time written on it.</param>
    /// <exception cref="Sewing.FaultException">The request can't be read or makes no sense.</exception>
    /// <exception cref="DoesNotFitException">Nothing fits the width asked for.</exception>
    public static Worksheet Make(JsonObject request, JsonObject? garmentState, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(request);
        var sent = Planning.Plain(request);
        var asked = WorksheetRequestJson.Read(sent);
        Printing.Check(sent);
        var (state, leftOut) = garmentState is null ? (null, []) : Printing.Printable(Planning.Plain(garmentState));
        var recorded = Recorded.Read(asked, state);
        var (run, fits) = Planning.Of(asked, recorded);
        asked = asked with { Sewn = asked.Sewn ?? Advice.AsRecorded(recorded.Tucks?["sewn"].Text()) };
        var title = asked.Title ?? Title(run, recorded);
        var rounding = Rounding.Of(asked.Unit, run.Unit);
        return new Worksheet
        {
            Id = Guid.CreateVersion7(now),
            Title = title,
            Made = now.ToUniversalTime(),
            Engine = Engine,
            Language = SheetLanguage.Now,
            Paper = asked.Paper,
            Landscape = asked.Landscape,
            Garment = asked.Garment,
            RecordVersion = recorded.Version,
            Request = sent,
            Result = Planning.Plain(Result(run, fits, asked, recorded, rounding)),
            Cautions = Telling.Cautions(run, asked, recorded, leftOut, rounding),
        };
    }

    private static JsonObject Result(Whole run, IReadOnlyList<JsonObject?> fits, WorksheetRequest asked, Recorded recorded, Rounding rounding)
    {
        var datum = Datum.Of(run, recorded);
        var evidence = Telling.Evidence(run, fits, asked, recorded);
        var laces = Lace.Of(asked, recorded, rounding);
        JsonObject result = [];
        run.Write(result, asked.Sections, fits);
        foreach (var (name, value) in new JsonObject
        {
            ["lies"] = run.Sectioned ? null : run.Parts[0].Run!.Lies,
            ["fit"] = run.Sectioned ? null : fits[0],
            ["source"] = Source(recorded),
            ["figures"] = new JsonArray(
                Figure(T("sewn"), rounding.Both(run.Finished)),
                Figure(T("to cut, along the row"), rounding.Both(Cutting.Along(run, asked.Allow))),
                Figure(T("taken up"), rounding.Both(run.TakeUp)),
                Figure(run.Tucks.Count == 1 ? T("tuck") : T("tucks"), $"{run.Tucks.Count}")),
            ["datum"] = datum.Write(run, rounding),
            ["piece"] = Cutting.Of(run, asked, recorded, rounding),
            ["positions"] = Positions.Of(run, datum, asked.Allow, rounding),
            ["gauges"] = Gauges.Of(run, asked, recorded, rounding),
            ["gaugeText"] = Gauges.Texts(run),
            ["rule"] = FoldingRule.Of(run, asked, rounding),
            ["steps"] = Steps.Of(run, asked, recorded, datum, rounding),
            ["marking"] = Advice.Marking(run, asked.Marking),
            ["strip"] = Advice.Strip(run, rounding),
            ["settings"] = Advice.Settings(run, asked, recorded),
            ["shopping"] = Telling.Shopping(run, asked, recorded, laces, rounding),
            ["lace"] = laces,
            ["also"] = Telling.Also(asked, recorded),
            ["given"] = Teaching.Given(run, asked, rounding),
            ["teaching"] = Teaching.Questions(run, asked, evidence, rounding),
            ["evidence"] = evidence,
            ["picture"] = Picture(recorded),
        }.ToList())
        {
            result[name] = value?.DeepClone();
        }

        return result;
    }

    private static JsonObject Figure(string label, string text) => new() { ["label"] = label, ["text"] = text };

    /// <summary>The first picture of what is copied; the host hands its bytes to the print.</summary>
    private static JsonObject? Picture(Recorded recorded) => recorded.Techniques
        .Where(t => t["pictures"] is JsonArray { Count: > 0 })
        .Select(t => new JsonObject { ["id"] = t["pictures"].Texts().First(), ["technique"] = t["id"].Text() }).FirstOrDefault();

    private static string Title(Whole run, Recorded recorded)
    {
        var count = run.Tucks.Count;
        var what = run.Sectioned && count == 0 ? T("Insertion")
            : run.Sectioned && run.Insertions.Any() ? N(count, $"{count} tuck with insertion", $"{count} tucks with insertion")
            : !run.Sectioned && recorded.Tucks is { } technique ? Telling.Capital(Telling.Kind(technique).Split(',')[0])
            : N(count, $"{count} tuck", $"{count} tucks");
        return recorded.Name.Length > 0 ? $"{what}: {recorded.Name}" : what;
    }

    private static string Source(Recorded recorded)
    {
        if (recorded.Garment is null)
        {
            return T("From no recorded piece.");
        }

        var number = recorded.Number.Length > 0 ? $" ({recorded.Number})" : "";
        var piece = $"{(recorded.Name.Length > 0 ? recorded.Name : T("the piece"))}{number}";
        return recorded.Tucks?["part"] is { } part
            ? T($"After {piece}, {Recorded.Said("parts", part).ToLowerInvariant()}; record version {recorded.Version}.")
            : T($"After {piece}; record version {recorded.Version}.");
    }
}
