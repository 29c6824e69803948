using System.Text.Json.Nodes;

namespace HeirloomArchive.Worksheets.Tests;

/// <summary>Worksheets as they might be asked for, the same in every run: all four lies, sections, twin-needle tucks, both papers both ways.</summary>
internal static class Generated
{
    private static readonly string[] Kinds = ["towards-end", "towards-start", "from-centre", "towards-centre", "twin", "sections", "mirrored"];

    public static Worksheet Made(int seed)
    {
        var random = new Random(seed);
        var kind = Kinds[seed % Kinds.Length];
        var request = kind switch
        {
            "twin" => new JsonObject { ["plan"] = Twin(random) },
            "sections" => new JsonObject { ["sections"] = Sections(random) },
            "mirrored" => new JsonObject { ["sections"] = Sections(random), ["mirrored"] = true },
            _ => new JsonObject { ["plan"] = Run(random, kind) },
        };
        request["paper"] = seed % 2 == 0 ? "A4" : "letter";
        request["landscape"] = seed / 2 % 2 == 1;
        request["unit"] = new[] { "in16", "in32", "mm" }[seed % 3];
        request["title"] = $"Worksheet {seed}: tucks for a yoke, ½″ × ¾ & more";
        if (random.Next(2) == 0)
        {
            request["allow"] = new JsonObject { ["start"] = Sixteenths(random, 4, 16), ["end"] = Sixteenths(random, 0, 16), ["bottom"] = Sixteenths(random, 0, 20), ["shaping"] = Sixteenths(random, 0, 8) };
        }

        if (random.Next(3) == 0)
        {
            request["notes"] = "First note.\nSecond note, after a line of its own.";
            request["trims"] = new JsonArray(new JsonObject { ["edge"] = "24 in", ["width"] = "3/4 in", ["fullness"] = 1.5, ["corners"] = 2 });
        }

        return Examples.Made(Examples.Object(request.ToJsonString()));
    }

    private static JsonArray Sections(Random random)
    {
        var sections = new JsonArray();
        var count = random.Next(2, 5);
        for (var i = 0; i < count; i++)
        {
            sections.Add(i % 2 == 1
                ? new JsonObject { ["insertion"] = new JsonObject { ["width"] = Sixteenths(random, 4, 24), ["laidOn"] = random.Next(2) == 0 } }
                : new JsonObject { ["plan"] = random.Next(4) == 0 ? Twin(random) : Run(random, Kinds[random.Next(2)]) });
        }

        return sections;
    }

    private static JsonObject Run(Random random, string lies)
    {
        var groups = new JsonArray();
        var between = new JsonArray();
        for (var g = random.Next(1, 4); g > 0; g--)
        {
            groups.Add(new JsonObject { ["tucks"] = random.Next(1, 9), ["width"] = Sixteenths(random, 1, 8), ["space"] = Sixteenths(random, 0, 10) });
            if (g > 1)
            {
                between.Add(Sixteenths(random, 0, 24));
            }
        }

        var centred = lies.EndsWith("centre", StringComparison.Ordinal);
        var run = new JsonObject { ["groups"] = groups, ["between"] = between, ["lies"] = lies, [centred ? "centre" : "lead"] = Sixteenths(random, 0, 32), ["trail"] = Sixteenths(random, 0, 32) };
        if (random.Next(3) == 0)
        {
            run["testStrip"] = new JsonObject { ["tucks"] = 10, ["width"] = "1/8 in", ["flat"] = "12 in", ["finished"] = "9 7/16 in" };
        }

        return run;
    }

    private static JsonObject Twin(Random random) => new()
    {
        ["twinNeedle"] = true,
        ["groups"] = new JsonArray(new JsonObject { ["tucks"] = random.Next(2, 15), ["width"] = "2.5 mm", ["foldToFold"] = $"{random.Next(3, 15)} mm" }),
        ["lead"] = $"{random.Next(0, 40)} mm",
        ["trail"] = $"{random.Next(0, 40)} mm",
        ["testStrip"] = new JsonObject { ["tucks"] = 10, ["width"] = "2.5 mm", ["flat"] = "120 mm", ["finished"] = "113 mm" },
    };

    private static string Sixteenths(Random random, int from, int to) => $"{random.Next(from, to + 1)}/16 in";
}
