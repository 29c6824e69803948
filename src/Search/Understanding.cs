namespace HeirloomArchive.Search;

/// <summary>Decides what the pieces of a typed sentence mean, and which belong together.</summary>
internal static class Understanding
{
    // Of several facets a word may be of, the first is taken, unless what stands around it says otherwise.
    private static readonly string[] Order =
    [
        "kinds", "laces", "tucks", "whitework", "trims", "cloth", "findings", "repairs", Vocabulary.Made, "parts", "techniques",
        Vocabulary.Forms, "seams", "stitches", "fastenings", Vocabulary.Severities,
    ];

    private static readonly Dictionary<string, Group> GroupOf = new()
    {
        ["laces"] = Group.Lace, ["trims"] = Group.Lace, [Vocabulary.Forms] = Group.Lace, ["tucks"] = Group.Work, ["whitework"] = Group.Work,
        ["techniques"] = Group.Work, ["seams"] = Group.Work, ["stitches"] = Group.Work, ["fastenings"] = Group.Work,
        ["findings"] = Group.Condition, ["repairs"] = Group.Repair,
    };

    /// <summary>Gives every piece its meaning; those that stay without one are plain words.</summary>
    public static void Choose(IReadOnlyList<Piece> pieces)
    {
        foreach (var clause in pieces.Where(p => p.Meanings.Count > 0).GroupBy(p => (p.Clause, p.Unwanted)))
        {
            foreach (var piece in clause)
            {
                piece.Chosen = Choose(piece, clause);
            }
        }
    }

    /// <summary>The group that a part, a way of making or a measure belongs to: that of the nearest word which has one.</summary>
    public static Group Nearest(IReadOnlyList<Piece> pieces, int at)
    {
        bool HasGroup(int i) => pieces[i].Unwanted == pieces[at].Unwanted && pieces[i].Chosen is { } meaning && GroupOf.ContainsKey(meaning.Facet);
        var before = Enumerable.Range(0, at).Where(HasGroup).LastOrDefault(-1);
        var after = Enumerable.Range(at + 1, pieces.Count - at - 1).Where(HasGroup).FirstOrDefault(-1);
        var clause = pieces[at].Clause;
        var nearest = before >= 0 && pieces[before].Clause == clause ? before
            : after >= 0 && pieces[after].Clause == clause ? after
            : before;
        return nearest < 0 ? Group.Work : GroupOf[pieces[nearest].Chosen!.Value.Facet];
    }

    /// <summary>The parameters that say the piece; none for a plain word.</summary>
    public static IReadOnlyList<(string Parameter, string Value)> Say(IReadOnlyList<Piece> pieces, int at)
    {
        if (pieces[at].Chosen is not { } meaning)
        {
            return [];
        }

        return meaning.Facet switch
        {
            "parts" => [(PartOf(Nearest(pieces, at)), meaning.Slug)],
            Vocabulary.Made => Made(Nearest(pieces, at), meaning.Slug),
            Vocabulary.Forms => [("laceForm", meaning.Slug)],
            Vocabulary.Severities => [("severity", meaning.Slug)],
            var facet => Parameter.All.FirstOrDefault(p => p.Words == facet) is { } parameter ? [(parameter.Name, meaning.Slug)] : [],
        };
    }

    private static Meaning? Choose(Piece piece, IEnumerable<Piece> clause)
    {
        var others = clause.Where(p => p != piece).SelectMany(p => p.Meanings).Select(m => m.Facet).ToHashSet();
        Meaning? Of(string facet) => piece.Meanings.Where(m => m.Facet == facet).Select(m => (Meaning?)m).FirstOrDefault();

        // "on the collar", "collar tucks": a place; "a torchon insertion": a form of the lace; "severe" alone: just a word.
        if (Of("parts") is { } part && (piece.Placed || others.Any(GroupOf.ContainsKey)) && !piece.Meanings.Any(m => m.Facet is "tucks" or "laces"))
        {
            return part;
        }

        if (Of(Vocabulary.Forms) is { } form && others.Contains("laces"))
        {
            return form;
        }

        return Order.Where(facet => facet != Vocabulary.Severities || others.Contains("findings"))
            .Where(facet => facet != Vocabulary.Forms || others.Contains("laces"))
            .Select(Of).FirstOrDefault(m => m is not null);
    }

    private static string PartOf(Group group) => group switch
    {
        Group.Lace => "lacePart",
        Group.Condition => "conditionPart",
        Group.Repair => "repairPart",
        _ => "part",
    };

    private static IReadOnlyList<(string, string)> Made(Group group, string how)
    {
        var plain = how.StartsWith("machine", StringComparison.Ordinal) ? "machine" : how;
        string[] machines = how == "machine" ? [.. Machines] : [how];
        return group switch
        {
            Group.Lace => [("laceMade", plain)],
            Group.Repair => [.. machines.Select(m => ("repairSewn", m))],
            _ => [.. machines.Select(m => ("sewn", m))],
        };
    }

    // A filter matches its slug only, so "by machine" asks for every kind of machine.
    private static readonly string[] Machines =
    [
        "machine", "machine-lockstitch", "machine-chainstitch", "machine-double-chainstitch", "machine-zigzag", "machine-hemstitch",
        "machine-embroidery", "overlock",
    ];
}
