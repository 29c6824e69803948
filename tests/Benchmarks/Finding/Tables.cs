using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using Npgsql;
using NpgsqlTypes;

namespace HeirloomArchive.Benchmarks.Finding;

/// <summary>The other yardstick: the record as normalised tables of PostgreSQL with indexes, GIN full text, and counts by SQL.</summary>
internal sealed class Tables(NpgsqlDataSource source)
{
    private static readonly Dictionary<string, (string Table, string Column)> Where = new()
    {
        ["kind"] = ("g", "kind"), ["overall"] = ("g", "overall"), ["cloth"] = ("m", "word"), ["tuckKind"] = ("t", "tuck_kind"), ["sewn"] = ("t", "sewn"), ["part"] = ("t", "part"),
        ["lace"] = ("l", "lace"), ["lacePart"] = ("l", "part"), ["laceMade"] = ("l", "lace_made"), ["condition"] = ("c", "what"), ["severity"] = ("c", "severity"),
    };

    private static readonly Dictionary<string, string> Names = new() { ["g"] = "g", ["m"] = "materials", ["t"] = "techniques", ["l"] = "techniques", ["c"] = "findings" };

    /// <summary>Makes and fills the tables, then the indexes, then the statistics.</summary>
    public async Task Fill(int garments)
    {
        await Run("""
            create schema plain;
            set search_path = plain;
            create table plain.g(id int primary key, kind text, overall text, year_from int, year_to int, number text, said tsvector);
            create table plain.materials(garment int, word text);
            create table plain.techniques(garment int, kind text, tuck_kind text, sewn text, part text, lace text, lace_made text);
            create table plain.findings(garment int, what text, part text, severity text);
            """);
        await using var connection = await source.OpenConnectionAsync();
        await Copy(connection, "plain.g(id, kind, overall, year_from, year_to, number, said)", garments, (w, i, f) =>
        {
            var years = f["dated"]?.ToString() is { } dated && Edtf.TryParse(dated, out var date, out _) ? date.Years : default;
            Row(w, i, f["kind"], f["overall"], years.From, years.To, f["number"]);
            w.Write(Text(f), NpgsqlDbType.Text);
        }, "said");
        await Copy(connection, "plain.materials(garment, word)", garments, (w, i, f) => Each(f["materials"], m => Row(w, i, m["word"])));
        await Copy(connection, "plain.techniques(garment, kind, tuck_kind, sewn, part, lace, lace_made)", garments, (w, i, f) =>
            Each(f["techniques"], t => Row(w, i, t["kind"], t["tuckKind"], t["sewn"], t["part"], t["lace"], t["laceMade"])));
        await Copy(connection, "plain.findings(garment, what, part, severity)", garments, (w, i, f) => Each(f["condition"], c => Row(w, i, c["what"], c["part"], c["severity"])));
        foreach (var on in new[] { "g(kind)", "g(overall)", "g(year_from, year_to)", "g(number)", "materials(word)", "materials(garment)", "techniques(garment)", "techniques(tuck_kind, sewn, part)",
            "techniques(sewn)", "techniques(part)", "techniques(lace, part)", "techniques(lace_made)", "findings(garment)", "findings(what, severity)" })
        {
            await Run($"create index on plain.{on}");
        }

        await Run("create index on plain.g using gin(said); vacuum analyze plain.g; ");
        await Run("analyze plain.materials; analyze plain.techniques; analyze plain.findings");
    }

    public async Task<(int Total, Dictionary<string, Dictionary<string, int>> Facets)> Ask(Question question)
    {
        await using var connection = await source.OpenConnectionAsync();
        await using var batch = new NpgsqlBatch(connection);
        Add(batch, $"select count(*) from plain.g where {Met(question, null, null)}", question);
        Add(batch, $"select id from plain.g where {Met(question, null, null)} order by number limit 20", question);
        foreach (var facet in Questions.Facets)
        {
            var (table, column) = Where[facet];
            var sql = table == "g"
                ? $"select {column}, count(*) from plain.g where {Met(question, facet, null)} group by 1"
                : $"select x.{column}, count(distinct x.garment) from plain.{Names[table]} x where {Entry(question, table, facet)} and x.garment in (select id from plain.g where {Met(question, facet, table)}) group by 1";
            Add(batch, sql, question);
        }

        var facets = new Dictionary<string, Dictionary<string, int>>();
        await using var reader = await batch.ExecuteReaderAsync();
        await reader.ReadAsync();
        var total = (int)reader.GetInt64(0);
        await reader.NextResultAsync();
        while (await reader.ReadAsync())
        {
        }

        foreach (var facet in Questions.Facets)
        {
            await reader.NextResultAsync();
            var counts = facets[facet] = [];
            while (await reader.ReadAsync())
            {
                if (!reader.IsDBNull(0))
                {
                    counts[reader.GetString(0)] = (int)reader.GetInt64(1);
                }
            }
        }

        return (total, facets);
    }

    // Values are of this program's own lists; only the word goes as a parameter, as a typed one would.
    private static void Add(NpgsqlBatch batch, string sql, Question question)
    {
        var command = new NpgsqlBatchCommand(sql);
        if (question.Word is not null)
        {
            command.Parameters.Add(new NpgsqlParameter { Value = question.Word });
        }

        batch.BatchCommands.Add(command);
    }

    private static string Met(Question question, string? but, string? butTable)
    {
        var met = new List<string>();
        foreach (var (name, value) in question.Given.Where(g => g.Name != but))
        {
            if (name == "decade")
            {
                met.Add(string.Create(CultureInfo.InvariantCulture, $"year_to >= {value[..4]} and year_from <= {int.Parse(value[..4], CultureInfo.InvariantCulture) + 9}"));
            }
            else if (name == "to")
            {
                met.Add($"year_from <= {value}");
            }
            else if (Where[name].Table == "g")
            {
                met.Add($"{Where[name].Column} = '{value}'");
            }
        }

        foreach (var table in new[] { "m", "t", "l", "c" }.Where(t => t != butTable && question.Given.Any(g => Where.TryGetValue(g.Name, out var w) && w.Table == t)))
        {
            met.Add($"id in (select x.garment from plain.{Names[table]} x where {Entry(question, table, null)})");
        }

        if (question.Word is not null)
        {
            met.Add("said @@ websearch_to_tsquery('english', $1)");
        }

        return met.Count == 0 ? "true" : string.Join(" and ", met);
    }

    private static string Entry(Question question, string table, string? but)
    {
        var entry = question.Given.Where(g => g.Name != but && Where.TryGetValue(g.Name, out var w) && w.Table == table).Select(g => $"x.{Where[g.Name].Column} = '{g.Value}'").ToList();
        if (table == "l")
        {
            entry.Add("x.kind in ('lace', 'insertion', 'edging', 'embroidered-trim')");
        }

        return entry.Count == 0 ? "true" : string.Join(" and ", entry);
    }

    private async Task Run(string sql)
    {
        foreach (var one in sql.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            await using var command = source.CreateCommand(one);
            command.CommandTimeout = 0;
            await command.ExecuteNonQueryAsync();
        }
    }

    private static async Task Copy(NpgsqlConnection connection, string into, int garments, Action<NpgsqlBinaryImporter, int, JsonObject> write, string? text = null)
    {
        // A tsvector can't be sent as text in a binary copy: the words go into a table beside it and are turned by one statement.
        var target = text is null ? into : "plain.sent(id, kind, overall, year_from, year_to, number, said)";
        if (text is not null)
        {
            await using var make = new NpgsqlCommand("create unlogged table plain.sent(id int, kind text, overall text, year_from int, year_to int, number text, said text)", connection);
            await make.ExecuteNonQueryAsync();
        }

        await using (var writer = await connection.BeginBinaryImportAsync($"copy {target} from stdin (format binary)"))
        {
            writer.Timeout = TimeSpan.FromHours(1);
            for (var i = 0; i < garments; i++)
            {
                write(writer, i, Collection.Make(i).Fields);
            }

            await writer.CompleteAsync();
        }

        if (text is not null)
        {
            await using var turn = new NpgsqlCommand($"insert into {into} select id, kind, overall, year_from, year_to, number, to_tsvector('english', said) from plain.sent", connection) { CommandTimeout = 0 };
            await turn.ExecuteNonQueryAsync();
        }
    }

    private static void Row(NpgsqlBinaryImporter writer, int garment, params object?[] values)
    {
        writer.StartRow();
        writer.Write(garment, NpgsqlDbType.Integer);
        foreach (var value in values)
        {
            switch (value)
            {
                case null:
                    writer.WriteNull();
                    break;
                case int number:
                    writer.Write(number, NpgsqlDbType.Integer);
                    break;
                default:
                    writer.Write(value.ToString()!, NpgsqlDbType.Text);
                    break;
            }
        }
    }

    private static void Each(JsonNode? list, Action<JsonObject> row)
    {
        foreach (var one in list as JsonArray ?? [])
        {
            row(one!.AsObject());
        }
    }

    // Every text and every chosen word, as ours indexes them.
    private static string Text(JsonNode fields)
    {
        var text = new StringBuilder();
        void Walk(JsonNode? node)
        {
            switch (node)
            {
                case JsonObject inner:
                    foreach (var (name, value) in inner)
                    {
                        if (name is not ("id" or "mm"))
                        {
                            Walk(value);
                        }
                    }

                    break;
                case JsonArray list:
                    foreach (var one in list)
                    {
                        Walk(one);
                    }

                    break;
                case JsonValue value when value.GetValueKind() == System.Text.Json.JsonValueKind.String:
                    text.Append(value.GetValue<string>()).Append(' ');
                    break;
            }
        }

        Walk(fields);
        return text.ToString();
    }
}
