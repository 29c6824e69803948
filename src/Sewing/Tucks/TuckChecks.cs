using System.ComponentModel;

namespace HeirloomArchive.Sewing;

/// <summary>What must hold of a run before anything can be laid out; gathers every fault.</summary>
internal sealed class TuckChecks(TuckRun run)
{
    private readonly List<Fault> faults = [];

    public void Add(string field, [Localizable(true)] string message) => faults.Add(new(run.At(field), message));

    public void Throw()
    {
        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }
    }

    public string Text(Length length) => length.ToText(run.Unit);

    /// <summary>Counts, signs and fields that go together; throws at once when the run has no shape to compute with.</summary>
    public void Shape()
    {
        Counts();
        for (var g = 0; g < run.Groups.Count; g++)
        {
            if (run.Groups[g].Width <= Length.Zero)
            {
                Add($"groups[{g}].width", T($"A tuck of {Text(run.Groups[g].Width)} is none: its width, fold to stitching, must be above 0."));
            }
        }

        NotBelowZero("lead", run.Lead);
        NotBelowZero("trail", run.Trail);
        if (run.LiesFromMiddle && run.Lead is { } lead)
        {
            Add("lead", T($"A run that lies from or towards its centre has no lead ({Text(lead)}): give the plain cloth at each end as trail, that in the middle as centre."));
        }

        if (!run.LiesFromMiddle && run.Centre is { } centre)
        {
            Add("centre", T($"A centre of {Text(centre)} belongs to a run that lies from-centre or towards-centre: leave it out, or say so in lies."));
        }

        if (run.Lies == Lies.FromCentre)
        {
            NotBelowZero("centre", run.Centre);
        }

        StripChecks.Check(run.TestStrip, Add, run.Unit);
        Throw();
    }

    private void Counts()
    {
        var groups = run.Groups.Count;
        if (groups is < 1 or > TuckRun.MostGroups)
        {
            Add("groups", T($"{groups} groups: a run has 1 to {TuckRun.MostGroups}."));
        }

        for (var g = 0; g < groups; g++)
        {
            if (run.Groups[g].Tucks is < 1 or > TuckRun.MostInGroup)
            {
                Add($"groups[{g}].tucks", T($"{run.Groups[g].Tucks} tucks: a group has 1 to {TuckRun.MostInGroup}."));
            }
        }

        var all = run.Groups.Sum(g => (long)g.Tucks) * (run.LiesFromMiddle ? 2 : 1);
        if (all > TuckRun.MostInRun)
        {
            Add("groups", run.LiesFromMiddle
                ? T($"{all} tucks in all, both halves counted: a run has at most {TuckRun.MostInRun}.")
                : T($"{all} tucks in all: a run has at most {TuckRun.MostInRun}."));
        }

        if (groups > 0 && run.Between.Count != groups - 1)
        {
            Add("between", N(
                groups,
                $"{run.Between.Count} spacings between {groups} group: there must be {groups - 1}, one from each group to the next.",
                $"{run.Between.Count} spacings between {groups} groups: there must be {groups - 1}, one from each group to the next."));
        }
    }

    private void NotBelowZero(string field, Length? length)
    {
        if (length < Length.Zero)
        {
            Add(field, T($"{Text(length.Value)} is below 0: the plain cloth seen here must be 0 or more."));
        }
    }
}
