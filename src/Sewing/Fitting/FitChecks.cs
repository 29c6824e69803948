using System.ComponentModel;

namespace HeirloomArchive.Sewing.Fitting;

/// <summary>What must hold of a fit's request before anything is looked for; gathers every fault.</summary>
internal static class FitChecks
{
    /// <exception cref="FaultException">The request makes no sense.</exception>
    public static void Check(FitRequest request)
    {
        var faults = new List<Fault>();
        if (request.Finished <= Length.Zero)
        {
            Add("finished", T($"{Text(request.Finished)} is no width to fill: it must be above 0."));
        }

        if (request.Cloth < Length.Zero)
        {
            Add("cloth", T($"{Text(request.Cloth.Value)} is below 0: the cloth there is must be 0 or more."));
        }

        if (!Markings.Has(request.Finest))
        {
            Add("finest", T($"{Text(request.Finest)} is not a marking used here: {T(Markings.Words)}."));
        }

        Count("tucks.from", request.Tucks.From);
        Count("tucks.to", request.Tucks.To);
        if (request.Tucks.From > request.Tucks.To)
        {
            Add("tucks", T($"From {request.Tucks.From} to {request.Tucks.To} is no range: from must not be above to."));
        }

        Range("width", request.Width, request.Finest, T("one finest marking"));
        Range("space", request.Space, Length.Zero, "0");
        Range("ends", request.Ends, Length.Zero, "0");
        Lie();
        Like();
        StripChecks.Check(request.TestStrip, Add, request.Unit);
        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }

        void Add(string field, [Localizable(true)] string message) => faults.Add(new(request.Path.Length == 0 ? field : $"{request.Path}.{field}", message));

        void Count(string field, int count)
        {
            if (count is < 1 or > TuckRun.MostInGroup)
            {
                Add(field, T($"{count} tucks: 1 to {TuckRun.MostInGroup} can be looked for."));
            }
        }

        void Range(string field, LengthRange range, Length least, string words)
        {
            if (range.From < least)
            {
                Add($"{field}.from", T($"{Text(range.From)} is too little: at least {words}."));
            }

            if (range.From > range.To)
            {
                Add(field, T($"From {Text(range.From)} to {Text(range.To)} is no range: from must not be above to."));
            }
        }

        void Lie()
        {
            if (request.LiesFromMiddle && request.UnevenEnds)
            {
                Add("unevenEnds", "A run that lies from or towards its centre has the same plain cloth at both ends: leave unevenEnds out.");
            }

            if (request.Centre is { } centre && !request.LiesFromMiddle)
            {
                Add("centre", T($"A centre of {Text(centre)} belongs to a run that lies from-centre or towards-centre: leave it out, or say so in lies."));
            }
            else if (request.Centre is { } middle && request.Lies == Lies.FromCentre && middle < Length.Zero)
            {
                Add("centre", T($"{Text(middle)} is below 0: from the centre it must be 0 or more."));
            }
        }

        void Like()
        {
            if (request.Like is not { } like)
            {
                return;
            }

            Count("like.tucks", like.Tucks);
            if (like.Width <= Length.Zero)
            {
                Add("like.width", T($"A tuck of {Text(like.Width)} is none: its width must be above 0."));
            }
        }

        string Text(Length length) => length.ToText(request.Unit);
    }
}
