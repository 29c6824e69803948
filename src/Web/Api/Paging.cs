using System.Globalization;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>Which page of a list: <c>page</c> from 1, <c>size</c> 1 to 100, page × size at most 10 000.</summary>
public readonly record struct Paging(int Page, int Size)
{
    private const int Deepest = 10_000;

    /// <summary>Reads both from the query; 1 and 20 where they are absent.</summary>
    /// <exception cref="FaultException">Not a number, or out of range.</exception>
    public static Paging Read(HttpRequest request)
    {
        var faults = new List<Fault>();
        var page = Number(request, "page", 1, Deepest, faults);
        var size = Number(request, "size", 20, 100, faults);
        if (faults.Count == 0 && (long)page * size > Deepest)
        {
            faults.Add(new("page", $"page {page} of {size} lies beyond the first {Deepest} entries; ask for an earlier page.", FaultKind.Unreadable));
        }

        return faults.Count == 0 ? new(page, size) : throw new FaultException(faults);
    }

    private static int Number(HttpRequest request, string name, int otherwise, int most, List<Fault> faults)
    {
        var text = request.Query[name].ToString();
        if (text.Length == 0)
        {
            return otherwise;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= 1 && number <= most)
        {
            return number;
        }

        faults.Add(new(name, $"\"{text.Short()}\" is not a whole number from 1 to {most}.", FaultKind.Unreadable));
        return otherwise;
    }
}
