namespace HeirloomArchive.Web.Guide;

/// <summary>What the guide's chapters show beside their text.</summary>
public static class GuideRoutes
{
    /// <summary>The screenshots, which the tests take of the real thing.</summary>
    public static void MapGuide(this WebApplication app) =>
        app.MapGet("/guide/screenshots/{name}.png", (string name) => Book.Screenshot(name) is { } picture ? Results.Stream(picture, "image/png") : Results.NotFound())
            .ExcludeFromDescription();
}
