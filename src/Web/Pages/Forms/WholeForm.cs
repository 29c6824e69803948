using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>The change that a whole form makes: what stands in it is set, what was emptied is taken out (RFC 7396).</summary>
public static class WholeForm
{
    public static JsonObject AsPatch(JsonObject values, IEnumerable<Field> asked)
    {
        var patch = new JsonObject();
        foreach (var field in asked)
        {
            patch[field.Name] = (values[field.Name], field.Type) switch
            {
                (JsonObject { Count: > 0 } inner, RecordType record) => AsPatch(inner, record.Fields),
                (null or JsonObject { Count: 0 }, _) => null,
                // A word of her own or a length is one value, not an object to be mixed with the old one.
                ({ } value, _) => value.DeepClone(),
            };
        }

        return patch;
    }
}
