using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets;

/// <summary>The steps she has ticked off at the sewing table. Kept beside the worksheet, which never changes.</summary>
public sealed class Ticks
{
    /// <summary>The worksheet's id.</summary>
    public Guid Id { get; set; }

    /// <summary>Step numbers, rising.</summary>
    public IReadOnlyList<int> Done { get; set; } = [];

    /// <summary>Reads <c>{"done":[step numbers]}</c> against the worksheet's own steps.</summary>
    /// <exception cref="FaultException">Not a list of numbers, or a number that is no step.</exception>
    public static Ticks Read(JsonObject body, Worksheet worksheet)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        List<Fault> faults = [];
        var reader = new StrictReader(body, "", faults);
        var done = TickChange.Steps(reader, "done", worksheet, faults);
        if (done is null && faults.Count == 0)
        {
            reader.Unreadable("done", T("The steps done are missing: a list of step numbers, as in [1, 2]."));
        }

        reader.RefuseTheRest();
        return faults.Count == 0 ? new Ticks { Id = worksheet.Id, Done = [.. done!] } : throw new FaultException(faults);
    }

    /// <summary>These with a change; a new object.</summary>
    public Ticks With(TickChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return new() { Id = Id, Done = [.. Done.Union(change.Done).Except(change.Undone).Order()] };
    }

    public JsonObject ToJson() => new() { ["done"] = new JsonArray([.. Done.Select(n => JsonValue.Create(n))]) };
}

/// <summary>Steps newly ticked off, and those not done after all; whatever was ticked elsewhere meanwhile stays.</summary>
public sealed record TickChange(IReadOnlySet<int> Done, IReadOnlySet<int> Undone)
{
    /// <summary>Reads <c>{"done":[step numbers],"undone":[step numbers]}</c>, either of which may be left out.</summary>
    /// <exception cref="FaultException">Not lists of numbers, a number that is no step, or a step in both.</exception>
    public static TickChange Read(JsonObject body, Worksheet worksheet)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        List<Fault> faults = [];
        var reader = new StrictReader(body, "", faults);
        var (done, undone) = (Steps(reader, "done", worksheet, faults) ?? [], Steps(reader, "undone", worksheet, faults) ?? []);
        if (done.Overlaps(undone))
        {
            reader.Senseless("undone", T($"Step {done.First(undone.Contains)} can't be both done and not done."));
        }

        reader.RefuseTheRest();
        return faults.Count == 0 ? new(done, undone) : throw new FaultException(faults);
    }

    /// <summary>A list of the worksheet's steps; null where there is none, or where it is a fault.</summary>
    internal static SortedSet<int>? Steps(StrictReader reader, string name, Worksheet worksheet, List<Fault> faults)
    {
        var steps = worksheet.Result["steps"]!.AsArray().Count;
        if (reader.List(name, 10_000) is not { } list)
        {
            return null;
        }

        SortedSet<int> read = [];
        for (var i = 0; i < list.Count; i++)
        {
            if (list[i] is not JsonValue value || !value.TryGetValue<decimal>(out var number))
            {
                faults.Add(new Fault($"{name}[{i}]", T($"{StrictReader.Shown(list[i])} is not a number."), FaultKind.Unreadable));
            }
            else if (number < 1 || number > steps || number != decimal.Truncate(number))
            {
                faults.Add(new Fault($"{name}[{i}]", T($"{StrictReader.Shown(list[i])} is no step of this worksheet; they go from 1 to {steps}.")));
            }
            else
            {
                read.Add((int)number);
            }
        }

        return read;
    }
}
