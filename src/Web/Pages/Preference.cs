namespace HeirloomArchive.Web.Pages;

/// <summary>How she likes a page, kept in her browser: her unit, the columns of her list. By https it is bound to this host alone.</summary>
public static class Preference
{
    /// <summary>What was kept; null for nothing.</summary>
    public static string? Read(HttpRequest request, string name) => request.Cookies[Named(request, name)];

    /// <summary>Keeps it.</summary>
    public static void Keep(HttpContext http, string name, string value) => http.Response.Cookies.Append(Named(http.Request, name), value, new()
    {
        Path = "/", HttpOnly = true, SameSite = SameSiteMode.Lax, Secure = http.Request.IsHttps, IsEssential = true, MaxAge = TimeSpan.FromDays(400),
    });

    private static string Named(HttpRequest request, string name) => request.IsHttps ? "__Host-" + name : name;
}
