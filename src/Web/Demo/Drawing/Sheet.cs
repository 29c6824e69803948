using System.Numerics;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Where the light comes from: above, low at one side so that every fold throws a shadow, or through the cloth.</summary>
internal enum LightFrom { Above, Side, Behind }

/// <summary>
/// White work on a coloured ground: <see cref="Cloth"/> is how much white lies at a pixel (each layer hides more of the
/// ground), <see cref="Light"/> how brightly it is lit. What is dyed is drawn on top.
/// </summary>
internal sealed class Sheet
{
    public const int Width = 900;
    public const int Height = 1200;

    private static readonly Vector3[] Grounds =
    [
        new(92, 116, 138), new(122, 98, 122), new(104, 126, 112), new(142, 104, 98),
        new(86, 104, 126), new(132, 116, 92), new(98, 122, 128), new(118, 92, 104),
    ];

    private static readonly Vector3 White = new(250, 248, 241);
    private static readonly Vector3 Through = new(255, 250, 234);

    private readonly List<(Plane Where, Vector3 Colour)> dyed = [];
    private readonly Vector3 ground;

    /// <param name="seed">Equal seeds give equal drawings.</param>
    /// <param name="colour">Which ground.</param>
    public Sheet(uint seed, uint colour)
    {
        Chance = new Chance(seed);
        ground = Grounds[colour % Grounds.Length];
    }

    public Plane Cloth { get; } = new(Width, Height);

    public Plane Light { get; } = new(Width, Height, 1);

    public Chance Chance { get; }

    /// <summary>Where the light comes from.</summary>
    public LightFrom From { get; init; }

    /// <summary>A new plane for something that is not white.</summary>
    public Plane Dye(float red, float green, float blue)
    {
        var plane = new Plane(Width, Height);
        dyed.Add((plane, new Vector3(red, green, blue)));
        return plane;
    }

    /// <summary>A thread that lies on the cloth: light catches it and it throws a little shadow.</summary>
    public void Thread(float x0, float y0, float x1, float y1, float width, float amount = 0.9f)
    {
        Light.Stroke(x0 + width * 0.5f, y0 + width * 0.7f, x1 + width * 0.5f, y1 + width * 0.7f, width * 1.3f, 0.16f, Blend.Cut);
        Light.Stroke(x0, y0, x1, y1, width * 0.7f, 0.07f, Blend.Lift);
        Cloth.Stroke(x0, y0, x1, y1, width, amount);
    }

    public void ThreadPath(ReadOnlySpan<Vector2> points, float width, float amount = 0.9f)
    {
        var shifted = points.ToArray();
        for (var i = 0; i < shifted.Length; i++) shifted[i] += new Vector2(width * 0.5f, width * 0.7f);
        Light.Path(shifted, width * 1.3f, 0.16f, Blend.Cut);
        Light.Path(points, width * 0.7f, 0.07f, Blend.Lift);
        Cloth.Path(points, width, amount);
    }

    /// <summary>Softens <paramref name="shape"/> into a shadow beside it.</summary>
    public void Shadow(Plane shape, int dx, int dy, int blur, float depth)
    {
        var soft = new Plane(Width, Height);
        for (var y = Math.Max(0, dy); y < Height + Math.Min(0, dy); y++)
        {
            for (var x = Math.Max(0, dx); x < Width + Math.Min(0, dx); x++)
            {
                soft.Values[y * Width + x] = shape.Values[(y - dy) * Width + x - dx];
            }
        }

        soft.Blur(blur);
        for (var i = 0; i < soft.Values.Length; i++) Light.Values[i] *= 1 - depth * soft.Values[i] * (1 - shape.Values[i]);
    }

    /// <summary>Covers the whole sheet with one layer of plain weave, warp threads <paramref name="pitch"/> pixels apart, weft threads as far unless told.</summary>
    public void Weave(float amount, float pitch, float? weftPitch = null)
    {
        var warp = Slubs(Width, pitch);
        var weft = Slubs(Height, weftPitch ?? pitch);
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                var thread = (warp[x] + weft[y]) * 0.5f;
                Cloth.Values[y * Width + x] = Math.Clamp(amount + 0.16f * thread + 0.02f * Chance.Grain(x, y), 0, 1);
            }
        }
    }

    /// <summary>The picture as it is seen, as a PNG file.</summary>
    public byte[] Develop()
    {
        var rgb = new byte[Width * Height * 3];
        float[] cloth = Cloth.Values, light = Light.Values;
        for (int y = 0, i = 0; y < Height; y++)
        {
            var ey = (y - Height * 0.42f) / Height;
            var rough = 1f;
            for (var x = 0; x < Width; x++, i++)
            {
                if (x % 2 == 0) rough = 1 + 0.022f * Chance.Grain(x / 2, y / 2);
                var ex = (x - Width * 0.46f) / Width;
                var room = 1.05f - 0.34f * (ex * ex + ey * ey);
                var white = Math.Clamp(cloth[i], 0, 1);
                var lit = light[i] * (room + 0.35f * (1 - room) * white);
                var colour = From == LightFrom.Behind ? Through * (0.34f + 0.66f * MathF.Exp(-1.5f * white)) : ground * (rough * (1 - white)) + White * white;
                lit = From switch { LightFrom.Behind => 0.6f + 0.4f * lit, LightFrom.Side => MathF.Max(0.15f, 0.9f + 2.1f * (lit - 1)), _ => lit };
                foreach (var (where, dye) in dyed)
                {
                    if (where.Values[i] > 0) colour += (dye - colour) * where.Values[i];
                }

                rgb[i * 3] = Byte(colour.X * lit);
                rgb[i * 3 + 1] = Byte(colour.Y * lit);
                rgb[i * 3 + 2] = Byte(colour.Z * lit);
            }
        }

        return Png.Write(Width, rgb);
    }

    private static byte Byte(float value) => (byte)Math.Clamp(value + 0.5f, 0, 255);

    private float[] Slubs(int count, float pitch)
    {
        var line = new float[count];
        for (var i = 0; i < count; i++)
        {
            var thread = (int)(i / pitch);
            line[i] = MathF.Cos(2 * MathF.PI * i / pitch) * 0.7f + Chance.Grain(thread, count) * 0.3f;
        }

        return line;
    }
}
