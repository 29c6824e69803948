using System.Text.Encodings.Web;
using System.Text.Json;
using HeirloomArchive.Sewing.Language;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages;

/// <summary>
/// What the scripts say to the reader. They hold the English (<c>wwwroot/js/texts.js</c>); the layout gives them the rest in its head.
/// </summary>
public static class ScriptTexts
{
    /// <summary>All of them in English, as the scripts have them; a test holds the two together.</summary>
    public static IReadOnlyList<string> All { get; } = // texts
    [
        "Kept as a draft.",
        "This is more than a draft can hold. Save it.",
        "You are not signed in as somebody who may write here. What you typed is kept in this browser; sign in again in another window, and it is tried again.",
        "The archive does not answer. What you typed is kept in this browser, and it is tried again.",
        "Not saved yet: you are not signed in as somebody who may write here. What you typed is kept in this browser, and is saved once you have signed in again in another window, if this page stays open; else it is here when you open it again.",
        "Not saved yet: the archive does not answer. What you typed is kept in this browser, and is saved as soon as it answers, if this page stays open; else it is here when you open it again.",
        "The pictures are on their way …",
        "Not saved yet: a picture was refused. Leave it out or choose another, and press again.",
        "Not saved yet: the archive does not answer. What you typed and the pictures are still here; press again in a moment.",
        "{0} of {1} piece had its turn.|{0} of {1} pieces had their turn.",
        "The archive does not answer. It goes on as soon as it does.",
        "The archive does not answer. This page is as it was last seen on this device. What you do here is kept and sent when it answers.",
        "Your ticks were here already.",
        "The archive answers again. Sent from this device: step {0}.",
        "Step {0} of {1}, done, not sent yet",
        "Step {0} of {1}, not sent yet",
        "That did not go.",
        "No passkey was given.",
        "{0} of {1}",
        "Kept.",
        "Not sent yet: the archive does not answer. The tick is kept on this device and sent when it does.",
        "Not sent: you are not signed in as somebody who may tick here. The tick is kept on this device; sign in again, then open this page once more.",
        "It was refused.",
        "The connection is lost. It goes on by itself once it is back.",
        "{0} of {1} picture is here.|{0} of {1} pictures are here.",
        "Waits its turn",
        "Leave it out",
        "Leave it out: {0}",
        "Waits for the connection",
        "Being looked over",
        "Was here already",
        "Here",
        "It can no longer be read; choose it again.",
        "{0}. Arrow keys move all pictures, plus and minus bring them closer and further.",
        "Draw from corner to corner. Or: arrow keys move it, Shift with arrow keys sizes it, Enter sets it, Escape leaves.",
        "Touch corner after corner, then “Set it”. Or: arrow keys move the cross, Space sets a corner, Backspace takes one back, Enter sets the outline, Escape leaves.",
        "Draw from end to end. Or: arrow keys move the cross, Space sets an end, Enter sets the line, Escape leaves.",
        "Touch the place. Or: arrow keys move the cross, Enter sets it, Escape leaves.",
        "Drawing on the picture. {0}",
        "An outline has three corners at least; there is {0} so far.|An outline has three corners at least; there are {0} so far.",
        "One end is set. Touch the other.",
        "{0} corner.|{0} corners.",
        "“Set it” when it is whole.",
        "One end is set. Move on with the arrow keys, then Enter.",
        "A point, {0} from the left and {1} from the top.",
        "A line of {0} pixels, about {1} mm.",
        "A line of {0} pixels.",
        "An outline of {4} corners, {0} wide and {1} high, {2} from the left and {3} from the top.",
        "A rectangle, {0} wide and {1} high, {2} from the left and {3} from the top.",
        "{0}. Arrow keys move the picture, plus and minus bring it closer and further.",
        "Set. {0} Now say what it shows.",
    ];

    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The reader's texts by their English, as JSON; null where she reads English.</summary>
    public static string? ForReader => Markup.Language == "en" ? null : JsonSerializer.Serialize(All.ToDictionary(english => english, InReadersLanguage), Plain);

    // The made-up language knows no list of forms; each of them is a text for it.
    private static string InReadersLanguage(string english) =>
        Markup.Language == Languages.MadeUp ? string.Join('|', english.Split('|').Select(T)) : T(english);
}
