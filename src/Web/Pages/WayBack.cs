using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages;

/// <summary>The way back to where she came from.</summary>
public static class WayBack
{
    /// <summary>An address of this archive as it was sent; else <paramref name="otherwise"/>, so that no link leads anybody away from here.</summary>
    public static string Here(this IUrlHelper url, string? back, string otherwise = "/") => url.IsLocalUrl(back) ? back : otherwise;
}
