namespace HeirloomArchive.Sewing;

/// <summary>What must hold of a test strip, in a plan as in a fit.</summary>
internal static class StripChecks
{
    public static void Check(TestStrip? strip, Action<string, string> add, LengthUnit unit)
    {
        if (strip is null)
        {
            return;
        }

        if (strip.Tucks is < 1 or > TuckRun.MostInGroup)
        {
            add("testStrip.tucks", T($"{strip.Tucks} tucks: a test strip has 1 to {TuckRun.MostInGroup}."));
        }

        AboveZero("testStrip.width", strip.Width);
        AboveZero("testStrip.flat", strip.Flat);
        AboveZero("testStrip.finished", strip.Finished);
        AboveZero("testStrip.sewnWidth", strip.SewnWidth);

        void AboveZero(string field, Length? length)
        {
            if (length <= Length.Zero)
            {
                add(field, T($"{length.Value.ToText(unit)} is no measure of a strip: it must be above 0."));
            }
        }
    }
}
