using System.ComponentModel;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>What every lace sum says beside its figures.</summary>
internal static class LaceCare
{
    /// <summary>The allowance kept at each end of a length of lace.</summary>
    public static Ask Ends { get; } = Ask.Plain("ends", "Kept at each end", "1/2 in", "For a turning or a join; it is in every length to cut.");

    /// <summary>Lace is cut last.</summary>
    public static Answer LayOutFirst(this Answer answer) => answer.Caution("lay-out-first",
        "Lace once cut can't be made whole: lay the whole length out in its place, and cut last. Never cut an antique lace to a figure that was worked out, before it has been laid out; ask a textile conservator first.");

    /// <summary>What a length to cut holds beyond the lace that shows.</summary>
    public static string Holds(Asked asked, Length ends, [Localizable(true)] string more = "") =>
        more.Length == 0 ? T($"{asked.Show(ends)} at each end in it") : T($"{asked.Show(ends)} at each end in it, {T(more)}");
}
