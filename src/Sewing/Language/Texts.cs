using System.Globalization;

namespace HeirloomArchive.Sewing.Language;

/// <summary>
/// Sentences in the reader's language. The English stands where it is used and is the key: <c>T("Save the piece")</c>,
/// <c>T($"{count} of {all} are kept")</c>. A translation is a file beside this one; what it lacks stays English.
/// </summary>
/// <remarks>
/// The language is that of <see cref="CultureInfo.CurrentUICulture"/>, so nothing made once for everybody (a static field, a stored event,
/// the index) may hold what these answer: it keeps the English, and is translated where it is shown.
/// </remarks>
public static class Texts
{
    /// <summary>A whole sentence or label.</summary>
    /// <param name="english">As it stands in English; null or empty is answered as empty.</param>
    /// <returns>The reader's own, or the English where there is none.</returns>
    public static string T(string? english) => english is null or "" ? "" : Languages.OfReader?.Find(english) ?? english;

    /// <summary>A sentence with values in it; each value is written by the reader's culture.</summary>
    /// <param name="english">Interpolated: what stands between the braces may come in another order in another language.</param>
    /// <returns>The reader's own, or the English where there is none.</returns>
    public static string T(Sentence english) => english.In(Languages.OfReader);

    /// <summary>A sentence whose form hangs on a number: <c>N(count, $"{count} piece", $"{count} pieces")</c>.</summary>
    /// <param name="number">What is counted.</param>
    /// <param name="one">The English for one.</param>
    /// <param name="other">The English for any other number; with the same values in the same order.</param>
    /// <returns>The reader's own in the form her language has for the number, or the English.</returns>
    public static string N(long number, Sentence one, Sentence other) =>
        Languages.OfReader?.Find($"{one.Key}|{other.Key}", number) is { } found ? other.Filled(found) : (number == 1 ? one : other).In(null);
}
