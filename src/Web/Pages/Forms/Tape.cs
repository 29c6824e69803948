using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>
/// The unit that a person's tape has: what a form shows beside its lengths and takes a bare number in. A form carries the one it
/// was shown with (<see cref="Field"/>), so that a number is never read in a unit that she did not see beside it.
/// </summary>
/// <param name="Unit"><c>in</c> or <c>mm</c>; empty where she has not chosen: then every length needs its unit.</param>
public sealed record Tape(string Unit)
{
    /// <summary>The name of the hidden field, and of the cookie that keeps her choice.</summary>
    public const string Field = "tape", Cookie = "heirloom-tape";

    public static Tape None { get; } = new("");

    /// <summary>What can be chosen, as a worksheet's <c>unit</c> has it.</summary>
    public static IReadOnlyList<(string Value, string Label)> Choices =>
        [("", T("As I write it, always with its unit")), ("in16", T("Inches, to 1/16")), ("in32", T("Inches, to 1/32")), ("mm", T("Millimetres"))];

    /// <summary>Her choice, one of <see cref="Choices"/>; empty if she made none.</summary>
    public static string Chosen(HttpRequest request) =>
        Preference.Read(request, Cookie) is { } kept && Choices.Any(c => c.Value == kept) ? kept : "";

    /// <summary>The tape of her choice.</summary>
    public static Tape Of(HttpRequest request) => Named(Chosen(request));

    /// <summary>The tape that a form was shown with, or that a choice means.</summary>
    public static Tape Named(string? unit) => unit switch { "mm" => new("mm"), "in" or "in16" or "in32" => new("in"), _ => None };

    /// <summary>As it stands beside a field.</summary>
    public string Words => Unit == "mm" ? T("millimetres") : T("inches");

    /// <summary>A length as typed, with the unit behind it where a bare number was typed.</summary>
    public string Complete(string typed)
    {
        var text = typed.Trim();
        var bare = Unit.Length > 0 && text.Length > 0 && !text.Any(c => char.IsLetter(c) || "\"'″′”’".Contains(c, StringComparison.Ordinal));
        return bare && Length.TryParse($"{text} {Unit}", out _, out _) ? $"{text} {Unit}" : text;
    }
}
