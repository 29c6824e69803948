using System.IO.Compression;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>What a backup says of itself, in its entry <c>contents.json</c>.</summary>
/// <param name="Format">Counts up when an older program could not read it.</param>
/// <param name="Made">When.</param>
/// <param name="Tables">In the order in which they are to be filled.</param>
/// <param name="Sequences">What numbers the next rows.</param>
/// <param name="Pictures">The originals, by their SHA-256; entries <c>pictures/{sha256}</c>.</param>
internal sealed record Contents(int Format, DateTimeOffset Made, IReadOnlyList<Table> Tables, IReadOnlyList<Sequence> Sequences, IReadOnlyList<string> Pictures)
{
    public const int NewestFormat = 2;
    private const string Entry = "contents.json";
    private static readonly JsonSerializerOptions Writing = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public static string PictureEntry(string sha256) => "pictures/" + sha256;

    public void Write(ZipArchive file)
    {
        using var entry = file.CreateEntry(Entry).Open();
        JsonSerializer.Serialize(entry, this, Writing);
    }

    /// <exception cref="StartException">Not a backup, or one of a newer program.</exception>
    public static Contents Read(ZipArchive file, string path)
    {
        try
        {
            using var entry = file.GetEntry(Entry)?.Open();
            if (entry is not null && JsonSerializer.Deserialize<Contents>(entry, Writing) is { } contents)
                return contents.Format <= NewestFormat ? contents : throw new StartException($"{path} was made by a newer program: restore it with that one.");
        }
        catch (JsonException)
        {
            // Said below.
        }
        throw new StartException($"{path} is not a backup of an archive.");
    }
}

/// <summary>A table's rows, in PostgreSQL's text format, in the entry <c>tables/{schema}.{name}</c>.</summary>
/// <param name="Schema">Of PostgreSQL.</param>
/// <param name="Name">Of the table.</param>
/// <param name="Columns">In the order of the rows' values.</param>
/// <param name="Rows">How many.</param>
/// <param name="Sha256">Of the entry's bytes.</param>
internal sealed record Table(string Schema, string Name, IReadOnlyList<string> Columns, long Rows, string Sha256)
{
    [JsonIgnore] public string Entry => $"tables/{Schema}.{Name}";
    [JsonIgnore] public string Quoted => $"\"{Schema}\".\"{Name}\"";
    [JsonIgnore] public string QuotedColumns => string.Join(", ", Columns.Select(c => $"\"{c}\""));
}

/// <summary>Where a sequence stands; null when it has not been used.</summary>
internal sealed record Sequence(string Schema, string Name, long? Value);
