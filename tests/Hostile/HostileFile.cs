using SkiaSharp;

namespace HeirloomArchive.Hostile.Tests;

/// <summary>A file made to do harm, or only unusual, and what must come of it.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Bytes">Made when it is sent.</param>
/// <param name="Expected">A picture or a refusal.</param>
public sealed record HostileFile(string Name, Func<byte[]> Bytes, Expected Expected)
{
    /// <summary>The name it is sent under.</summary>
    public byte[] SentAs { get; init; } = "picture.png"u8.ToArray();
}

public abstract record Expected;

/// <summary>It is a picture of this size, and its corners have these colours within <paramref name="Near"/> a channel.</summary>
/// <param name="Width">The right way up.</param>
/// <param name="Height">The right way up.</param>
/// <param name="Corners">Upper left, upper right, lower left, lower right; one for all.</param>
/// <param name="Near">What JPEG and its colours lose.</param>
public sealed record Taken(int Width, int Height, SKColor[] Corners, int Near = 12) : Expected;

/// <summary>It is refused with this status, and its sentence has these words.</summary>
public sealed record Refused(int Status, string Says) : Expected;
