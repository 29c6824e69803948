using System.Collections.Concurrent;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>The shipped faces: a serif for names, a plain face for data. No font of the machine is ever used.</summary>
internal sealed class Fonts : IFontResolver
{
    private const string Plain = "SourceSans3_400Regular", Strong = "SourceSans3_600SemiBold", Serif = "SourceSerif4_600SemiBold";

    private static readonly XPdfFontOptions Embedded = new(PdfFontEncoding.Unicode, PdfFontEmbedding.TryComputeSubset);

    /// <summary>All of them.</summary>
    public static readonly IReadOnlyList<string> Faces = [Plain, Strong, Serif];

    static Fonts() => GlobalFontSettings.FontResolver ??= new Fonts();

    // To set up a face anew for every label costs more than to draw it; the sizes are a few dozen.
    private static readonly ConcurrentDictionary<(string Face, double Size), XFont> Ready = new();

    public static XFont Body(double size) => Of(Plain, size);

    public static XFont Bold(double size) => Of(Strong, size);

    public static XFont Name(double size) => Of(Serif, size);

    private static XFont Of(string face, double size) =>
        Ready.GetOrAdd((face, size), key => new XFont(key.Face, key.Size, XFontStyleEx.Regular, Embedded));

    public FontResolverInfo ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(familyName);

    public byte[] GetFont(string faceName) => File(faceName);

    /// <summary>The face's file.</summary>
    public static byte[] File(string faceName)
    {
        using var resource = typeof(Fonts).Assembly.GetManifestResourceStream(faceName + ".ttf")
            ?? throw new InvalidOperationException($"The font {faceName} is not among the resources.");
        var bytes = new byte[resource.Length];
        resource.ReadExactly(bytes);
        return bytes;
    }
}
