using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Api;

/// <summary>
/// The words as SKOS (W3C Recommendation, 18 August 2009) in compacted JSON-LD 1.1: each facet a concept scheme, each word a concept.
/// Ids are paths, so they hold at whatever address the archive is served.
/// </summary>
public static class Skos
{
    /// <summary>Everything in one graph.</summary>
    public static JsonObject Whole(Thesaurus words) => new()
    {
        ["@context"] = Context(),
        ["@graph"] = new JsonArray(
        [
            .. words.FacetNames.Select(f => Scheme(words, f)),
            .. words.All.Concat(words.Merged).OrderBy(w => w.Id, StringComparer.Ordinal).Select(w => Concept(words, w)),
        ]),
    };

    /// <summary>One facet with its words.</summary>
    public static JsonObject Facet(Thesaurus words, string facet) => new()
    {
        ["@context"] = Context(),
        ["@graph"] = new JsonArray([Scheme(words, facet), .. words.In(facet).OrderBy(w => w.Slug, StringComparer.Ordinal).Select(w => Concept(words, w))]),
    };

    /// <summary>One word by itself.</summary>
    public static JsonObject One(Thesaurus words, Word word)
    {
        var concept = Concept(words, word);
        concept.Insert(0, "@context", Context());
        return concept;
    }

    private static JsonObject Scheme(Thesaurus words, string facet) => new()
    {
        ["id"] = Id(facet),
        ["type"] = "ConceptScheme",
        ["prefLabel"] = words.Title(facet),
        ["hasTopConcept"] = Ids(words.Top(facet).Select(w => w.Id)),
    };

    private static JsonObject Concept(Thesaurus words, Word word)
    {
        var concept = new JsonObject { ["id"] = Id(word.Id), ["type"] = "Concept", ["prefLabel"] = word.Label };
        Put(concept, "altLabel", word.Synonyms.Select(s => (JsonNode)s));
        if (word.Definition.Length > 0)
        {
            concept["definition"] = word.Definition;
        }

        if (word.Note is not null)
        {
            concept["scopeNote"] = word.Note;
        }

        concept["inScheme"] = Id(word.Facet);
        if (word.IsOwn)
        {
            concept["own"] = true;
        }

        if (word.MergedInto is not null)
        {
            concept["deprecated"] = true;
            concept["isReplacedBy"] = Id($"{word.Facet}/{words.Meant(word.Facet, word.Slug)}");
            return concept;
        }

        if (word.Broader is null)
        {
            concept["topConceptOf"] = Id(word.Facet);
        }

        Put(concept, "broader", word.Broader is null ? [] : [Id($"{word.Facet}/{word.Broader}")]);
        Put(concept, "narrower", words.Narrower(word).Select(w => (JsonNode)Id(w.Id)));
        Put(concept, "related", word.Related.Select(r => (JsonNode)Id(r)));
        return concept;
    }

    private static void Put(JsonObject concept, string name, IEnumerable<JsonNode> values)
    {
        if (new JsonArray([.. values]) is { Count: > 0 } some)
        {
            concept[name] = some;
        }
    }

    private static JsonArray Ids(IEnumerable<string> ids) => new([.. ids.Select(i => (JsonNode)Id(i))]);

    private static string Id(string word) => $"/api/words/{word}";

    private static JsonObject Context()
    {
        var context = new JsonObject
        {
            ["@version"] = 1.1m,
            ["skos"] = "http://www.w3.org/2004/02/skos/core#",
            ["dct"] = "http://purl.org/dc/terms/",
            ["owl"] = "http://www.w3.org/2002/07/owl#",
            ["xsd"] = "http://www.w3.org/2001/XMLSchema#",
            ["id"] = "@id",
            ["type"] = "@type",
            ["Concept"] = "skos:Concept",
            ["ConceptScheme"] = "skos:ConceptScheme",
            ["own"] = null,
            ["deprecated"] = new JsonObject { ["@id"] = "owl:deprecated", ["@type"] = "xsd:boolean" },
            ["isReplacedBy"] = new JsonObject { ["@id"] = "dct:isReplacedBy", ["@type"] = "@id" },
        };
        foreach (var (name, isSet) in new[] { ("prefLabel", false), ("altLabel", true), ("definition", false), ("scopeNote", false) })
        {
            context[name] = Term(name, "@language", "en", isSet);
        }

        foreach (var (name, isSet) in new[] { ("inScheme", false), ("topConceptOf", false), ("hasTopConcept", true), ("broader", true), ("narrower", true), ("related", true) })
        {
            context[name] = Term(name, "@type", "@id", isSet);
        }

        return context;
    }

    private static JsonObject Term(string name, string key, string value, bool isSet)
    {
        var term = new JsonObject { ["@id"] = $"skos:{name}", [key] = value };
        if (isSet)
        {
            term["@container"] = "@set";
        }

        return term;
    }
}
