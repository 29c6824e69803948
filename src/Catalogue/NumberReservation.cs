using System.Text;
using Marten;

namespace HeirloomArchive.Catalogue;

/// <summary>A number that is taken: the document's id is the number normalised, so that two pieces can't have it.</summary>
public sealed class NumberReservation
{
    /// <summary>The most characters of a normalised number: one sign may stand for eighteen letters, and an index takes only so much.</summary>
    internal const int Longest = 300;

    /// <summary>The number: Unicode NFKC, upper case, no white space.</summary>
    public string Id { get; set; } = "";

    /// <summary>Who has it.</summary>
    public Guid Garment { get; set; }

    /// <summary>A number as it is compared: <c>g-0 14</c> and <c>Ｇ-014</c> are both <c>G-014</c>.</summary>
    public static string Normalise(string number) =>
        string.Concat(number.Normalize(NormalizationForm.FormKC).ToUpperInvariant().Where(c => !char.IsWhiteSpace(c)));

    /// <summary>Takes the new number and frees the old one, in the session that saves the event.</summary>
    internal static void Move(IDocumentSession session, Guid garment, string? old, string? now)
    {
        var (freed, taken) = (old is null ? null : Normalise(old), now is null ? null : Normalise(now));
        if (freed == taken)
        {
            return;
        }

        if (freed is not null)
        {
            session.Delete<NumberReservation>(freed);
        }

        if (taken is not null)
        {
            session.Insert(new NumberReservation { Id = taken, Garment = garment });
        }
    }
}
