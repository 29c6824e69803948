namespace HeirloomArchive.Web.Demo.Drawing;

internal enum Sleeve { None, Strap, Frill, Short, Puff, Long }

/// <summary>How a garment of one kind is cut, half widths and heights in pixels of the sheet.</summary>
internal sealed record Cut(
    float Top, float Bottom, float Neck, float Shoulder, float Chest, float WaistY, float Waist, float Hem,
    Sleeve Sleeve = Sleeve.None, float YokeY = 0, float NeckDip = 46, bool Seam = true)
{
    /// <summary>The cut of a kind, or null for what is no body garment.</summary>
    public static Cut? Of(string? kind) => kind switch
    {
        "christening-gown" => new(86, 1112, 64, 112, 92, 236, 74, 272, Sleeve.Puff, NeckDip: 40),
        "baby-dress" => new(150, 1060, 52, 136, 128, 318, 132, 322, Sleeve.Long, YokeY: 318),
        "gertrude" => new(150, 1050, 56, 112, 126, 300, 140, 276, YokeY: 290, NeckDip: 74, Seam: false),
        "lingerie-dress" => new(96, 1070, 38, 112, 110, 396, 76, 286, Sleeve.Long, NeckDip: -26),
        "childs-dress" => new(150, 1040, 54, 138, 150, 640, 168, 318, Sleeve.Short, NeckDip: 34),
        "chemise" => new(120, 1084, 112, 158, 168, 470, 200, 300, Sleeve.Short, YokeY: 400, NeckDip: 76, Seam: false),
        "nightgown" or "nightshirt" => new(84, 1120, 44, 142, 150, 300, 172, 312, Sleeve.Long, YokeY: 300, NeckDip: 14),
        "pinafore" => new(150, 1050, 82, 140, 124, 352, 132, 320, Sleeve.Frill, NeckDip: 88),
        "infant-shirt" => new(290, 900, 92, 190, 206, 560, 214, 240, Sleeve.Short, YokeY: 420, NeckDip: 60, Seam: false),
        "blouse" => new(210, 900, 58, 168, 182, 800, 142, 176, Sleeve.Long, NeckDip: -26),
        "corset-cover" => new(300, 920, 120, 178, 196, 780, 140, 190, Sleeve.Frill, NeckDip: 110),
        "camisole" => new(310, 960, 150, 176, 186, 800, 160, 190, Sleeve.Strap, YokeY: 520, NeckDip: 120),
        "petticoat" or "slip" => new(150, 1060, 92, 92, 96, 178, 98, 340, NeckDip: 0),
        "tea-gown" => new(80, 1120, 54, 118, 116, 330, 122, 400, Sleeve.Long, NeckDip: 60, Seam: false),
        "graduation-dress" => new(120, 1040, 60, 118, 112, 350, 92, 228, Sleeve.Short, NeckDip: 40),
        "smocked-dress" => new(180, 1010, 50, 128, 150, 330, 190, 330, Sleeve.Long, YokeY: 380, NeckDip: 22, Seam: false),
        "combing-jacket" => new(260, 900, 60, 176, 210, 420, 240, 330, Sleeve.Short, YokeY: 400, NeckDip: 40, Seam: false),
        "reproduction" => new(330, 800, 88, 250, 236, 790, 250, 250, YokeY: 800, NeckDip: 80),
        _ => null,
    };

    /// <summary>The same from behind: the neck is higher there.</summary>
    public Cut FromBehind => NeckDip > 20 ? this with { NeckDip = NeckDip * 0.45f } : this;

    /// <summary>Half the width at a height.</summary>
    public float Half(float y)
    {
        if (y <= WaistY)
        {
            var t = Math.Clamp((y - Top - 110) / MathF.Max(1, WaistY - Top - 110), 0, 1);
            return Chest + (Waist - Chest) * t * t;
        }

        var down = (y - WaistY) / (Bottom - WaistY);
        return Waist + (Hem - Waist) * MathF.Pow(down, 0.82f);
    }

    /// <summary>How far the middle of a level line hangs below its ends.</summary>
    public float Sag(float y) => y <= WaistY ? 0 : 26 * (y - WaistY) / (Bottom - WaistY);
}
