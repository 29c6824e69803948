using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>
/// Reads a Web Annotation (W3C, Web Annotation Data Model, 23 February 2017) on one picture: a target with one selector,
/// bodies, and of a line perhaps how long it is on the piece (<c>length</c>, ours). Nothing that is sent is dropped unsaid.
/// </summary>
public static class AnnotationReader
{
    /// <summary>What the annotation says.</summary>
    /// <param name="sent">The annotation.</param>
    /// <param name="frame">The picture it is to lie on.</param>
    /// <param name="before">The region that it changes; null for a new one.</param>
    /// <exception cref="FaultException">With every fault, by its path.</exception>
    public static RegionSaying Read(JsonObject sent, RegionFrame frame, Region? before)
    {
        ArgumentNullException.ThrowIfNull(sent);
        ArgumentNullException.ThrowIfNull(frame);
        List<Fault> faults = [];
        Vocabulary.OnlyKnown(sent, "", faults, "@context", "id", "type", "motivation", "created", "modified", "version", "body", "target", "length");
        CheckHead(sent, before, faults);
        var shape = Target(sent["target"], frame, faults);
        if (shape?.Problem(frame.Width, frame.Height) is { } problem)
        {
            faults.Add(new(SelectorPath(sent["target"]), problem));
        }

        var shows = AnnotationBodies.Read(sent["body"], frame, before, faults);
        var measured = Measured(sent["length"], shape, faults);
        if (shows.Count == 0 && faults.Count == 0 && shape!.Kind != ShapeKind.Line)
        {
            faults.Add(new("body", T("Say what is shown: a technique, a finding, a repair, a word or a text. Only a line may stand by itself.")));
        }

        return faults.Count > 0
            ? throw new FaultException(faults)
            : new(shape!, shows, measured, Motivation(sent["motivation"]) ?? UsualMotivation(shows));
    }

    private static void CheckHead(JsonObject sent, Region? before, List<Fault> faults)
    {
        if (sent["@context"] is { } context && !(context is JsonArray list ? list : [context.DeepClone()]).Any(c => Vocabulary.Text(c) == Vocabulary.Context))
        {
            faults.Add(new("@context", $"{Vocabulary.Show(context)} does not name {Vocabulary.Context}."));
        }

        if (sent["type"] is { } type && Vocabulary.Text(type) != "Annotation")
        {
            faults.Add(new("type", $"{Vocabulary.Show(type)} is not “Annotation”."));
        }

        if (sent["motivation"] is { } why && !Vocabulary.Motivations.Contains(Motivation(why)))
        {
            faults.Add(new("motivation", $"{Vocabulary.Show(why)} is no motivation; send one of {string.Join(", ", Vocabulary.Motivations)}."));
        }

        Computed("id", before?.Id.ToString(), text => Vocabulary.Steps(text).LastOrDefault());
        Computed("created", before is null ? null : Vocabulary.Moment(before.Made), text => text);
        Computed("modified", before is null ? null : Vocabulary.Moment(before.Now.When), text => text);
        if (sent["version"] is { } version && version.ToJsonString() != before?.Version.ToString(System.Globalization.CultureInfo.InvariantCulture))
        {
            faults.Add(new("version", "The archive counts the versions; leave it out, and send the one you saw as If-Match."));
        }

        void Computed(string name, string? now, Func<string, string?> read)
        {
            if (sent[name] is { } given && (now is null || Vocabulary.Text(given) is not { } text || read(text) != now))
            {
                faults.Add(new(name, $"The archive itself says the {name}{(now is null ? "" : $", {now}")}; leave it out."));
            }
        }
    }

    private static string? Motivation(JsonNode? node) => Vocabulary.Text(node is JsonArray { Count: 1 } list ? list[0] : node);

    private static string UsualMotivation(IReadOnlyList<ShownThing> shows) =>
        shows.Any(s => RegionFrame.ListOf(s.Kind) is not null) ? "identifying"
        : shows.Any(s => s.Kind == ShownKind.Word) ? "classifying"
        : shows.Count > 0 ? "describing" : "highlighting";

    private static string SelectorPath(JsonNode? target) =>
        (target is JsonArray ? "target[0]" : "target") is var path && (target is JsonArray list ? list[0] : target) is JsonObject o && o["selector"] is { } selector
            ? $"{path}.selector{(selector is JsonArray ? "[0]" : "")}.value" : "target";

    private static Shape? Target(JsonNode? target, RegionFrame frame, List<Fault> faults)
    {
        if (target is JsonArray { Count: not 1 } several)
        {
            return Refuse(faults, "target", $"There are {several.Count} targets; a region has one place.");
        }

        var path = target is JsonArray ? "target[0]" : "target";
        target = target is JsonArray one ? one[0] : target;
        if (Vocabulary.Text(target) is { } address)
        {
            return WithFragment(address, path, frame, faults);
        }

        if (target is not JsonObject sent)
        {
            return Refuse(faults, path, target is null ? "Say where: a target with the picture as its source and a selector." : $"{Vocabulary.Show(target)} is no target.", target is null ? FaultKind.Senseless : FaultKind.Unreadable);
        }

        if (sent["selector"] is null && Vocabulary.Text(sent["id"]) is { } id)
        {
            return WithFragment(id, $"{path}.id", frame, faults);
        }

        Vocabulary.OnlyKnown(sent, path, faults, "type", "source", "selector");
        var source = sent["source"] is JsonObject inner ? inner["id"] : sent["source"];
        if (sent["source"] is not null && Vocabulary.Text(source) is not { } text)
        {
            return Refuse(faults, $"{path}.source", $"{Vocabulary.Show(sent["source"])} is no address.", FaultKind.Unreadable);
        }

        CheckSource(Vocabulary.Text(source), $"{path}.source", frame, faults);
        return Selected(sent["selector"], $"{path}.selector", frame, faults);
    }

    private static Shape? WithFragment(string address, string path, RegionFrame frame, List<Fault> faults)
    {
        CheckSource(address, path, frame, faults);
        return address.Split('#') is [_, var fragment]
            ? Took(FragmentSelector.Read(Uri.UnescapeDataString(fragment), frame.Width, frame.Height), path, faults)
            : Refuse(faults, path, "Say where on the picture: a selector, or #xywh= at the end of the address.");
    }

    // The picture itself, as its canvas or as its IIIF image; by which host it is asked for does not matter.
    private static void CheckSource(string? address, string path, RegionFrame frame, List<Fault> faults)
    {
        if (address is not null && !(Vocabulary.Steps(address) is ["iiif", "garments", _, "canvas", var canvas] && Same(canvas)
            || Vocabulary.Steps(address) is ["iiif", "image", var image] && Same(image)))
        {
            faults.Add(new(path, $"“{FragmentSelector.Short(address)}” is not this picture; it is /iiif/garments/{frame.Garment.Id}/canvas/{frame.Picture} or /iiif/image/{frame.Picture}."));
        }

        bool Same(string text) => Guid.TryParse(text, out var id) && id == frame.Picture;
    }

    private static Shape? Selected(JsonNode? selector, string path, RegionFrame frame, List<Fault> faults)
    {
        if (selector is JsonArray { Count: not 1 } several)
        {
            return Refuse(faults, path, $"There are {several.Count} selectors; send the one that says where.");
        }

        path = selector is JsonArray ? $"{path}[0]" : path;
        if ((selector is JsonArray one ? one[0] : selector) is not JsonObject sent)
        {
            return Refuse(faults, path, "Say where on the picture: a FragmentSelector or an SvgSelector with its value.", selector is null ? FaultKind.Senseless : FaultKind.Unreadable);
        }

        Vocabulary.OnlyKnown(sent, path, faults, "type", "value", "conformsTo");
        if (Vocabulary.Text(sent["value"]) is not { } value)
        {
            return Refuse(faults, $"{path}.value", $"{Vocabulary.Show(sent["value"])} is not a text.", FaultKind.Unreadable);
        }

        var type = Vocabulary.Text(sent["type"]);
        if (type == "FragmentSelector" && sent["conformsTo"] is { } standard && Vocabulary.Text(standard) is not (FragmentSelector.ConformsTo or "http://www.w3.org/TR/media-frags"))
        {
            faults.Add(new($"{path}.conformsTo", $"{Vocabulary.Show(standard)} is not read here; it is {FragmentSelector.ConformsTo}."));
        }

        return type switch
        {
            "FragmentSelector" => Took(FragmentSelector.Read(value, frame.Width, frame.Height), $"{path}.value", faults),
            "SvgSelector" => Took(SvgSelector.Read(value), $"{path}.value", faults),
            _ => Refuse(faults, $"{path}.type", $"{Vocabulary.Show(sent["type"])} is no selector that is read here: send FragmentSelector for a rectangle, SvgSelector for a polygon, a line or a point."),
        };
    }

    private static MeasuredLength? Measured(JsonNode? length, Shape? shape, List<Fault> faults)
    {
        if (length is null)
        {
            return null;
        }

        if (LengthJson.Read(length, "length", faults) is not { } read)
        {
            return null;
        }

        if (read.Length <= Length.Zero || (shape is not null && shape.Kind != ShapeKind.Line))
        {
            faults.Add(new("length", read.Length <= Length.Zero ? T($"“{read.Text}” is no length of a line: it is above 0.") : T("Only a line is measured; take the length out, or mark a line.")));
        }

        return new(read.Length.Nanometres, read.Text);
    }

    private static Shape? Took((Shape? Shape, string? Problem) read, string path, List<Fault> faults) =>
        read.Problem is { } problem ? Refuse(faults, path, problem) : read.Shape;

    private static Shape? Refuse(List<Fault> faults, string path, string message, FaultKind kind = FaultKind.Senseless)
    {
        faults.Add(new(path, message, kind));
        return null;
    }
}
