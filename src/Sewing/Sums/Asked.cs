using System.ComponentModel;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>
/// What was sent to a sum, read by its <see cref="Ask"/>s: every needed field is there and within its bounds.
/// What only the sum can see is refused through <see cref="Refuse"/>, by the field's name.
/// </summary>
public sealed class Asked
{
    private readonly Dictionary<string, object> values;
    private readonly List<Fault> faults;
    private readonly string path;

    internal Asked(Dictionary<string, object> values, string path, LengthUnit unit, List<Fault> faults) =>
        (this.values, this.path, Unit, this.faults) = (values, path, unit, faults);

    /// <summary>The unit of the first length sent; inches if there is none.</summary>
    public LengthUnit Unit { get; internal set; }

    /// <summary>True when the field was sent.</summary>
    public bool Has(string name) => values.ContainsKey(name);

    /// <summary>A length; zero when it was left out.</summary>
    public Length Length(string name) => values.TryGetValue(name, out var v) ? (Length)v : Sewing.Length.Zero;

    /// <summary>A length, or null when it was left out.</summary>
    public Length? LengthOrNull(string name) => values.TryGetValue(name, out var v) ? (Length)v : null;

    /// <summary>A whole number; <paramref name="otherwise"/> when it was left out.</summary>
    public int Whole(string name, int otherwise = 0) => values.TryGetValue(name, out var v) ? (int)v : otherwise;

    /// <summary>A number; <paramref name="otherwise"/> when it was left out.</summary>
    public decimal Number(string name, decimal otherwise = 0) => values.TryGetValue(name, out var v) ? (decimal)v : otherwise;

    /// <summary>A choice's slug, or a text; empty when it was left out.</summary>
    public string Text(string name) => values.TryGetValue(name, out var v) ? (string)v : "";

    /// <summary>Yes or no; no when it was left out.</summary>
    public bool Flag(string name) => values.TryGetValue(name, out var v) && (bool)v;

    /// <summary>Several lengths; none when left out.</summary>
    public IReadOnlyList<Length> Lengths(string name) => values.TryGetValue(name, out var v) ? (IReadOnlyList<Length>)v : [];

    /// <summary>Fields that belong together, or null when they were left out.</summary>
    public Asked? Part(string name) => values.TryGetValue(name, out var v) ? (Asked)v : null;

    /// <summary>The rows; none when left out.</summary>
    public IReadOnlyList<Asked> Rows(string name) => values.TryGetValue(name, out var v) ? (IReadOnlyList<Asked>)v : [];

    /// <summary>A length in the unit she uses.</summary>
    public string Show(Length length) => length.ToText(Unit);

    /// <summary>The path of a field of this part: <c>strips[1].flat</c>.</summary>
    public string At(string field) => JsonReading.At(path, field);

    /// <summary>Notes a fault that makes no sense of the sum; <see cref="Throw"/> ends it.</summary>
    /// <param name="field">The field's name here.</param>
    /// <param name="message">Names the value and what would be right.</param>
    public void Refuse(string field, [Localizable(true)] string message) => faults.Add(new(At(field), message));

    /// <summary>Notes a fault when <paramref name="holds"/> is false.</summary>
    public void Check(bool holds, string field, [Localizable(true)] string message)
    {
        if (!holds)
        {
            Refuse(field, message);
        }
    }

    /// <summary>Throws when anything was refused so far.</summary>
    /// <exception cref="FaultException">All that was refused.</exception>
    public void Throw()
    {
        if (faults.Count > 0)
        {
            throw new FaultException([.. faults]);
        }
    }

    internal IEnumerable<Asked> Inner => values.Values.SelectMany(v => v switch
    {
        Asked part => [part],
        IReadOnlyList<Asked> rows => rows,
        _ => (IEnumerable<Asked>)[],
    });
}
