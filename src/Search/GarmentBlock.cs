using System.Text.Json.Nodes;
using HeirloomArchive.Search.Alike;
using Lucene.Net.Documents;
using Lucene.Net.Util;

namespace HeirloomArchive.Search;

/// <summary>Turns one garment into its block of documents: an entry each, the garment itself last.</summary>
internal static class GarmentBlock
{
    /// <summary>The layout of the documents. Raise it when a field is added or means something else.</summary>
    public const int Layout = 5;

    // A term may have 32 766 bytes; a longer value could not be typed as a filter anyway.
    private const int LongestTerm = 8_000;

    public static List<Document> Of(Guid id, JsonObject state)
    {
        var block = new List<Document>();
        var said = new RecordText();
        var lines = new List<string>();
        foreach (var technique in Parameter.Entries(state["techniques"]))
        {
            var isLace = Parameter.LaceKinds.Contains(Parameter.Text(technique["kind"]) ?? "");
            var document = Entry(technique, "techniques", said, lines, isLace ? [Group.Work, Group.Lace] : [Group.Work]);
            Widths(document, Spans.TuckWidth, Parameter.Entries(technique["groups"]));
            if (isLace)
            {
                Widths(document, Spans.LaceWidth, [technique]);
            }

            Made(document, technique);
            block.Add(document);
        }

        foreach (var finding in Parameter.Entries(state["condition"]))
        {
            // What has ended is still told by its words, but no longer counts as the piece's condition.
            block.Add(Entry(finding, "condition", said, lines, finding["ended"] is null ? [Group.Condition] : []));
        }

        foreach (var repair in Parameter.Entries(state["repairs"]))
        {
            block.Add(Entry(repair, "repairs", said, lines, [Group.Repair]));
        }

        block.Add(Whole(id, state, said, lines));
        var garment = id.ToString();
        foreach (var document in block)
        {
            document.Add(new TermField(Fields.Garment, garment));
        }

        return block;
    }

    /// <summary>All that is said of a garment in words, chosen or its own, as <see cref="Fields.Shown"/> tells it.</summary>
    public static IEnumerable<string> Said(JsonObject state)
    {
        var whole = RecordText.Of(state, "garment");
        var entries = new[] { "techniques", "condition", "repairs" }.SelectMany(list => Parameter.Entries(state[list]).Select(e => RecordText.Of(e, list)));
        return entries.Prepend(whole).SelectMany(t => t.Labels.Concat(t.Free)).Select(t => t.Text);
    }

    // How it is made, whole for comparing and in steps for picking what to compare.
    private static void Made(Document document, JsonObject technique)
    {
        document.Add(new StoredField(Fields.Built, new BytesRef(Construction.Kept(technique))));
        var made = Construction.Of(technique);
        foreach (var (field, step) in new[] { (Candidates.Share, Candidates.ShareStep(made)), (Candidates.Size, Candidates.SizeStep(made)) })
        {
            if (step is not null)
            {
                document.Add(new TermField(field, step));
            }
        }
    }

    private static Document Entry(JsonObject entry, string list, RecordText said, List<string> lines, Group[] groups)
    {
        var document = new Document();
        var text = RecordText.Of(entry, list);
        foreach (var group in groups)
        {
            document.Add(new TermField(Fields.Group, group.ToString()));
            Values(document, Parameter.Of(group), entry);
        }

        if (list == "techniques" && Parameter.Text(entry["id"]) is { } id)
        {
            document.Add(new StoredField(Fields.Entry, id));
        }

        Text(document, text.Labels);
        Trade(document, text.Chosen, text.Lengths);
        said.Hear(text);
        lines.Add(Line(text));
        return document;
    }

    private static Document Whole(Guid id, JsonObject state, RecordText said, List<string> lines)
    {
        var document = new Document { new TermField(Fields.Kind, Fields.Parent) };
        Values(document, Parameter.Of(Group.Garment), state);
        var text = RecordText.Of(state, "garment");
        var own = text.Free.ToList();
        text.Hear(said);
        Text(document, [.. text.Labels, .. text.Free]);
        Trade(document, text.Chosen.Union(text.Told), text.Lengths.Union(text.ToldLengths));

        foreach (var word in text.OwnTexts)
        {
            document.Add(new TermField(Fields.OwnText, Term(word)));
        }

        var name = Parameter.Text(state["name"]) ?? "";
        var number = Parameter.Text(state["number"]);
        var dated = Parameter.Text(state["dated"]);
        document.Add(WordsField.Stems(Fields.Name, [Analysis.Tokens(name)]));
        document.Add(new StoredField(Fields.Name, name));
        Sorted(document, Fields.ByName, NaturalOrder.Key(name));
        Sorted(document, Fields.ById, id.ToString());
        document.Add(new StoredField(Fields.Id, id.ToString()));
        var head = new HashSet<string?> { name, number, dated };
        document.Add(new StoredField(Fields.Shown, string.Join(" · ", own.Select(f => f.Text).Where(f => !head.Contains(f)).Append(Joined(", ", text.Labels)).Concat(lines).Where(l => l.Length > 0))));
        if (number is not null)
        {
            document.Add(new StoredField(Fields.Number, number));
            document.Add(new TermField(Fields.NumberTyped, Term(NaturalOrder.Normal(number))));
            Sorted(document, Fields.ByNumber, NaturalOrder.Key(number));
        }

        if (dated is not null)
        {
            document.Add(new StoredField(Fields.Dated, dated));
            if (Spans.YearsOf(dated) is { } years)
            {
                Year(document, Fields.YearFrom, years.From);
                Year(document, Fields.YearTo, years.To);
            }
        }

        if (Parameter.Entries(state["pictures"]).FirstOrDefault() is { } picture && Parameter.Text(picture["id"]) is { } pictureId)
        {
            document.Add(new StoredField(Fields.Picture, pictureId));
        }

        return document;
    }

    private static string Line(RecordText text) =>
        string.Join(": ", new[] { Joined(", ", text.Labels), Joined(" ", text.Free) }.Where(t => t.Length > 0));

    private static string Joined(string between, IEnumerable<Said> texts) => string.Join(between, texts.Select(t => t.Text));

    private static void Values(Document document, IEnumerable<Parameter> parameters, JsonObject entry)
    {
        foreach (var parameter in parameters)
        {
            foreach (var value in parameter.Read(entry).OfType<string>().Select(parameter.Meant).Select(Term).Distinct())
            {
                // Facets are counted from these terms' lists, see Column: no doc values of them.
                document.Add(new TermField(parameter.Name, value));
            }
        }
    }

    private static void Text(Document document, IEnumerable<Said> texts)
    {
        List<List<Token>> words = [.. texts.Select(t => t.Words)];
        document.Add(WordsField.Stems(Fields.Text, words));
        document.Add(WordsField.Whole(Fields.WholeWords, words));
    }

    private static void Trade(Document document, IEnumerable<string> words, IEnumerable<long> lengths)
    {
        foreach (var word in words)
        {
            document.Add(new TermField(Fields.Trade, word));
        }

        foreach (var length in lengths)
        {
            document.Add(NumberField.Long(Fields.Length, length));
        }
    }

    private static void Widths(Document document, string field, IEnumerable<JsonObject> entries)
    {
        foreach (var width in entries.Select(e => (e["width"] as JsonObject)?["mm"]).OfType<JsonNode>())
        {
            document.Add(NumberField.Long(field, RecordText.Nanometres(width)));
        }
    }

    private static void Year(Document document, string field, int year)
    {
        document.Add(NumberField.Int(field, year));
        document.Add(new NumericDocValuesField(field, year));
    }

    private static void Sorted(Document document, string field, string key) =>
        document.Add(new SortedDocValuesField(field, new BytesRef(Term(key))));

    /// <summary>A value as it can stand in the index.</summary>
    internal static string Term(string value) => value.Length <= LongestTerm ? value : value[..LongestTerm];
}
