using System.Reflection;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Xml.Linq;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Supply;

/// <summary>
/// What comes from elsewhere: every package of every lock file (NuGet's <c>packages.lock.json</c>, npm's <c>package-lock.json</c>), with the
/// licence that it declares itself, and what is carried without a package (<c>supply.json</c>).
/// </summary>
internal static class Components
{
    private static readonly JsonSerializerOptions Writing = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>One of them.</summary>
    /// <param name="Name">As its maker calls it.</param>
    /// <param name="Version">Of what is carried without a package it may not be known.</param>
    /// <param name="Purl">Its package URL; of what is carried without a package, its name.</param>
    /// <param name="Licence">An SPDX expression; null where it declares none.</param>
    /// <param name="Ships">Whether it is part of the product, or only of its tests.</param>
    internal sealed record Component(string Name, string? Version, string Purl, string? Licence, bool Ships)
    {
        /// <summary>What is said of it by hand.</summary>
        public JsonObject? ByHand { get; init; }

        /// <summary>The folder in which its licence's file lies; null where it is not here.</summary>
        public string? Folder { get; init; }
    }

    public static string Kept { get; } = Path.Combine(SourceFolder.Top, "docs", "components.cdx.json");

    public static JsonObject Rules { get; } = Read(Path.Combine(SourceFolder.Top, "tests", "Web", "Supply", "supply.json"));

    /// <summary>Files of ours of this name, in order.</summary>
    public static IReadOnlyList<string> Files(string name) =>
    [
        .. ((string[])["src", "tests"]).SelectMany(under => Directory.EnumerateFiles(Path.Combine(SourceFolder.Top, under), name, SearchOption.AllDirectories))
            .Where(f => !((string[])["node_modules", "bin", "obj"]).Any(folder => f.Split(Path.DirectorySeparatorChar).Contains(folder))).Order(StringComparer.Ordinal),
    ];

    /// <summary>All of them, by package URL.</summary>
    public static IReadOnlyList<Component> All() =>
    [
        .. Files("packages.lock.json").SelectMany(FromNuGet).Concat(Files("package-lock.json").SelectMany(FromNpm))
            .GroupBy(c => c.Purl).Select(same => same.First() with { Ships = same.Any(c => c.Ships) }).Select(Corrected)
            .Concat(Rules["carried"]!.AsArray().Select(Carried)).OrderBy(c => c.Purl, StringComparer.Ordinal),
    ];

    /// <summary>The list in CycloneDX 1.6, a line each; without date or number, so that the same packages give the same list.</summary>
    public static string Written() => string.Join('\n',
        """{"$schema": "http://cyclonedx.org/schema/bom-1.6.schema.json", "bomFormat": "CycloneDX", "specVersion": "1.6",""",
        """
        "metadata": {"component": {"type": "application", "bom-ref": "HeirloomArchive", "name": "HeirloomArchive"}},
        """,
        "\"components\": [",
        string.Join(",\n", All().Select(c => ToJson(c).ToJsonString(Writing))),
        "]}", "");

    private static JsonObject ToJson(Component component)
    {
        var json = new JsonObject { ["type"] = "library", ["bom-ref"] = component.Purl, ["name"] = component.Name };
        if (component.Version is not null) json["version"] = component.Version;
        json["scope"] = component.Ships ? "required" : "excluded";
        if (component.Licence is not null) json["licenses"] = new JsonArray(new JsonObject { ["expression"] = component.Licence });
        if (component.Purl.StartsWith("pkg:", StringComparison.Ordinal)) json["purl"] = component.Purl;
        return json;
    }

    private static IEnumerable<Component> FromNuGet(string file)
    {
        var packages = typeof(Components).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "NuGetFolder").Value!;
        foreach (var (name, locked) in Read(file)["dependencies"]!.AsObject().SelectMany(framework => framework.Value!.AsObject()))
        {
            if (locked!["type"]!.ToString() == "Project") continue;
            var version = locked["resolved"]!.ToString();
            var folder = Path.Combine(packages, name.ToLowerInvariant(), version.ToLowerInvariant());
            var description = Path.Combine(folder, name.ToLowerInvariant() + ".nuspec");
            Assert.True(File.Exists(description), $"{name} {version} of {file} is not here: run 'dotnet restore' once for everything.");
            var licence = XDocument.Load(description).Descendants().FirstOrDefault(e => e.Name.LocalName == "license" && e.Attribute("type")?.Value == "expression")?.Value;
            yield return new(name, version, $"pkg:nuget/{name}@{version}", licence, IsProduct(file)) { Folder = folder };
        }
    }

    private static IEnumerable<Component> FromNpm(string file)
    {
        foreach (var (path, locked) in Read(file)["packages"]!.AsObject())
        {
            if (path.Length == 0) continue;
            var (name, version) = (path[(path.LastIndexOf("node_modules/", StringComparison.Ordinal) + "node_modules/".Length)..], locked!["version"]!.ToString());
            Assert.True(locked["integrity"] is not null, $"{name} in {file} has no digest.");
            yield return new(name, version, $"pkg:npm/{name.Replace("@", "%40", StringComparison.Ordinal)}@{version}", locked["license"]?.ToString(), IsProduct(file));
        }
    }

    private static Component Corrected(Component component) =>
        Rules["byHand"]!.AsArray().FirstOrDefault(h => component.Purl.StartsWith(h!["of"]!.ToString(), StringComparison.Ordinal)) is JsonObject hand
            ? component with { Licence = component.Licence ?? hand["licence"]!.ToString(), ByHand = hand } : component;

    private static Component Carried(JsonNode? said) =>
        new(said!["name"]!.ToString(), said["version"]?.ToString(), said["name"]!.ToString(), said["licence"]!.ToString(), Ships: true) { ByHand = said.AsObject() };

    private static bool IsProduct(string file) => file.StartsWith(Path.Combine(SourceFolder.Top, "src"), StringComparison.Ordinal);

    private static JsonObject Read(string file) => JsonNode.Parse(File.ReadAllText(file))!.AsObject();
}
