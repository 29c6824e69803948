using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>What a query asks for, and how a refusal shows what was sent.</summary>
internal static class Asked
{
    /// <summary>True or false; null where the query does not say.</summary>
    /// <exception cref="FaultException">Neither (400).</exception>
    public static bool? YesOrNo(HttpRequest request, string name) => request.Query[name].ToString() switch
    {
        "" => null,
        "true" => true,
        "false" => false,
        var other => throw new FaultException(name, $"\"{other.Short()}\" is neither true nor false.", FaultKind.Unreadable),
    };

    /// <summary>The beginning of what was sent, and an ellipsis where it is longer.</summary>
    /// <param name="text">What was sent.</param>
    /// <param name="most">The most UTF-16 units that are shown; no character is cut in half.</param>
    public static string Short(this string text, int most = 40) =>
        text.Length <= most ? text : text[..(char.IsHighSurrogate(text[most - 1]) ? most - 1 : most)] + "…";
}
